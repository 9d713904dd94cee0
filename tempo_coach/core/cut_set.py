"""A set as it was found in a trace: its reps, their parts, and the path that they were cut from."""

from __future__ import annotations

from dataclasses import dataclass

from tempo_coach.core.bar_motion import Floats
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.tempo import Phase
from tempo_coach.core.trace import Quantity


@dataclass(frozen=True, slots=True)
class Stretch:
    """One part of a rep, at its place in the trace."""

    phase: Phase
    """A stop on the way down is a pause."""
    begins_s: float | None
    """None, as for the end, where that can't be told."""
    ends_s: float | None

    @property
    def lasts_ms(self) -> int | None:
        """Its length, to the millisecond; None where an end is not known."""
        if self.begins_s is None or self.ends_s is None:
            return None
        return max(round((self.ends_s - self.begins_s) * 1000), 0)


@dataclass(frozen=True, slots=True)
class CutRep:
    """One rep, cut into its parts."""

    measured: MeasuredRep
    stretches: tuple[Stretch, ...]
    """In the order of time."""

    @property
    def begins_s(self) -> float | None:
        """When its first way begins; None where that can't be told."""
        return self.stretches[0].begins_s


@dataclass(frozen=True, slots=True, eq=False)
class CutSet:
    """The reps that were found."""

    reps: tuple[CutRep, ...]
    times_s: Floats
    """float64 ``(n,)``, evenly spaced."""
    height_m: Floats
    """float64 ``(n,)``, smoothed, without drift, above the lowest place of the set."""
    quantity: Quantity
    """What was recorded."""
    rate_hz: float
    """Of the samples that were used."""
    noise: float
    """Standard deviation of one of them, in the unit of the quantity."""
    remarks: tuple[str, ...]
    """What was done with the data, and what could not be told, a sentence each."""
