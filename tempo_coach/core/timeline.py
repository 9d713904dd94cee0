"""The timeline of one set: where everything is at every moment."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import pairwise

from tempo_coach.core.prescription import MOST_REPS, Prescription
from tempo_coach.core.rep_shape import RepShape, Sides
from tempo_coach.core.tempo import Allowances, Phase, Speed, Tempo, seconds_text
from tempo_coach.core.work import PhaseTimes, WorkDone
from tempo_coach.errors import OutOfRange

LEAST_SETUP_MS = 3_000
USUAL_SETUP_MS = 10_000
LONGEST_SETUP_MS = 60_000
LONGEST_LIFTING_MS = 600_000
_READY_SECONDS = (3, 2, 1)
_COUNTED_FROM_MS = 2_000


class CueKind(StrEnum):
    """What a cue says."""

    READY = "ready"
    PHASE = "phase"
    COUNT = "count"
    END = "end"


class Side(StrEnum):
    """Whose turn a rep is."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Span:
    """One phase of a rep, or a part of it, at its place from the rep's beginning."""

    phase: Phase
    """A stop on the way down is a pause."""
    speed: Speed | None
    """None where the length is prescribed; else the length is an allowance."""
    starts_ms: int
    lasts_ms: int
    from_height: float
    """Where the bar should be when it begins, 0 at the bottom to 1 at the top."""
    to_height: float
    counts: bool = True
    """It is the lifter's work, not that of the spotters or the pins."""

    @property
    def is_stop(self) -> bool:
        """It is a stop on the way down."""
        return self.phase is Phase.PAUSE and self.from_height > 0

    def height_at(self, elapsed_ms: int) -> float:
        """Return where the bar should be, 0 at the bottom to 1 at the top."""
        share = min(max(elapsed_ms / self.lasts_ms, 0.0), 1.0)
        return self.from_height + share * (self.to_height - self.from_height)


@dataclass(frozen=True, slots=True)
class Cue:
    """One moment of the track."""

    at_ms: int
    kind: CueKind
    span: Span | None = None
    """The phase it belongs to; None for ready and end."""
    rep: int | None = None
    """Counted from 1; None for ready and end."""
    second: int | None = None
    """Count: the second of the phase that begins, so 2 after one second. Ready: seconds to go."""
    last_rep: bool = False
    """The first phase of the last rep begins."""
    side: Side | None = None
    """Whose part of a rep begins; None elsewhere, and where the sides work together."""


@dataclass(frozen=True, slots=True)
class Moment:
    """A place inside a rep."""

    rep: int
    """Counted from 1."""
    span: Span
    elapsed_ms: int
    """Of the phase."""
    side: Side | None = None
    """Whose turn it is; None where the sides work together."""

    @property
    def second(self) -> int:
        """The second of the phase that is running, counted from 1."""
        return self.elapsed_ms // 1000 + 1

    @property
    def height(self) -> float:
        """Where the bar should be, 0 at the bottom to 1 at the top."""
        return self.span.height_at(self.elapsed_ms)


