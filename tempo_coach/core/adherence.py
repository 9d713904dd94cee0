"""How the phases of a set were kept: measured against prescribed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import fmean, linear_regression

from tempo_coach.core.marks import counted, listed, marked_seconds
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.tempo import Phase, Tempo

_LEAST_FOR_A_TREND = 3


@dataclass(frozen=True, slots=True)
class Band:
    """How near to its prescribed length a phase is on tempo."""

    share: float = 0.06
    """Of its length: paced by a metronome, mean velocity varies with a CV of 4.0 to 6.4 % (bench
    press metronome study, 15 subjects, 2009)."""
    least_ms: int = 500
    """Or so much, whichever is more. Common practice, no source."""

    def of(self, prescribed_ms: int) -> int:
        """Return how far a phase of this length may be off, in milliseconds."""
        return max(round(self.share * prescribed_ms), self.least_ms)


USUAL_BAND = Band()


@dataclass(frozen=True, slots=True)
class PhaseKept:
    """One phase over the reps of a set."""

    phase: Phase
    prescribed_ms: int
    measured_ms: tuple[int | None, ...]
    """Rep by rep; None where it was not measured."""

    @property
    def off_ms(self) -> tuple[int | None, ...]:
        """Measured less prescribed, rep by rep."""
        return tuple(None if one is None else one - self.prescribed_ms for one in self.measured_ms)

    @property
    def measured(self) -> int:
        """How many reps were measured."""
        return sum(one is not None for one in self.measured_ms)

    @property
    def mean_off_ms(self) -> float | None:
        """The mean of `off_ms`; None where nothing was measured."""
        known = [one for one in self.off_ms if one is not None]
        return fmean(known) if known else None

    @property
    def mean_off_share(self) -> float | None:
        """`mean_off_ms` as a share of what was prescribed; None where that is 0, too."""
        if self.mean_off_ms is None or not self.prescribed_ms:
            return None
        return self.mean_off_ms / self.prescribed_ms

    @property
    def drift_ms(self) -> float | None:
        """How much longer it gets from rep to rep, by least squares; None below three reps."""
        known = [(rep, one) for rep, one in enumerate(self.measured_ms) if one is not None]
        if len(known) < _LEAST_FOR_A_TREND:
            return None
        return linear_regression(*zip(*known, strict=True)).slope

    def within(self, off_ms: int) -> int:
        """Return how many measured reps are no further off than this."""
        return sum(one is not None and abs(one) <= off_ms for one in self.off_ms)

    def short_by(self, off_ms: int) -> tuple[int, ...]:
        """Return the numbers of the reps that are shorter than prescribed by more than this."""
        return self._numbers(lambda off: off < -off_ms)

    def long_by(self, off_ms: int) -> tuple[int, ...]:
        """Return the numbers of the reps that are longer than prescribed by more than this."""
        return self._numbers(lambda off: off > off_ms)

    def _numbers(self, is_meant: Callable[[int], bool]) -> tuple[int, ...]:
        return tuple(
            number
            for number, off in enumerate(self.off_ms, start=1)
            if off is not None and is_meant(off)
        )


@dataclass(frozen=True, slots=True)
class Adherence:
    """How a set was kept."""

    phases: tuple[PhaseKept, ...]
    """Those of prescribed length, in the order of the tempo."""
    reps: int
    """Reps found."""
    band: Band = USUAL_BAND

    @property
    def lower(self) -> PhaseKept | None:
        """The lower; None where it has no prescribed length or was not measured at all."""
        kept = next((one for one in self.phases if one.phase is Phase.LOWER), None)
        return kept if kept is not None and kept.measured else None

    @property
    def is_lower_short(self) -> bool:
        """More than half of the measured lowers are short: the load is too heavy for this tempo.

        A lower that falls short says so (Harden et al. 2018, JSCR 32:2708: heavier meant a faster
        descent and less time under tension); that half of them must is our choice.
        """
        lower = self.lower
        if lower is None:
            return False
        return 2 * len(lower.short_by(self.band.of(lower.prescribed_ms))) > lower.measured

    def sentences(self) -> tuple[str, ...]:
        """Say to the lifter how the lower was kept."""
        lower = self.lower
        if lower is None:
            return ()
        band_ms = self.band.of(lower.prescribed_ms)
        short, long = lower.short_by(band_ms), lower.long_by(band_ms)
        said = [
            _off(numbers, lower, word)
            for numbers, word in ((short, "short"), (long, "long"))
            if numbers
        ]
        if not said:
            said.append(
                f"{_lowers(lower)} within {marked_seconds(band_ms)} s of "
                f"{marked_seconds(lower.prescribed_ms)} s."
            )
        drift_ms = lower.drift_ms
        if drift_ms is not None and abs(drift_ms) * (len(lower.measured_ms) - 1) > band_ms:
            word = "shorter" if drift_ms < 0 else "longer"
            said.append(
                f"The lower got {marked_seconds(round(abs(drift_ms)))} s {word} from rep to rep."
            )
        if self.is_lower_short:
            said.append("The load is too heavy for this tempo: more than half fell short.")
        return tuple(said)


def adherence(
    reps: Sequence[MeasuredRep], *, tempo: Tempo, shape: RepShape, band: Band = USUAL_BAND
) -> Adherence:
    """Set measured reps beside what was prescribed.

    Phases at X, V and A have no prescribed length, and what spotters and pins do is not asked of
    the lifter: neither is here. Stops on the way down are pauses.
    """
    stops_ms = 0 if shape.stops is None else shape.stops.each_ms * len(shape.stops.at)
    phases = []
    for phase, slot in tempo.slots().items():
        if isinstance(slot, int) and shape.counts(phase):
            prescribed_ms = slot + (stops_ms if phase is Phase.PAUSE else 0)
            phases.append(PhaseKept(phase, prescribed_ms, tuple(rep.of(phase) for rep in reps)))
    return Adherence(tuple(phases), len(reps), band)


def _off(numbers: Sequence[int], lower: PhaseKept, word: str) -> str:
    off_ms = fmean(abs(one) for rep in numbers if (one := lower.off_ms[rep - 1]) is not None)
    about = "about " if len(numbers) > 1 else ""
    verb = "was" if len(numbers) == 1 else "were"
    which = f"Rep{'' if len(numbers) == 1 else 's'} {listed(map(str, numbers))}"
    return f"{which} {verb} {about}{marked_seconds(round(off_ms))} s {word} on the way down."


def _lowers(lower: PhaseKept) -> str:
    if lower.measured == len(lower.measured_ms):
        return "The lower was" if lower.measured == 1 else f"All {lower.measured} lowers were"
    return f"{counted(lower.measured, 'measured lower')} of {len(lower.measured_ms)} reps:"
