"""What the log holds: one fact a line, in the past tense."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Final, Literal, Self, TypeAlias

from pydantic import (
    Field,
    SerializerFunctionWrapHandler,
    TypeAdapter,
    model_serializer,
    model_validator,
)

from tempo_coach.core.fact_values import (
    HEAVIEST_KG,
    VERSION,
    FactValue,
    Kilograms,
    Name,
    Note,
    SetId,
    Version,
)
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.phase_seconds import PhaseSeconds
from tempo_coach.core.prescription import LONGEST_NAME
from tempo_coach.core.rep_shape import PLAIN
from tempo_coach.core.reserve_facts import AttemptMade, ReserveBegun
from tempo_coach.core.session_facts import SessionChanged
from tempo_coach.core.soreness_facts import SorenessTold
from tempo_coach.core.written_values import ShapeText, TempoText, Time
from tempo_coach.errors import OutOfRange

SHAPED_VERSION: Final = 2
"""Of a set whose reps have a shape: programs that count them otherwise must not read it."""
LOWERED_VERSION: Final = 2
"""Of a correction of what was lowered, which older programs don't know."""

Reps: TypeAlias = Annotated[int, Field(ge=0, le=1_000)]
Effort: TypeAlias = Annotated[float, Field(ge=1, le=10, multiple_of=0.5)]


class SetDone(FactValue):
    """A set was done."""

    v: Annotated[int, Field(ge=VERSION, le=SHAPED_VERSION)] = VERSION
    """2 where the reps have a shape, else 1."""
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
    shape: ShapeText = PLAIN
    """What a rep is beyond its four phases, as it stands on the line."""
    lower_load_kg: Kilograms | None = None
    """What was lowered, where `shape` says that it was more than `load_kg`."""
    reps_done: Reps
    """Those wholly completed."""
    seconds: PhaseSeconds
    timing: Literal["paced", "tapped", "trace"]
    """Paced: as the track ran. Tapped or trace: as measured."""
    method: Name | None
    effort: Effort | None
    """How hard it was, 1 to 10 by halves."""
    note: Note

    @model_validator(mode="after")
    def _has_the_version_of_its_shape(self) -> Self:
        if (self.v == SHAPED_VERSION) != bool(self.shape):
            raise ValueError(f"version {self.v} and the shape '{self.shape}' don't go together")
        if self.lower_load_kg is not None and self.shape.lower_load is None:
            raise ValueError("lower_load_kg without a lower load in the shape")
        return self

    @model_serializer(mode="wrap")
    def _shape_only_where_there_is_one(self, handler: SerializerFunctionWrapHandler) -> Any:
        written = handler(self)
        if self.v == VERSION:
            del written["shape"], written["lower_load_kg"]
        return written

    def corrected(self, given: Mapping[str, Any]) -> SetDone:
        """Put some fields in place; what was lowered only where the shape lowers another load.

        Seconds that come without the way in which they were taken are not measured.
        """
        taken = {"timing": "paced"} if "seconds" in given else {}
        return self.model_copy(
            update=taken
            | {
                name: value
                for name, value in given.items()
                if name != "lower_load_kg" or self.shape.lower_load is not None
            }
        )

    @property
    def mean_lower_kg(self) -> float | None:
        """The load over the time it was lowered, which differs where only rep 1 had more.

        None where a load that it rests on is not known.
        """
        lowered = self.shape.lower_load
        if lowered is None:
            return self.load_kg
        if not lowered.first_rep_only:
            return self.lower_load_kg
        if self.load_kg is None or self.lower_load_kg is None:
            return None
        in_all = self.seconds.lower
        slot = self.tempo.lower
        # Without a prescribed length the reps done share the time evenly.
        first = slot / 1000 if isinstance(slot, int) else in_all / max(self.reps_done, 1)
        share = min(first / in_all, 1.0) if in_all else 0.0
        return self.load_kg + share * (self.lower_load_kg - self.load_kg)