@dataclass(frozen=True, slots=True)
class Timeline:
    """One set in time; 0 is the start of its track.

    Raises
    ------
    OutOfRange
        The time before the first rep is not 3 to 60 s, or the lifting takes over 10 min.
    """

    setup_ms: int
    """When rep 1 begins."""
    reps: int
    spans: tuple[Span, ...]
    """The phases of one rep in the order they are done, without those of length 0."""
    sides: Sides | None = None
    """How the limbs take turns; None where they work together."""
    open_ended: bool = False
    """Runs until stopped; `reps` is then as many as there is room for, and no rep is the last."""

    def __post_init__(self) -> None:
        if not LEAST_SETUP_MS <= self.setup_ms <= LONGEST_SETUP_MS:
            raise OutOfRange(
                f"{seconds_text(self.setup_ms)} s before the first rep is not possible",
                hint="3 to 60 s",
            )
        if self.lifting_ms > LONGEST_LIFTING_MS:
            raise OutOfRange(
                f"{self.reps} reps of {seconds_text(self.rep_ms)} s take "
                f"{seconds_text(self.lifting_ms)} s, and a set is at most 600 s",
                hint=f"at most {LONGEST_LIFTING_MS // self.rep_ms} reps at this tempo",
            )

    @classmethod
    def of(
        cls,
        prescription: Prescription,
        *,
        setup_ms: int = USUAL_SETUP_MS,
        allowances: Allowances | None = None,
    ) -> Timeline:
        """Lay one set of a prescription out in time.

        Raises
        ------
        OutOfRange
            As for the class.
        """
        spans = _spans(prescription, allowances or Allowances())
        rep_ms = sum(span.lasts_ms for span in spans)
        reps = prescription.reps or max(min(MOST_REPS, LONGEST_LIFTING_MS // rep_ms), 1)
        sides = prescription.shape.sides
        return cls(setup_ms, reps, spans, sides, open_ended=prescription.reps is None)

    @property
    def rep_ms(self) -> int:
        """Length of one rep."""
        return sum(span.lasts_ms for span in self.spans)

    @property
    def lifting_ms(self) -> int:
        """Length of all reps: reps × phases, exactly."""
        return self.reps * self.rep_ms

    @property
    def length_ms(self) -> int:
        """The end of the last phase, from the start of the track."""
        return self.setup_ms + self.lifting_ms

    def cues(self) -> Iterator[Cue]:
        """Yield every cue in the order of time."""
        for second in _READY_SECONDS:
            yield Cue(self.setup_ms - second * 1000, CueKind.READY, second=second)
        turn = self._turn()
        for rep in range(1, self.reps + 1):
            begins_ms = self.setup_ms + (rep - 1) * self.rep_ms
            for span in self.spans:
                at_ms = begins_ms + span.starts_ms
                last = rep == self.reps and span is self.spans[0] and not self.open_ended
                side = self._side_of(rep) if span is turn else None
                yield Cue(at_ms, CueKind.PHASE, span, rep, last_rep=last, side=side)
                if span.lasts_ms >= _COUNTED_FROM_MS:
                    for elapsed_ms in range(1000, span.lasts_ms, 1000):
                        second = elapsed_ms // 1000 + 1
                        yield Cue(at_ms + elapsed_ms, CueKind.COUNT, span, rep, second)
        yield Cue(self.length_ms, CueKind.END)

    def at(self, at_ms: int) -> Moment | None:
        """Return the place inside a rep, or None before the first rep and after the last."""
        if not self.setup_ms <= at_ms < self.length_ms:
            return None
        done, into_rep_ms = divmod(at_ms - self.setup_ms, self.rep_ms)
        span = next(span for span in reversed(self.spans) if span.starts_ms <= into_rep_ms)
        side = self._side_of(done + 1)
        if self.sides is Sides.ONE_DOWN and span.phase in (Phase.RAISE, Phase.TOP):
            side = None
        return Moment(done + 1, span, into_rep_ms - span.starts_ms, side)

    def done_by(self, at_ms: int) -> WorkDone:
        """Return the reps completed and the time that the lifter worked in each phase by a moment.

        What the spotters or the pins do in a rep is no work of the lifter's.
        """
        lifted_ms = min(max(at_ms - self.setup_ms, 0), self.lifting_ms)
        reps, into_rep_ms = divmod(lifted_ms, self.rep_ms)
        broken_off = self._times(into_rep_ms)
        return WorkDone(reps, self._times(self.rep_ms).times(reps) + broken_off)

    def _side_of(self, rep: int) -> Side | None:
        return None if self.sides is None else (Side.LEFT if rep % 2 else Side.RIGHT)

    def _turn(self) -> Span:
        """Return the span with which a side's part of a rep begins."""
        lowers = (span for span in self.spans if span.phase is Phase.LOWER)
        first = self.spans[0]
        return next(lowers, first) if self.sides is Sides.ONE_DOWN else first

    def _times(self, into_rep_ms: int) -> PhaseTimes:
        times = dict.fromkeys(Phase, 0)
        for span in self.spans:
            if span.counts:
                times[span.phase] += min(max(into_rep_ms - span.starts_ms, 0), span.lasts_ms)
        return PhaseTimes(**{f"{phase}_ms": spent_ms for phase, spent_ms in times.items()})


def rep_times(tempo: Tempo, allowances: Allowances, shape: RepShape) -> PhaseTimes:
    """Return how long the lifter works in each phase of one rep.

    Allowances stand in where no length is prescribed; stops on the way down are pauses.
    """
    stops_ms = 0 if shape.stops is None else shape.stops.each_ms * len(shape.stops.at)
    times = PhaseTimes(
        **{
            f"{phase}_ms": _length(slot, allowances) if shape.counts(phase) else 0
            for phase, slot in tempo.slots().items()
        }
    )
    return times + PhaseTimes(pause_ms=stops_ms)


def _spans(prescription: Prescription, allowances: Allowances) -> tuple[Span, ...]:
    order = list(prescription.tempo.slots().items())
    if prescription.lead is Phase.RAISE:
        order = order[2:] + order[:2]
    spans: list[Span] = []
    starts_ms = 0
    for phase, slot in order:
        speed = slot if isinstance(slot, Speed) else None
        for part, lasts_ms, heights in _parts(phase, _length(slot, allowances), prescription.shape):
            if lasts_ms:
                counts = prescription.shape.counts(part)
                own = speed if part is phase else None
                spans.append(Span(part, own, starts_ms, lasts_ms, *heights, counts=counts))
                starts_ms += lasts_ms
    return tuple(spans)


_HEIGHTS = {
    Phase.LOWER: (1.0, 0.0),
    Phase.PAUSE: (0.0, 0.0),
    Phase.RAISE: (0.0, 1.0),
    Phase.TOP: (1.0, 1.0),
}


def _parts(
    phase: Phase, lasts_ms: int, shape: RepShape
) -> Iterator[tuple[Phase, int, tuple[float, float]]]:
    """Yield what a phase is made of: its phase, its length, and the heights at its ends."""
    if phase is not Phase.LOWER or shape.stops is None or not lasts_ms:
        yield phase, lasts_ms, _HEIGHTS[phase]
        return
    for above, below in pairwise((Fraction(0), *shape.stops.at, Fraction(1))):
        # Each moment is rounded by itself, so that the parts add up to the whole.
        part_ms = round(lasts_ms * below) - round(lasts_ms * above)
        yield Phase.LOWER, part_ms, (float(1 - above), float(1 - below))
        if below < 1:
            yield Phase.PAUSE, shape.stops.each_ms, (float(1 - below),) * 2


def _length(slot: int | Speed, allowances: Allowances) -> int:
    return allowances.of(slot) if isinstance(slot, Speed) else slot
