"""How sore a lifter is, asked once a day and logged."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Any

from textual.app import App

from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.recorded_soreness import asks_for_soreness
from tempo_coach.core.set_notes import soreness_notes
from tempo_coach.errors import LogUnreadable
from tempo_coach.ui.preferences import Preferences
from tempo_coach.ui.sentences import fault_sentence
from tempo_coach.ui.set_screen import SetScreen
from tempo_coach.ui.soreness_screen import SorenessAnswer, SorenessScreen
from tempo_coach.ui.stage import Stage
from tempo_coach.ui.underway import Underway


class SorenessQuestion:
    """Asks before the first set of a lifter's day, where the settings want it.

    Parameters
    ----------
    app
        What the question is opened in.
    underway
        What reads the log, and takes the answer to it.
    preferences
        Whether to ask at all.
    plan
        Returns the plan that is open, whose rules say what is much; None where none is.
    """

    def __init__(
        self,
        app: App[Any],
        underway: Underway,
        preferences: Preferences,
        plan: Callable[[], Plan | None],
    ) -> None:
        self._app = app
        self._underway = underway
        self._preferences = preferences
        self._plan = plan
        self._asked: set[tuple[str, date]] = set()

    def ask(self, lifter: str) -> None:
        """Ask, unless the lifter was asked today, has told it, or has done a set."""
        day = self._underway.coach.clock.wall().date()
        if self._preferences.settings.soreness_check and (lifter, day) not in self._asked:
            self._app.run_worker(
                partial(self._look, lifter, day), thread=True, group="soreness", exclusive=True
            )

    def _look(self, lifter: str, day: date) -> None:
        try:
            history = self._underway.coach.history()
        except LogUnreadable:
            # Told of where the log is shown; no set waits for it.
            return
        if asks_for_soreness(history.sets, history.soreness, lifter=lifter, day=day):
            self._app.call_from_thread(self._open, lifter, day)

    def _open(self, lifter: str, day: date) -> None:
        screen = self._app.screen
        # Nothing covers a set that was begun meanwhile.
        if isinstance(screen, SetScreen) and screen.stage is Stage.WAITING:
            self._asked.add((lifter, day))
            self._app.push_screen(
                SorenessScreen(self._underway.coach.clock), partial(self._take, lifter, screen)
            )

    def _take(self, lifter: str, screen: SetScreen, answer: SorenessAnswer | None) -> None:
        if answer is None:
            return
        if not answer.asks_again:
            self._preferences.change("soreness_check", value=False)
        if answer.soreness is not None:
            screen.warn(*soreness_notes(answer.soreness, rules=self._rules(lifter)))
            self._app.run_worker(
                partial(self._log, lifter, screen, answer.soreness), thread=True, group="told"
            )

    def _rules(self, lifter: str) -> DosingRules:
        plan = self._plan()
        return plan.rules_of(lifter) if plan is not None and plan.has(lifter) else DosingRules()

    def _log(self, lifter: str, screen: SetScreen, soreness: int) -> None:
        fault = self._underway.tell_soreness(lifter, soreness)
        if fault is not None:
            said = f"The answer is kept in memory, not yet on the disk. {fault_sentence(fault)}"
            self._app.call_from_thread(screen.tell_also, said)
