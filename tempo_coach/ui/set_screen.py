"""Where sets are done: ready, paced, saved and rested, without leaving the screen."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from tempo_coach.core.prescription import Prescription
from tempo_coach.core.reading import spell_out
from tempo_coach.core.running_set import RunningRest, RunningSet
from tempo_coach.errors import LogUnwritable
from tempo_coach.ui.course import Course
from tempo_coach.ui.errands import (
    Correction,
    Errands,
    RestStarted,
    SetCorrected,
    SetSaved,
    SetStarted,
    SetStruck,
)
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.sentences import (
    corrected_sentence,
    fault_sentence,
    saved_sentence,
    struck_sentence,
    total_sentence,
)
from tempo_coach.ui.set_keys import SET_KEYS, Presses
from tempo_coach.ui.set_view import SetView
from tempo_coach.ui.sign import pacing_sign, rest_sign, since_sign
from tempo_coach.ui.sound_watch import SoundWatch
from tempo_coach.ui.stage import Stage
from tempo_coach.ui.underway import Underway

# As often as the eye needs for a bar that moves; 60 a second cost four times as much.
_TICKS_A_SECOND = 20


class SetScreen(Frame[tuple[str, ...]]):
    """Does the sets of one prescription; goes away with what is still to be said.

    Parameters
    ----------
    underway
        What starts, ends and saves.
    prescription
        The work.
    lifter
        Who does it.
    """

    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = SET_KEYS

    def __init__(self, underway: Underway, prescription: Prescription, lifter: str) -> None:
        super().__init__()
        self._underway = underway
        self._errands = Errands(self, underway)
        self._clock = underway.coach.clock
        self._lifter = lifter
        self._course = Course(prescription)
        self._timeline = underway.coach.timeline(prescription)
        self._view = SetView(self._course, self._timeline)
        self._stage = Stage.WAITING
        self._presses = Presses()
        self._running_set: RunningSet | None = None
        self._rest: RunningRest | None = None
        self._ended_ms = 0
        self._sound = SoundWatch(underway.coach)
        self._asks_strike = False
        self._leaves = False

    @property
    def stage(self) -> Stage:
        """What the screen is doing."""
        return self._stage

    def content(self) -> Iterable[Widget]:
        """Return the view."""
        yield self._view

    def on_mount(self) -> None:
        """Show the first set, and follow the clock from now on."""
        self._enter(Stage.WAITING)
        # The first sentence says what the heading says.
        self._view.say(*spell_out(self._course.prescription, self._timeline)[1:])
        self.set_interval(1 / _TICKS_A_SECOND, self.follow_clock)

    def on_unmount(self) -> None:
        """Lose nothing, whatever made the screen go."""
        correction = None if self._leaves else self._correction()
        if correction is not None:
            self._underway.correct(*correction)
        self._underway.close()

    def follow_clock(self) -> None:
        """Show where the set or the rest is now."""
        now_ms = self._clock.now_ms()
        if self._stage is Stage.PACING and self._running_set is not None:
            sign = pacing_sign(self._running_set, now_ms, number=self._course.number)
            if sign is None:
                self._end()
            else:
                self._view.big.show(sign)
                self._tell_if_any(self._sound.check(self._running_set, now_ms))
        elif self._stage is Stage.SAVED:
            self._show_rest(now_ms)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Allow what the stage has a use for."""
        is_saved = self._stage is Stage.SAVED
        match action:
            case "start":
                return self._stage is Stage.WAITING or (is_saved and not self._course.is_finished)
            case "stop":
                return self._stage is Stage.PACING
            case "finish":
                return is_saved and self._course.is_finished
            case "repeat" | "strike":
                return is_saved and self._course.last is not None
        return super().check_action(action, parameters)

    def action_start(self) -> None:
        """Start the next set."""
        if self._presses.is_meant(self._clock.now_ms()):
            self._after_typing(self._start)

    def action_stop(self) -> None:
        """Stop the set early."""
        if self._presses.is_meant(self._clock.now_ms()):
            self._end()

    def action_finish(self) -> None:
        """Go back to the board."""
        if self._presses.is_meant(self._clock.now_ms()):
            self._after_typing(self._leave)

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
        elif self._stage in (Stage.WAITING, Stage.SAVED):
            self._after_typing(self._leave)
        else:
            self._leaves = True
            if self._stage is Stage.PACING:
                self._end()

    def on_set_started(self, event: SetStarted) -> None:
        """Pace the set."""
        self._running_set = event.running
        self._tell_if_any(self._sound.start(event.fault, self._clock.now_ms()))
        self._enter(Stage.PACING)
        if self._leaves:
            self._end()

    def on_set_saved(self, event: SetSaved) -> None:
        """Say what was saved, and ask what may be corrected."""
        sentence = saved_sentence(event.done, event.fault)
        if self._leaves:
            self.dismiss((sentence,))
            return
        self._course = self._course.ended(event.done)
        self._enter(Stage.WAITING if event.done is None else Stage.SAVED)
        self._say(sentence)
        if event.done is not None:
            self._view.report.show(event.done)
            self._view.report.ask()

    def on_rest_started(self, event: RestStarted) -> None:
        """Count this rest."""
        self._rest = event.rest

    def on_set_corrected(self, event: SetCorrected) -> None:
        """Say what the set is now."""
        self._course = self._course.corrected(event.done)
        sentence = corrected_sentence(event.done, event.fault)
        if self._leaves:
            self.dismiss((sentence,))
        else:
            self._answer(sentence, event.fault)

    def on_set_struck(self, event: SetStruck) -> None:
        """Say that the set no longer counts."""
        self._answer(struck_sentence(event.fault), event.fault)

    def on_set_report_filled(self) -> None:
        """Save what was changed."""
        self.set_focus(None)
        correction = self._correction()
        if correction is not None:
            self._errands.correct(correction)

    def _enter(self, stage: Stage) -> None:
        if stage is not self._stage:
            self._presses.begin(self._clock.now_ms())
        self._stage = stage
        self._asks_strike = False
        self._view.enter(stage, self._course)
        self.follow_clock()
        self.refresh_bindings()

    def _start(self) -> None:
        correction = self._correction()
        self.tell(*self._unread())
        self.set_focus(None)
        self._course = self._course.started()
        self._enter(Stage.STARTING)
        self._errands.start(self._course.prescription, lifter=self._lifter, correction=correction)

    def _end(self) -> None:
        now_ms = self._clock.now_ms()
        self._ended_ms = now_ms
        rest_ms = self._course.prescription.rest_ms
        self._rest = None if rest_ms is None else RunningRest(now_ms, rest_ms)
        self._enter(Stage.ENDING)
        is_last = self._course.number >= self._course.prescription.sets
        self._errands.end(None if is_last or self._leaves else rest_ms)

    def _leave(self) -> None:
        correction = self._correction()
        self._leaves = True
        if correction is None:
            self.dismiss(self._unread())
        else:
            self._errands.correct(correction)

    def _answer(self, sentence: str, fault: LogUnwritable | None) -> None:
        if self._stage is Stage.SAVED:
            self._say(sentence)
        elif fault is not None:
            self.tell(sentence)

    def _say(self, sentence: str) -> None:
        totals = [total_sentence(self._course)] if self._course.is_finished else []
        self._view.say(sentence, *totals)

    def _correction(self) -> Correction | None:
        last = self._course.last
        if last is None or self._stage is not Stage.SAVED:
            return None
        changes, _ = self._view.report.changes(last)
        return None if changes is None else (last, changes)

    def _unread(self) -> tuple[str, ...]:
        last = self._course.last
        if last is None or self._stage is not Stage.SAVED:
            return ()
        return tuple(
            f"Not changed. {fault_sentence(fault)}" for fault in self._view.report.changes(last)[1]
        )

    def _show_rest(self, now_ms: int) -> None:
        rest = self._rest
        self._view.show_rest(
            since_sign(self._ended_ms, now_ms) if rest is None else rest_sign(rest, now_ms),
            self._course,
            is_over=rest is not None and rest.left_ms(now_ms) == 0,
            asks_strike=self._asks_strike,
        )

    def _tell_if_any(self, sentence: str | None) -> None:
        if sentence is not None:
            self.tell(sentence)

    def _after_typing(self, step: Callable[[], None]) -> None:
        # Keys typed just before are still on their way through the field that has the focus.
        (self.focused or self).call_later(step)
