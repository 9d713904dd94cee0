"""A reserve test on the screen, attempt by attempt, from the first load to the result."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal
from functools import partial
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget
from textual.widgets import Input

from tempo_coach.core.cautions import SHORT
from tempo_coach.core.facts import SetDone
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.load_span import decimal_of
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.reserve_result import attempt_words
from tempo_coach.core.reserve_test import ReserveTest, attempt_line
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.answer_screen import AnswerScreen
from tempo_coach.ui.arrival import RackReached
from tempo_coach.ui.attempt_screen import AttemptScreen
from tempo_coach.ui.departure import Departure
from tempo_coach.ui.errands import RestStarted
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.reserve_errands import ReserveErrands, StepTaken
from tempo_coach.ui.reserve_keys import RESERVE_KEYS
from tempo_coach.ui.reserve_stage import Question, ReserveStage, has_use
from tempo_coach.ui.reserve_view import ReserveView
from tempo_coach.ui.reserve_words import CHOOSE, NOT_OVER, count_words, load_help
from tempo_coach.ui.rest_watch import RestWatch
from tempo_coach.ui.sentences import fault_sentence, kept_sentence
from tempo_coach.ui.set_keys import Presses
from tempo_coach.ui.underway import Underway

_TICKS_A_SECOND = 5


class ReserveScreen(Frame[tuple[str, ...]]):
    """Leads through a test; goes away with what is still to be said.

    Parameters
    ----------
    underway
        What starts, ends and saves.
    test
        As far as it went.
    rest_ms
        Between attempts.
    unanswered
        A set of the test that was logged, and left before the question; None without one.
    said
        What is to be said at first, a sentence each.
    """

    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = RESERVE_KEYS

    def __init__(
        self,
        underway: Underway,
        test: ReserveTest,
        *,
        rest_ms: int,
        unanswered: SetDone | None,
        said: tuple[str, ...] = (),
    ) -> None:
        super().__init__()
        self._underway = underway
        self._errands = ReserveErrands(self, underway)
        self._settings = underway.coach.settings
        self._clock = underway.coach.clock
        self._test = test
        self._rest_ms = rest_ms
        self._unanswered = unanswered
        self._told_at_first = said
        self._view = ReserveView(underway, test.begun)
        self._presses = Presses()
        self._stage = ReserveStage.AHEAD
        self._chosen_kg: Decimal | None = None
        self._question: Question | None = None
        self._answered: Question | None = None
        """What the last answer was about, for as long as it can be given anew."""
        self._rest: RestWatch | None = None

    def content(self) -> Iterable[Widget]:
        """Return the view."""
        yield self._view

    def on_mount(self) -> None:
        """Show the first load, or ask about the attempt that was left."""
        unanswered = self._unanswered
        if unanswered is not None and unanswered.load_kg is not None:
            self._view.say(f"The attempt with {unanswered.load_kg:g} kg has no answer yet.")
            self._ask(Question(decimal_of(unanswered.load_kg), unanswered))
        else:
            self._view.say(SHORT[0])
            self._go_on()
        self.tell(*self._told_at_first)
        self.set_interval(1 / _TICKS_A_SECOND, self.follow_clock)
        self.post_message(RackReached())

    def on_screen_resume(self) -> None:
        """Be deaf for a moment to the key that led here, which may still be held down."""
        self._presses.begin(self._clock.now_ms())

    def on_unmount(self) -> None:
        """Let no rest sound on."""
        self._underway.close()

    def follow_clock(self) -> None:
        """Show where the rest is now."""
        load_kg = self._load_kg
        if self._stage is ReserveStage.AHEAD and load_kg is not None:
            now_ms = self._clock.now_ms()
            self._view.show_ahead(self._test, self._next_set(load_kg), load_kg, self._rest, now_ms)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Allow what the stage has a use for."""
        if action == "take_back" and self._answered is None:
            return False
        if action in ("read_on", "read_back") and not self._view.page.is_long:
            return False
        if not has_use(action, self._stage, self._question):
            return False
        return super().check_action(action, parameters)

    def on_step_taken(self, event: StepTaken) -> None:
        """Say what was logged, and go on to the next load or to the result."""
        question = self._question
        self._answered = None if question is None or question.done is None else question
        self._question = self._chosen_kg = None
        self._test = event.test
        self.tell(*(() if event.fault is None else (kept_sentence(event.fault),)))
        self._view.say(f"{attempt_words(event.test.attempts[-1])}.")
        self._go_on()

    def on_rest_started(self, event: RestStarted) -> None:
        """Count the rest that sounds."""
        if self._rest is not None:
            self._rest.take(event.rest)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Show what the measured seconds make of the answer."""
        event.stop()
        self._show_question()

    def action_start(self) -> None:
        """Pace the attempt."""
        load_kg = self._load_kg
        if load_kg is not None and self._presses.is_meant(self._clock.now_ms()):
            lifter = self._test.begun.lifter
            screen = AttemptScreen(
                self._underway, self._next_set(load_kg), lifter, starts_at_once=True
            )
            self.app.push_screen(screen, partial(self._come_back, load_kg))

    def action_choose_load(self) -> None:
        """Ask for another load for the next attempt."""
        unit = LoadUnit(self._settings.unit)
        question = AnswerScreen(
            f"What load for {count_words(self._test, None)}?",
            load_help(self._test, unit),
            text="",
            read=partial(self._test.read_load, unit=unit),
        )
        self.app.push_screen(question, self._choose)

    def action_say_held(self) -> None:
        """Take in that it was held."""
        self._say_of_attempt(held=True)

    def action_say_lost(self) -> None:
        """Take in that it was lost."""
        self._say_of_attempt(held=False)

    def action_lose(self) -> None:
        """Ask whether the load could really not be lifted out."""
        if self._load_kg is not None:
            self._ask(Question(self._load_kg, None, said_held=False))

    def action_confirm(self) -> None:
        """Log the answer, or say what is missing."""
        if self._presses.is_meant(self._clock.now_ms()):
            self.after_typing(self._confirm)

    def action_take_back(self) -> None:
        """Ask about the last attempt once more."""
        if self._answered is not None:
            self._ask(replace(self._answered, is_asked_again=True))

    def action_read_on(self) -> None:
        """Turn the page of the result."""
        self._view.page.scroll_page_down(animate=False)

    def action_read_back(self) -> None:
        """Turn the page of the result back."""
        self._view.page.scroll_page_up(animate=False)

    def action_stay(self) -> None:
        """Do nothing."""

    def action_finish(self) -> None:
        """Go back."""
        if self._presses.is_meant(self._clock.now_ms()):
            self.dismiss(())

    def action_leave(self) -> None:
        """Leave a question for what was answered before, else the test for later."""
        question = self._question
        if question is not None and (question.is_asked_again or question.done is None):
            self._question = None
            self.tell()
            self._go_on()
        else:
            self.dismiss((NOT_OVER,))

    @property
    def _load_kg(self) -> Decimal | None:
        """What is ahead; None once the test is over."""
        return self._chosen_kg or self._test.next_kg(self._settings.rack)

    def _next_set(self, load_kg: Decimal) -> NextSet:
        begun = self._test.begun
        return NextSet(attempt_line(begun.exercise, load_kg, lower_s=begun.lower_s))

    def _choose(self, load_kg: Decimal | None) -> None:
        if load_kg is not None:
            self._chosen_kg = load_kg
            self._go_on()

    def _come_back(self, load_kg: Decimal, departure: Departure | None) -> None:
        if departure is None:
            return
        self._view.say(*departure.said)
        if departure.done:
            self._rest = RestWatch()
            self._rest.begin(self._clock.now_ms(), self._rest_ms)
            self._errands.rest(self._rest_ms)
            self._ask(Question(load_kg, departure.done[0]))

    def _confirm(self) -> None:
        question = self._question
        if question is None or self._stage is not ReserveStage.ASKED:
            return
        said, done = question.said_held, question.done
        if said is None:
            self.tell(CHOOSE)
            return
        try:
            lowered_s = self._view.measured_s()
        except OutOfRange as fault:
            self.tell(fault_sentence(fault))
            return
        if done is None:
            step = partial(self._underway.lose, self._test, question.load_kg)
        else:
            step = partial(self._underway.answer, self._test, done, said=said, lowered_s=lowered_s)
        self._enter(ReserveStage.SAVING)
        self._errands.take(step)

    def _go_on(self) -> None:
        if self._load_kg is not None:
            self._enter(ReserveStage.AHEAD)
        else:
            self._errands.hush()
            self._view.show_result(self._test)
            self._enter(ReserveStage.OVER)

    def _ask(self, question: Question) -> None:
        self._question = question
        self._view.fill_seconds(question.done)
        self._enter(ReserveStage.ASKED)
        self._show_question()

    def _say_of_attempt(self, *, held: bool) -> None:
        if self._question is not None:
            self._question = replace(self._question, said_held=held)
            self.tell()
            self._show_question()

    def _show_question(self) -> None:
        if self._question is not None and self._stage is ReserveStage.ASKED:
            self._view.show_question(self._question)

    def _enter(self, stage: ReserveStage) -> None:
        self._stage = stage
        self._presses.begin(self._clock.now_ms())
        question = self._question
        measures = stage is ReserveStage.ASKED and question is not None and bool(question.done)
        self._view.enter(stage, count_words(self._test, question), measures=measures)
        self.set_focus(self._view.seconds if measures else None)
        self.follow_clock()
        self.refresh_bindings()
