"""One rep as it was measured: seconds by phase, and what a trace says beyond them."""

from __future__ import annotations

from dataclasses import dataclass

from tempo_coach.core.tempo import Phase
from tempo_coach.errors import OutOfRange


@dataclass(frozen=True, slots=True)
class Motion:
    """How far and how fast the bar went in one rep; speeds are magnitudes, without direction.

    Raises
    ------
    OutOfRange
        A figure is below 0, or no number.
    """

    range_m: float
    """From the highest place of the rep to the lowest."""
    lower_mean_m_s: float | None
    """None, as for the others, where that phase was not measured."""
    lower_peak_m_s: float | None
    raise_mean_m_s: float | None
    raise_peak_m_s: float | None

    def __post_init__(self) -> None:
        for name in self.__slots__:
            value = getattr(self, name)
            if value is not None and not 0 <= value < float("inf"):
                raise OutOfRange(f"{name} can't be {value}", hint="a finite number from 0 up")


@dataclass(frozen=True, slots=True)
class MeasuredRep:
    """How long each phase of a rep really took.

    Raises
    ------
    OutOfRange
        A length is below 0.
    """

    lower_ms: int | None
    """None, as for the others, where it was not measured; 0 where there was no such phase."""
    pause_ms: int | None
    """At the bottom, and in stops on the way down."""
    raise_ms: int | None
    top_ms: int | None
    motion: Motion | None = None
    """None for taps, which say nothing beyond seconds."""

    def __post_init__(self) -> None:
        for phase in Phase:
            length_ms = self.of(phase)
            if length_ms is not None and length_ms < 0:
                raise OutOfRange(f"a {phase} can't last {length_ms} ms", hint="0 or more")

    def of(self, phase: Phase) -> int | None:
        """Return how long a phase took, in milliseconds; None where it was not measured."""
        return {
            Phase.LOWER: self.lower_ms,
            Phase.PAUSE: self.pause_ms,
            Phase.RAISE: self.raise_ms,
            Phase.TOP: self.top_ms,
        }[phase]
