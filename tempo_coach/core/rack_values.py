"""A rack as it is written in the settings and on the command line."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, TypeAlias, TypeVar

from pydantic import PlainSerializer, PlainValidator, WithJsonSchema

from tempo_coach.core.discs import DiscSet, parse_discs
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.mass import MASS_FORMS, Mass, check_mass, parse_mass
from tempo_coach.errors import OutOfRange

Value = TypeVar("Value")


def read_bar(text: str, *, unit: LoadUnit | None = None) -> Mass:
    """Read the mass of a bar; a bare number is in `unit`.

    Raises
    ------
    OutOfRange
        The text is no mass, or not a bar's.
    """
    return check_mass(parse_mass(text, unit=unit), what="a bar", least_kg=1, most_kg=60)


def read_collars(text: str, *, unit: LoadUnit | None = None) -> Mass:
    """Read the mass of both collars together; a bare number is in `unit`.

    Raises
    ------
    OutOfRange
        The text is no mass, or not one of collars.
    """
    return check_mass(parse_mass(text, unit=unit), what="a pair of collars", least_kg=0, most_kg=20)


def read_releaser(text: str, *, unit: LoadUnit | None = None) -> Mass:
    """Read the mass of one releaser; a bare number is in `unit`.

    Raises
    ------
    OutOfRange
        The text is no mass, or not a releaser's.
    """
    return check_mass(parse_mass(text, unit=unit), what="a releaser", least_kg=0, most_kg=20)


def _at_the_door(read: Callable[[str], Value], kind: type[Value], forms: str) -> PlainValidator:
    def check(value: object) -> Value:
        if isinstance(value, kind):
            return value
        if not isinstance(value, str):
            raise ValueError(f"a text between quotes: {forms}")
        try:
            return read(value)
        except OutOfRange as fault:
            raise ValueError(str(fault)) from None

    return PlainValidator(check)


_AS_TEXT = PlainSerializer(str, return_type=str)
_MASS_SCHEMA = WithJsonSchema({"type": "string", "examples": ["20 kg", "45 lb"]})
BarMass: TypeAlias = Annotated[
    Mass, _at_the_door(read_bar, Mass, MASS_FORMS), _AS_TEXT, _MASS_SCHEMA
]
CollarsMass: TypeAlias = Annotated[
    Mass, _at_the_door(read_collars, Mass, MASS_FORMS), _AS_TEXT, _MASS_SCHEMA
]
ReleaserMass: TypeAlias = Annotated[
    Mass, _at_the_door(read_releaser, Mass, MASS_FORMS), _AS_TEXT, _MASS_SCHEMA
]
Discs: TypeAlias = Annotated[
    DiscSet,
    _at_the_door(parse_discs, DiscSet, "such as powerlifting, or 20x4 10x4"),
    _AS_TEXT,
    WithJsonSchema({"type": "string", "examples": ["powerlifting", "20x4 10x4"]}),
]
