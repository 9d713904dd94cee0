"""Whether the sound is there, asked once a day and remembered."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Any

from textual.app import App

from tempo_coach.ui.desk import Desk
from tempo_coach.ui.keeping import Keeping
from tempo_coach.ui.preferences import Preferences
from tempo_coach.ui.sound_check_screen import Answer, SoundCheckScreen
from tempo_coach.ui.underway import Underway


class SoundQuestion:
    """Asks before the first set of a day, where the settings want it.

    Parameters
    ----------
    app
        What the question is opened in.
    desk
        When the sound was last heard, and whether anything is to be.
    underway
        What plays.
    preferences
        Whether to ask at all.
    keeping
        Remembers the answer.
    """

    def __init__(
        self,
        app: App[Any],
        desk: Desk,
        underway: Underway,
        preferences: Preferences,
        keeping: Keeping,
    ) -> None:
        self._app = app
        self._desk = desk
        self._underway = underway
        self._preferences = preferences
        self._keeping = keeping
        self._asked_on = desk.sound_checked_on

    def ask(self, then: Callable[[], None]) -> None:
        """Ask, unless that was done today, and go on."""
        asks = self._preferences.settings.sound_check and not self._desk.is_silent
        if asks and self._asked_on != self._today():
            self._asked_on = self._today()
            self._app.push_screen(SoundCheckScreen(self._underway), partial(self._take, then))
        else:
            then()

    def _take(self, then: Callable[[], None], answer: Answer | None) -> None:
        if answer is Answer.HEARD:
            self._keeping.keep(partial(self._desk.keep_sound_checked, self._today()))
        elif answer is Answer.NEVER_AGAIN:
            self._preferences.change("sound_check", value=False)
        then()

    def _today(self) -> date:
        return self._underway.coach.clock.wall().date()
