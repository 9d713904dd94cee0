"""The set that is running, if one is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from threading import Lock
from typing import Any

from sounds_gen.samples import Samples
from tempo_coach.coach import Coach
from tempo_coach.core.adherence import adherence
from tempo_coach.core.facts import Changes, SetDone
from tempo_coach.core.load import Load, parse_load
from tempo_coach.core.load_span import LoadSpan
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.core.running_set import RunningRest, RunningSet
from tempo_coach.core.session import Session
from tempo_coach.core.session_facts import Change
from tempo_coach.core.set_bar import BarBefore, bar_after
from tempo_coach.core.tap_pieces import TapPoints
from tempo_coach.errors import LogUnwritable, OutOfRange, SoundUnavailable
from tempo_coach.ui.tapping import Tapping


@dataclass(frozen=True, slots=True)
class Ended:
    """What became of a set, and why it is not on the disk yet, if it is not."""

    done: SetDone | None
    fault: LogUnwritable | None


@dataclass(frozen=True, slots=True)
class Measured:
    """What taps made of a set, what they say, and why it is not on the disk yet, if it is not."""

    done: SetDone
    fault: LogUnwritable | None
    said: tuple[str, ...]


class Underway:
    """Starts and ends sets one at a time, from whatever thread; each one ends exactly once.

    Workers start and save while the app may be left at any moment, so every step that sounds or
    writes holds one lock.

    Parameters
    ----------
    coach
        Who does it.
    """

    def __init__(self, coach: Coach) -> None:
        self.coach = coach
        self._lock = Lock()
        self._running: RunningSet | None = None
        self._tapping: Tapping | None = None
        self._corrected_at: dict[str, datetime] = {}
        self._bar_before: BarBefore | None = None

    @property
    def bar_before(self) -> BarBefore | None:
        """The bar as the last set left it; None where what is on it is not known."""
        return self._bar_before

    @property
    def tapping(self) -> Tapping | None:
        """The taps of the set that runs, or of the one before until they are read."""
        return self._tapping

    def start(self, at_hand: NextSet, *, lifter: str) -> tuple[RunningSet, SoundUnavailable | None]:
        """Start a set; blocks."""
        with self._lock:
            running, fault = self.coach.start_set(
                at_hand.prescription, lifter=lifter, load_kg=at_hand.load_kg
            )
            self._running = running
            points = self.coach.settings.taps
            self._tapping = None if points == "off" else Tapping(running, TapPoints(points))
            self._take_bar(at_hand.prescription.exercise, at_hand.prescription.load)
            return running, fault

    def end(self) -> Ended | None:
        """End the set that is running and save it; None where none is. Blocks."""
        with self._lock:
            running, self._running = self._running, None
            if running is None:
                return None
            done, fault = self.coach.end_set(running)
            if self._tapping is not None:
                self._tapping.end(done, self.coach.clock.now_ms())
            return Ended(done, fault)

    def read_taps(self) -> Measured | None:
        """Let the set that has ended count as it was tapped; None where it was not. Blocks."""
        with self._lock:
            tapping = self._tapping
            if tapping is None or tapping.done is None:
                return None
            self._tapping = None
            return self._measured(tapping, tapping.done)

    def rest(self, rest_ms: int) -> RunningRest | None:
        """Start a rest; None where the next set was quicker and runs already. Blocks."""
        with self._lock:
            return None if self._running is not None else self.coach.start_rest(rest_ms)

    def play(self, track: Samples) -> int | None:
        """Play something that is no set, unless a set runs; blocks.

        Returns
        -------
        int or None
            The monotonic moment at which its first sample is heard; None where a set runs.

        Raises
        ------
        SoundUnavailable
            There is no sound.
        """
        with self._lock:
            return None if self._running is not None else self.coach.play(track)

    def hush(self) -> None:
        """Make silent whatever is no set; blocks."""
        with self._lock:
            if self._running is None:
                self.coach.silence()

    def correct(self, done: SetDone, changes: Changes) -> tuple[SetDone, LogUnwritable | None]:
        """Correct a set, dated later than its correction before; blocks."""
        with self._lock:
            before = self._corrected_at.get(done.id)
            corrected = self.coach.correct(done, changes, after=before)
            at = self.coach.clock.wall()
            if before is not None:
                at = max(at, before + timedelta(milliseconds=1))
            self._corrected_at[done.id] = at
            self._take_bar(corrected[0].exercise, _written_load(corrected[0]))
            return corrected

    def strike(self, done: SetDone) -> LogUnwritable | None:
        """Strike a set; blocks."""
        with self._lock:
            return self.coach.strike(done, why="struck on the screen after the set")

    def tell_soreness(self, lifter: str, soreness: int) -> LogUnwritable | None:
        """Log how sore a lifter is; blocks."""
        with self._lock:
            _, fault = self.coach.tell_soreness(lifter, soreness)
            return fault

    def change_session(
        self, session: Session, item: int, change: Change, **needed: Any
    ) -> LogUnwritable | None:
        """Change a planned day, as `Coach.change_session` does; blocks."""
        with self._lock:
            _, fault = self.coach.change_session(session, item, change, **needed)
            return fault

    def begin_test(
        self, span: LoadSpan, *, lifter: str, exercise: str
    ) -> tuple[ReserveTest, LogUnwritable | None]:
        """Begin a reserve test, as `ReserveKeeper.begin` does; blocks."""
        with self._lock:
            rack = self.coach.settings.rack
            return self.coach.reserve.begin(span, lifter=lifter, exercise=exercise, rack=rack)

    def answer(
        self, test: ReserveTest, done: SetDone, *, said: bool, lowered_s: float | None
    ) -> tuple[ReserveTest, LogUnwritable | None]:
        """Log whether an attempt was held, as `ReserveKeeper.answer` does; blocks."""
        with self._lock:
            return self.coach.reserve.answer(test, done, said=said, lowered_s=lowered_s)

    def lose(self, test: ReserveTest, load_kg: Decimal) -> tuple[ReserveTest, LogUnwritable | None]:
        """Log that a load could not be lifted out; blocks."""
        with self._lock:
            return self.coach.reserve.lose(test, load_kg)

    def close(self) -> Ended | None:
        """End what is running, read its taps, and make all silent; blocks."""
        ended = self.end()
        self.read_taps()
        with self._lock:
            self.coach.silence()
        return ended

    def _measured(self, tapping: Tapping, done: SetDone) -> Measured | None:
        reading = tapping.reading(done)
        if reading is None:
            return None
        said = tuple(reading.sentences())
        if not reading.lowers:
            return Measured(done, None, said)
        measured, fault = self.coach.measurer.measure(
            done, reading.reps, by="tapped", allowances=self.coach.settings.allowances
        )
        self._corrected_at[done.id] = self.coach.clock.wall()
        kept = adherence(reading.reps, tempo=done.tempo, shape=done.shape)
        return Measured(measured, fault, (*kept.sentences(), *said))

    def _take_bar(self, exercise: str, load: Load | None) -> None:
        rack = self.coach.settings.rack
        self._bar_before = bar_after(rack, exercise=exercise, load=load, before=self._bar_before)


def _written_load(done: SetDone) -> Load | None:
    try:
        return parse_load(done.load_as_written)
    except OutOfRange:
        return None
