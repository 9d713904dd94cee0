"""Where sets are done: ready, paced, saved and rested, without leaving the screen."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.running_set import RunningSet
from tempo_coach.errors import LogUnwritable
from tempo_coach.ui.arrival import RackReached
from tempo_coach.ui.course import Course
from tempo_coach.ui.departure import Departure
from tempo_coach.ui.errands import (
    Errands,
    RestStarted,
    SetCorrected,
    SetMeasured,
    SetSaved,
    SetStarted,
    SetStruck,
)
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.rest_watch import RestWatch
from tempo_coach.ui.sentences import (
    corrected_sentence,
    measured_sentences,
    saved_sentence,
    struck_sentence,
)
from tempo_coach.ui.set_keys import SET_KEYS, STAGE_ACTIONS, Presses, has_use
from tempo_coach.ui.set_view import SetView
from tempo_coach.ui.sound_watch import SoundWatch
from tempo_coach.ui.stage import Stage
from tempo_coach.ui.tap_watch import TapWatch
from tempo_coach.ui.underway import Underway

# As often as the eye needs for a bar that moves; 60 a second cost four times as much.
_TICKS_A_SECOND = 20


class SetScreen(Frame[Departure]):
    """Does the sets of one prescription; goes away with a `Departure`.

    Parameters
    ----------
    underway
        What starts, ends and saves.
    first
        The work, and its set to begin with.
    lifter
        Who does it.
    then
        What comes after the last set; None where that is nothing.
    starts_at_once
        The first set needs no key.
    """

    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = SET_KEYS

    def __init__(
        self,
        underway: Underway,
        first: NextSet,
        lifter: str,
        *,
        then: NextSet | None = None,
        starts_at_once: bool = False,
    ) -> None:
        super().__init__()
        self._underway = underway
        self._errands = Errands(self, underway)
        self._clock = underway.coach.clock
        self._lifter = lifter
        self._course = Course.of(first, then)
        self._first = first
        self._starts_at_once = starts_at_once
        self._view = SetView(self._course, underway)
        self.stage = Stage.WAITING
        """What the screen is doing."""
        self._presses = Presses()
        self._running_set: RunningSet | None = None
        self._rest = RestWatch()
        self._sound = SoundWatch(underway.coach, self.tell)
        self._taps = TapWatch(underway, self.tell, self._errands.read_taps)
        self._asks_strike = False
        self._leaves = self._goes_on = False

    def content(self) -> Iterable[Widget]:
        """Return the view."""
        yield self._view

    def on_mount(self) -> None:
        """Show the first set, and follow the clock from now on."""
        self._enter(Stage.WAITING)
        self._view.say_opening(self._first)
        self.set_interval(1 / _TICKS_A_SECOND, self.follow_clock)
        if self._starts_at_once:
            self._start()
        else:
            self.post_message(RackReached())

    def on_screen_resume(self) -> None:
        """Be deaf for a moment to the key that led here, which may still be held down."""
        self._presses.begin(self._clock.now_ms())

    def on_unmount(self) -> None:
        """Lose nothing, whatever made the screen go."""
        correction = None if self._leaves else self._view.correction(self._course)
        if correction is not None:
            self._underway.correct(*correction)
        # What runs by now is the next screen's.
        if not self._goes_on:
            self._underway.close()

    def warn(self, *warnings: str) -> None:
        """Say before the first set what speaks against it besides."""
        self._view.warn(warnings)

    def follow_clock(self) -> None:
        """Show where the set or the rest is now."""
        now_ms = self._clock.now_ms()
        if self.stage is Stage.PACING and self._running_set is not None:
            if self._view.show_pacing(self._running_set, now_ms, self._course):
                self._sound.check(self._running_set, now_ms)
            else:
                self._end()
        elif self.stage is Stage.SAVED:
            self._taps.check(now_ms)
            self._view.show_rest(self._rest, now_ms, self._course, asks_strike=self._asks_strike)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Allow what the stage has a use for."""
        if action in ("tap", "take_back"):
            return self._taps.is_open(self.stage, self._clock.now_ms())
        if action in STAGE_ACTIONS:
            return has_use(action, self.stage, self._course)
        return super().check_action(action, parameters)

    def action_start(self) -> None:
        """Start the next set, or leave for the other work that it is of."""
        if self._presses.is_meant(self._clock.now_ms()):
            self.after_typing(self._start)

    def action_stop(self) -> None:
        """Stop the set early."""
        if self._presses.is_meant(self._clock.now_ms()):
            self._end()

    def action_finish(self) -> None:
        """Go back."""
        if self._presses.is_meant(self._clock.now_ms()):
            self.after_typing(self._leave)

    def action_tap(self) -> None:
        """Take the partner's tap."""
        self._taps.tap(self._clock.now_ms())

    def action_take_back(self) -> None:
        """Forget the last tap."""
        self._taps.take_back()

    def action_stay(self) -> None:
        """Do nothing."""

    def action_repeat(self) -> None:
        """Put the set just done next once more, or the one behind it after all."""
        self._course = self._course.repeated()
        self._enter(Stage.SAVED)

    def action_strike(self) -> None:
        """Ask, and when asked already strike the set just done."""
        last = self._course.last
        if last is None or not self._asks_strike:
            self._asks_strike = True
            self.follow_clock()
            return
        self._course = self._course.struck()
        self._errands.strike(last)
        self._enter(Stage.SAVED)

    def action_leave(self) -> None:
        """Leave, once what is under way has ended and is saved."""
        if self._asks_strike:
            self._enter(Stage.SAVED)
        elif self.stage in (Stage.WAITING, Stage.SAVED):
            self.after_typing(self._leave)
        else:
            self._leaves = True
            if self.stage is Stage.PACING:
                self._end()

    def on_set_started(self, event: SetStarted) -> None:
        """Pace the set."""
        self._running_set = event.running
        self._taps.begin()
        self._sound.start(event.fault, self._clock.now_ms())
        self._enter(Stage.PACING)
        if self._leaves:
            self._end()

    def on_set_saved(self, event: SetSaved) -> None:
        """Say what was saved, and ask what may be corrected."""
        sentence = saved_sentence(event.done, event.fault)
        if self._leaves:
            self._depart(sentence)
            return
        self._course = self._course.ended(event.done)
        self._enter(Stage.WAITING if event.done is None else Stage.SAVED)
        self._view.say_done(self._course, sentence)
        if event.done is not None:
            self._view.report.ask(event.done, waits=self._taps.is_pending)

    def on_set_measured(self, event: SetMeasured) -> None:
        """Say what the taps made of the set, and ask what may be corrected."""
        self._taps.end()
        if event.measured is not None:
            self._course = self._course.corrected(event.measured.done)
        if self._leaves:
            self._leave()
        elif self.stage is Stage.SAVED and self._course.last is not None:
            if event.measured is not None:
                self._view.say_done(self._course, *measured_sentences(event.measured))
            self._view.report.ask(self._course.last)

    def on_rest_started(self, event: RestStarted) -> None:
        """Count this rest."""
        self._rest.take(event.rest)

    def on_set_corrected(self, event: SetCorrected) -> None:
        """Say what the set is now."""
        self._course = self._course.corrected(event.done)
        sentence = corrected_sentence(event.done, event.fault)
        if self._leaves:
            self._depart(sentence)
        else:
            self._answer(sentence, event.fault)

    def on_set_struck(self, event: SetStruck) -> None:
        """Say that the set no longer counts."""
        self._answer(struck_sentence(event.fault), event.fault)

    def on_set_report_filled(self) -> None:
        """Save what was changed."""
        self.set_focus(None)
        correction = self._view.correction(self._course)
        if correction is not None:
            self._errands.correct(correction)

    def _enter(self, stage: Stage) -> None:
        if stage is not self.stage:
            self._presses.begin(self._clock.now_ms())
        self.stage = stage
        self._asks_strike = False
        self._view.enter(stage, self._course)
        self.follow_clock()
        self.refresh_bindings()

    def _start(self) -> None:
        if self._course.is_finished:
            self._goes_on = True
            self._leave()
            return
        correction = self._view.correction(self._course)
        self.tell(*self._view.unread(self._course))
        self.set_focus(None)
        self._course = self._course.started()
        self._enter(Stage.STARTING)
        self._errands.start(self._course.at_hand, lifter=self._lifter, correction=correction)

    def _end(self) -> None:
        rest_ms = self._course.prescription.rest_ms
        self._rest.begin(self._clock.now_ms(), rest_ms)
        self._enter(Stage.ENDING)
        self._errands.end(None if self._course.is_at_end or self._leaves else rest_ms)

    def _leave(self) -> None:
        self._leaves = True
        if self._taps.is_pending:
            self._taps.read()
            return
        correction = self._view.correction(self._course)
        if correction is None:
            self._depart(*self._view.unread(self._course))
        else:
            self._errands.correct(correction)

    def _depart(self, *sentences: str) -> None:
        self.dismiss(Departure(sentences, self._goes_on, self._course.done))

    def _answer(self, sentence: str, fault: LogUnwritable | None) -> None:
        if self.stage is Stage.SAVED:
            self._view.say_done(self._course, sentence)
        elif fault is not None:
            self.tell(sentence)
