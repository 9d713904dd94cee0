"""Work in time: how long each phase lasted, in all and by allowance."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tempo_coach.core.tempo import Phase


@dataclass(frozen=True, slots=True)
class PhaseTimes:
    """Whole milliseconds spent in each phase."""

    lower_ms: int = 0
    pause_ms: int = 0
    raise_ms: int = 0
    top_ms: int = 0

    @property
    def tension_ms(self) -> int:
        """All four phases."""
        return self.lower_ms + self.pause_ms + self.raise_ms + self.top_ms

    @property
    def moving_ms(self) -> int:
        """Lower and raise: tension for those who leave out pause and top."""
        return self.lower_ms + self.raise_ms

    def of(self, phase: Phase) -> int:
        """Return the milliseconds of one phase."""
        return {
            Phase.LOWER: self.lower_ms,
            Phase.PAUSE: self.pause_ms,
            Phase.RAISE: self.raise_ms,
            Phase.TOP: self.top_ms,
        }[phase]

    def __add__(self, other: PhaseTimes) -> PhaseTimes:
        return PhaseTimes(
            self.lower_ms + other.lower_ms,
            self.pause_ms + other.pause_ms,
            self.raise_ms + other.raise_ms,
            self.top_ms + other.top_ms,
        )

    def __sub__(self, other: PhaseTimes) -> PhaseTimes:
        return self + other.times(-1)

    def times(self, reps: int) -> PhaseTimes:
        """Return the times of so many reps."""
        return PhaseTimes(
            self.lower_ms * reps, self.pause_ms * reps, self.raise_ms * reps, self.top_ms * reps
        )


def added(several: Iterable[PhaseTimes]) -> PhaseTimes:
    """Return the sum of many, without a value for each step: a log has a hundred thousand."""
    lower_ms = pause_ms = raise_ms = top_ms = 0
    for times in several:
        lower_ms += times.lower_ms
        pause_ms += times.pause_ms
        raise_ms += times.raise_ms
        top_ms += times.top_ms
    return PhaseTimes(lower_ms, pause_ms, raise_ms, top_ms)


@dataclass(frozen=True, slots=True)
class WorkDone:
    """What was done of a set by some moment."""

    reps: int
    """Those wholly completed."""
    times: PhaseTimes
    """With what had elapsed of a rep that was broken off."""


def seconds_by_phase(times: PhaseTimes) -> dict[str, float]:
    """Return ``lower_s``, ``pause_s``, ``raise_s``, ``top_s`` and ``tension_s``."""
    return {f"{phase}_s": times.of(phase) / 1000 for phase in Phase} | {
        "tension_s": times.tension_ms / 1000
    }
