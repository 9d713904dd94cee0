"""Seconds of a set, phase by phase, as the log holds them."""

from __future__ import annotations

from typing import Annotated, Final, TypeAlias

from pydantic import Field

from tempo_coach.core.fact_values import FactValue
from tempo_coach.core.tempo import Phase, seconds_text
from tempo_coach.core.work import PhaseTimes
from tempo_coach.errors import OutOfRange

LONGEST_IN_A_PHASE_S: Final = 36_000

Seconds: TypeAlias = Annotated[float, Field(ge=0, le=LONGEST_IN_A_PHASE_S)]


class PhaseSeconds(FactValue):
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
