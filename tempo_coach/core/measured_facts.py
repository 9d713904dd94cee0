"""What the log holds of a set that was measured, beside what was prescribed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field

from tempo_coach.core.fact_values import VERSION, FactValue, SetId, Version
from tempo_coach.core.measured_rep import MeasuredRep, Motion
from tempo_coach.core.phase_seconds import PhaseSeconds, Seconds
from tempo_coach.core.tempo import Phase
from tempo_coach.core.work import PhaseTimes
from tempo_coach.core.written_values import Time

MOST_REPS_MEASURED = 1_000

Means: TypeAlias = Literal["tapped", "trace"]
"""How a set was measured: by a partner's taps, or from a trace of the bar."""
_Metres: TypeAlias = Annotated[float, Field(ge=0, le=100)]


class RepMotion(FactValue):
    """How far and how fast the bar went in one rep."""

    range_m: _Metres
    """From its highest place to its lowest."""
    lower_mean_m_s: _Metres | None
    """None, as for the others, where that phase was not measured; without direction."""
    lower_peak_m_s: _Metres | None
    raise_mean_m_s: _Metres | None
    raise_peak_m_s: _Metres | None


class RepMeasured(FactValue):
    """How long each phase of one rep really took."""

    lower: Seconds | None
    """None, as for the others, where it was not measured."""
    pause: Seconds | None
    raise_: Seconds | None = Field(alias="raise")
    top: Seconds | None
    motion: RepMotion | None
    """None for taps."""

    @classmethod
    def of(cls, rep: MeasuredRep) -> RepMeasured:
        """Return a rep as the log holds it."""
        spent = {
            phase.value: None if (length_ms := rep.of(phase)) is None else length_ms / 1000
            for phase in Phase
        }
        moved = rep.motion
        figures = (
            None if moved is None else {name: getattr(moved, name) for name in moved.__slots__}
        )
        return cls.model_validate({**spent, "motion": figures})

    def rep(self) -> MeasuredRep:
        """Return the rep in whole milliseconds."""
        return MeasuredRep(
            lower_ms=_ms(self.lower),
            pause_ms=_ms(self.pause),
            raise_ms=_ms(self.raise_),
            top_ms=_ms(self.top),
            motion=None if self.motion is None else Motion(**self.motion.model_dump()),
        )


def _ms(spent_s: float | None) -> int | None:
    return None if spent_s is None else round(spent_s * 1000)


class SetMeasured(FactValue):
    """A set was measured; its seconds now count as these, until they are corrected."""

    v: Version = VERSION
    kind: Literal["set_measured"] = "set_measured"
    id: SetId
    """The set's."""
    at: Time
    """When the measured seconds were put in place."""
    timing: Means
    seconds: PhaseSeconds
    """Of the whole set, as measured, and as paced where nothing was."""
    reps: Annotated[tuple[RepMeasured, ...], Field(min_length=1, max_length=MOST_REPS_MEASURED)]

    @classmethod
    def of(
        cls, set_id: str, reps: Sequence[MeasuredRep], *, times: PhaseTimes, by: Means, at: datetime
    ) -> SetMeasured:
        """Return what a set is found to have been.

        Raises
        ------
        OutOfRange
            As for `PhaseSeconds.of`.
        """
        return cls(
            id=set_id,
            at=at,
            timing=by,
            seconds=PhaseSeconds.of(times),
            reps=tuple(map(RepMeasured.of, reps)),
        )

    def given(self) -> dict[str, Any]:
        """Return the fields of the set that it puts in place."""
        return {"timing": self.timing, "seconds": self.seconds, "reps_done": len(self.reps)}

    def measured_reps(self) -> tuple[MeasuredRep, ...]:
        """Return the reps in whole milliseconds."""
        return tuple(one.rep() for one in self.reps)
