"""The way to a reserve test: what it is begun with, the check of the pins, and then the test."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from textual.app import App

from tempo_coach.core.facts import SetDone
from tempo_coach.core.plan import Lifter
from tempo_coach.core.reserve_start import check_cleared
from tempo_coach.errors import TempoCoachError
from tempo_coach.ui.pins_screen import PinsScreen
from tempo_coach.ui.reserve_errands import Step, StepTaken
from tempo_coach.ui.reserve_form_screen import ReserveChoice, ReserveFormScreen, Resumed
from tempo_coach.ui.reserve_screen import ReserveScreen
from tempo_coach.ui.sentences import fault_sentence, kept_sentence
from tempo_coach.ui.underway import Underway


class WayToReserve:
    """Opens one screen behind the other; each that is left leads back.

    Parameters
    ----------
    app
        What the screens are opened in.
    underway
        What starts, ends and saves.
    come_back
        Takes what is still to be said, a sentence each.
    """

    def __init__(
        self,
        app: App[Any],
        underway: Underway,
        come_back: Callable[[tuple[str, ...] | None], None],
    ) -> None:
        self._app = app
        self._underway = underway
        self._come_back = come_back

    def go(self, name: str, person: Lifter | None, exercise: str) -> None:
        """Ask what the test is begun with, unless the coach has not cleared the lifter.

        Parameters
        ----------
        name
            Who is tested.
        person
            The lifter as the plan has them; None where it does not.
        exercise
            What stands on the board; empty where nothing does.
        """
        try:
            check_cleared(name, person)
        except TempoCoachError as fault:
            self._come_back((fault_sentence(fault),))
            return
        form = ReserveFormScreen(self._underway, name, person, exercise)
        self._app.push_screen(form, partial(self._check_pins, name, person))

    def _check_pins(self, name: str, person: Lifter | None, choice: ReserveChoice | None) -> None:
        step: Step
        unanswered = None
        if choice is None:
            self._come_back(())
            return
        if isinstance(choice, Resumed):
            test, unanswered = choice.test, choice.unanswered
            step = lambda: (test, None)  # noqa: E731 - as the other is
        else:
            begin = self._underway.begin_test
            step = partial(begin, choice.span, lifter=name, exercise=choice.exercise)
        is_cleared = None if person is None else person.overload
        self._app.push_screen(
            PinsScreen(self._underway, step, is_cleared=is_cleared),
            partial(self._lead, choice.rest_ms, unanswered),
        )

    def _lead(self, rest_ms: int, unanswered: SetDone | None, begun: StepTaken | None) -> None:
        if begun is None:
            self._come_back(())
            return
        screen = ReserveScreen(
            self._underway,
            begun.test,
            rest_ms=rest_ms,
            unanswered=unanswered,
            said=() if begun.fault is None else (kept_sentence(begun.fault),),
        )
        self._app.push_screen(screen, self._come_back)
