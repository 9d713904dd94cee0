"""What the log holds: one fact a line, in the past tense."""

from __future__ import annotations

import re
from datetime import datetime
from typing import Annotated, Any, Final, Literal, Self, TypeAlias

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    PlainSerializer,
    PlainValidator,
    SerializerFunctionWrapHandler,
    TypeAdapter,
    WithJsonSchema,
    model_serializer,
    model_validator,
)

from tempo_coach.core.prescription import LONGEST_NAME
from tempo_coach.core.tempo import Phase, Tempo, parse_tempo, seconds_text
from tempo_coach.core.work import PhaseTimes
from tempo_coach.errors import NotationError, OutOfRange

VERSION: Final = 1
LONGEST_IN_A_PHASE_S: Final = 36_000

_RFC3339 = re.compile(
    r"\d{4}-\d\d-\d\d[Tt]\d\d:\d\d:\d\d(?:\.\d{1,6})?(?:[Zz]|[+-]\d\d:\d\d)", re.ASCII
)


def _read_time(value: object) -> datetime:
    if isinstance(value, datetime) and value.tzinfo is not None:
        return value
    if isinstance(value, str) and _RFC3339.fullmatch(value):
        return datetime.fromisoformat(value.upper())
    raise ValueError("not a time as RFC 3339 writes it, with its offset")


def _read_tempo(value: object) -> Tempo:
    if isinstance(value, Tempo):
        return value
    if not isinstance(value, str):
        raise ValueError("a tempo is a text such as 4-1-X-1")
    try:
        return parse_tempo(value)
    except NotationError as fault:
        raise ValueError(str(fault)) from None


Time: TypeAlias = Annotated[
    datetime,
    PlainValidator(_read_time),
    PlainSerializer(lambda time: time.isoformat(), return_type=str),
    WithJsonSchema({"type": "string", "format": "date-time"}),
]
TempoText: TypeAlias = Annotated[
    Tempo,
    PlainValidator(_read_tempo),
    PlainSerializer(str, return_type=str),
    WithJsonSchema({"type": "string", "examples": ["4-1-X-1", "2.5-0-1-0"]}),
]
Version: TypeAlias = Annotated[int, Field(ge=VERSION, le=VERSION)]
"""A number and strict; a literal would take ``true`` and ``1.0`` for 1."""
Name: TypeAlias = Annotated[str, Field(min_length=1, max_length=LONGEST_NAME)]
SetId: TypeAlias = Annotated[str, Field(min_length=1, max_length=64)]
Seconds: TypeAlias = Annotated[float, Field(ge=0, le=LONGEST_IN_A_PHASE_S)]
Reps: TypeAlias = Annotated[int, Field(ge=0, le=1_000)]
Kilograms: TypeAlias = Annotated[float, Field(gt=0, le=2_000)]
Effort: TypeAlias = Annotated[float, Field(ge=1, le=10, multiple_of=0.5)]
Note: TypeAlias = Annotated[str, Field(max_length=2_000)]


class _Value(BaseModel):
    model_config = ConfigDict(
        frozen=True, extra="forbid", strict=True, allow_inf_nan=False, use_attribute_docstrings=True
    )


class PhaseSeconds(_Value):
    """Seconds spent in each phase, over the whole set."""

    lower: Seconds
    pause: Seconds
    raise_: Seconds = Field(alias="raise")
    top: Seconds

    @classmethod
    def of(cls, times: PhaseTimes) -> PhaseSeconds:
        """Return the times in seconds.

        Raises
        ------
        OutOfRange
            More than 10 h fall to one phase.
        """
        longest_ms = max(times.of(phase) for phase in Phase)
        if longest_ms > LONGEST_IN_A_PHASE_S * 1000:
            raise OutOfRange(
                f"{seconds_text(longest_ms)} s in one phase are not possible",
                hint=f"a set has at most {LONGEST_IN_A_PHASE_S} s of each phase",
            )
        return cls.model_validate({phase.value: times.of(phase) / 1000 for phase in Phase})

    def times(self) -> PhaseTimes:
        """Return the seconds as whole milliseconds."""
        return PhaseTimes(
            round(self.lower * 1000),
            round(self.pause * 1000),
            round(self.raise_ * 1000),
            round(self.top * 1000),
        )


class SetDone(_Value):
    """A set was done."""

    v: Version = VERSION
    kind: Literal["set_done"] = "set_done"
    id: SetId
    lifter: Name
    started_at: Time
    """When rep 1 began."""
    ended_at: Time
    """When the last phase ended, or the set was stopped."""
    exercise: Name
    lead: Literal["lower", "raise"]
    tempo: TempoText
    load_kg: Kilograms | None
    """None where the load is not known in kilograms."""
    load_as_written: str = Field(max_length=LONGEST_NAME)
    """Empty where none was written."""
    reps_prescribed: Annotated[int, Field(ge=1, le=1_000)] | None
    """None for a set that runs until it is stopped."""
    reps_done: Reps
    """Those wholly completed."""
    seconds: PhaseSeconds
    timing: Literal["paced", "tapped", "trace"]
    """Paced: as the track ran. Tapped or trace: as measured."""
    method: Name | None
    effort: Effort | None
    """How hard it was, 1 to 10 by halves."""
    note: Note


class Changes(_Value):
    """What a correction puts in place; what it leaves out stays, and null empties."""

    exercise: Name | None = None
    load_kg: Kilograms | None = None
    load_as_written: str | None = Field(default=None, max_length=LONGEST_NAME)
    reps_done: Reps | None = None
    seconds: PhaseSeconds | None = None
    effort: Effort | None = None
    note: Note | None = None

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        if not self.model_fields_set:
            raise ValueError("a correction changes at least one thing")
        emptied = [name for name, value in self.given().items() if value is None]
        if fixed := sorted(set(emptied) - _CLEARABLE):
            raise ValueError(f"{fixed[0]} can't be emptied")
        return self

    @model_serializer(mode="wrap")
    def _only_given(self, handler: SerializerFunctionWrapHandler) -> dict[str, Any]:
        return {name: value for name, value in handler(self).items() if name in self.given()}

    def given(self) -> dict[str, Any]:
        """Return the fields that the correction puts in place."""
        return {name: getattr(self, name) for name in self.model_fields_set}


_CLEARABLE = frozenset({"load_kg", "effort"})


class SetCorrected(_Value):
    """A set was corrected; the latest correction of a field counts."""

    v: Version = VERSION
    kind: Literal["set_corrected"] = "set_corrected"
    id: SetId
    """The set's."""
    at: Time
    changes: Changes


class SetStruck(_Value):
    """A set was struck: it no longer counts."""

    v: Version = VERSION
    kind: Literal["set_struck"] = "set_struck"
    id: SetId
    """The set's."""
    at: Time
    why: Note = ""


Fact: TypeAlias = SetDone | SetCorrected | SetStruck

FACTS: TypeAdapter[Fact] = TypeAdapter(Annotated[Fact, Field(discriminator="kind")])
"""Reads one line of the log, strictly: ``FACTS.validate_json(line)``."""

KINDS = ("set_done", "set_corrected", "set_struck")


def line_of(fact: Fact) -> bytes:
    """Return the fact as one line of the log, with its line feed."""
    return fact.model_dump_json(by_alias=True).encode() + b"\n"


def facts_schema() -> dict[str, Any]:
    """Return the JSON Schema of one line of the log."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A line of the log",
        **FACTS.json_schema(),
    }