class Changes(FactValue):
    """What a correction puts in place; what it leaves out stays, and null empties."""

    exercise: Name | None = None
    load_kg: Kilograms | None = None
    load_as_written: str | None = Field(default=None, max_length=LONGEST_NAME)
    lower_load_kg: Kilograms | None = None
    """What was lowered; says nothing of a set whose shape lowers no other load."""
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

    def given_for(self, done: SetDone) -> dict[str, Any]:
        """Return the same for a set that is to be corrected.

        Raises
        ------
        OutOfRange
            The set lowers no other load than it raises, but what was lowered is changed.
        """
        given = self.given()
        if "lower_load_kg" in given and done.shape.lower_load is None:
            raise OutOfRange(
                "the set lowers no other load than it raises",
                hint="correct its load, which is the one that was lowered",
            )
        return given

    @property
    def version(self) -> int:
        """That of a correction with these changes."""
        return LOWERED_VERSION if "lower_load_kg" in self.model_fields_set else VERSION


_CLEARABLE = frozenset({"load_kg", "effort"})


class SetCorrected(FactValue):
    """A set was corrected; the latest correction of a field counts."""

    v: Annotated[int, Field(ge=VERSION, le=LOWERED_VERSION)] = VERSION
    """2 where what was lowered is corrected, else 1."""
    kind: Literal["set_corrected"] = "set_corrected"
    id: SetId
    """The set's."""
    at: Time
    changes: Changes

    @model_validator(mode="after")
    def _has_the_version_of_its_changes(self) -> Self:
        if self.v != self.changes.version:
            raise ValueError(f"these changes are of version {self.changes.version}, not {self.v}")
        return self

    def given(self) -> dict[str, Any]:
        """Return the fields of the set that it puts in place."""
        return self.changes.given()


class SetStruck(FactValue):
    """A set was struck: it no longer counts."""

    v: Version = VERSION
    kind: Literal["set_struck"] = "set_struck"
    id: SetId
    """The set's."""
    at: Time
    why: Note = ""


What: TypeAlias = Literal["lifted", "lowered"]
"""Of which work a max is: lifted is the 1RM, lowered the most that was lowered under control."""


class MaxTested(FactValue):
    """A max was tested."""

    v: Version = VERSION
    kind: Literal["max_tested"] = "max_tested"
    id: SetId
    """The max's own."""
    lifter: Name
    at: Time
    """When it was tested."""
    exercise: Name
    what: What
    load_kg: Annotated[float, Field(gt=0, le=HEAVIEST_KG)]
    load_as_written: str = Field(max_length=LONGEST_NAME)
    lower_s: Annotated[float, Field(ge=0, le=60)] | None
    """Seconds of the lower in the test; None for a lift of which nobody took them."""
    note: Note

    @model_validator(mode="after")
    def _is_lowered_in_some_time(self) -> Self:
        if self.what == "lowered" and not self.lower_s:
            raise ValueError("a lowered max has the seconds of its lower")
        return self


class MaxStruck(FactValue):
    """A tested max was struck: it no longer counts."""

    v: Version = VERSION
    kind: Literal["max_struck"] = "max_struck"
    id: SetId
    """The max's."""
    at: Time
    why: Note = ""


Fact: TypeAlias = (
    SetDone
    | SetCorrected
    | SetStruck
    | SetMeasured
    | SessionChanged
    | MaxTested
    | MaxStruck
    | ReserveBegun
    | AttemptMade
    | SorenessTold
)

FACTS: TypeAdapter[Fact] = TypeAdapter(Annotated[Fact, Field(discriminator="kind")])
"""Reads one line of the log, strictly: ``FACTS.validate_json(line)``."""

KINDS = (
    "set_done", "set_corrected", "set_struck", "set_measured", "session_changed", "max_tested",
    "max_struck", "reserve_begun", "attempt_made", "soreness_told",
)  # fmt: skip


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
