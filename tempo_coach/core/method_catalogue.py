"""All methods by name."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from tempo_coach.core.legible import quoted
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.methods import Method
from tempo_coach.core.nearest import nearest_of
from tempo_coach.core.overload_methods import OVERLOAD
from tempo_coach.core.submaximal_methods import SUBMAXIMAL
from tempo_coach.errors import OutOfRange

METHODS: Mapping[MethodName, Method] = MappingProxyType(
    {method.name: method for method in (*SUBMAXIMAL, *OVERLOAD)}
)
"""In the order in which they are learnt; a test of the reserve is no method to train by."""


def method_named(text: str) -> Method:
    """Return a method by name; case and spaces in place of the dashes do not matter.

    Raises
    ------
    OutOfRange
        There is none of that name.
    """
    name = "-".join(text.lower().replace("-", " ").split())
    for method in METHODS.values():
        if method.name == name:
            return method
    raise OutOfRange(
        f"{quoted(text)} is no method to train by", hint=nearest_of(name, list(METHODS))
    )
