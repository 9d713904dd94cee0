"""What the log holds of a planned day: how it was changed for that day."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated, Any, Literal, Self, TypeAlias

from pydantic import Field, SerializerFunctionWrapHandler, model_serializer, model_validator

from tempo_coach.core.fact_values import VERSION, FactValue, Name, Note, SetId, Version
from tempo_coach.core.written_values import Day, LoadText, Time

Change: TypeAlias = Literal["skipped", "added_set", "swapped", "load_changed", "moved"]

_NEEDED: Mapping[Change, str | None] = MappingProxyType(
    {
        "skipped": "why",
        "added_set": None,
        "swapped": "exercise",
        "load_changed": "load",
        "moved": "to",
    }
)
"""The one field that each change has, beside those that all have."""


class SessionChanged(FactValue):
    """One item of a planned day was changed for that day; the plan stays as it is."""

    v: Version = VERSION
    kind: Literal["session_changed"] = "session_changed"
    id: SetId
    """The change's own."""
    at: Time
    lifter: Name
    plan: Name
    """The plan's name."""
    date: Day
    """The planned day, whenever it is really done."""
    item: Annotated[int, Field(ge=1)]
    """Its place in the plan's day, from 1."""
    change: Change
    why: Note | None = None
    """Skipped: the reason, or empty."""
    exercise: Name | None = None
    """Swapped: what is done instead."""
    load: LoadText | None = None
    """Load changed: what is taken instead."""
    to: Annotated[int, Field(ge=1)] | None = None
    """Moved: the place in the day's order, from 1."""

    @model_validator(mode="after")
    def _has_what_it_needs(self) -> Self:
        needed = _NEEDED[self.change]
        for name in _NEEDED.values():
            if name is not None and (getattr(self, name) is not None) != (name == needed):
                raise ValueError(f"{self.change} has {needed or 'no other field'}, not {name}")
        return self

    @model_serializer(mode="wrap")
    def _only_needed(self, handler: SerializerFunctionWrapHandler) -> dict[str, Any]:
        return {name: value for name, value in handler(self).items() if value is not None}
