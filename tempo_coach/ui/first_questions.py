"""What is asked at the rack before the first set of a day, one question after the other."""

from __future__ import annotations

from functools import partial
from typing import Any

from textual.app import App

from tempo_coach.ui.day_book import DayBook
from tempo_coach.ui.desk import Desk
from tempo_coach.ui.keeping import Keeping
from tempo_coach.ui.preferences import Preferences
from tempo_coach.ui.soreness_question import SorenessQuestion
from tempo_coach.ui.sound_question import SoundQuestion
from tempo_coach.ui.underway import Underway


class FirstQuestions:
    """Asks whether the sound is there, and then how sore the lifter is.

    Parameters
    ----------
    app
        What the questions are opened in.
    desk
        When the sound was last heard, and whether anything is to be.
    underway
        What plays, and takes what is told to the log.
    preferences
        Whether to ask at all.
    keeping
        Remembers that the sound was heard.
    book
        The plan that is open; None where none is.
    """

    def __init__(
        self,
        app: App[Any],
        desk: Desk,
        underway: Underway,
        preferences: Preferences,
        keeping: Keeping,
        book: DayBook | None,
    ) -> None:
        self._sound = SoundQuestion(app, desk, underway, preferences, keeping)
        self._soreness = SorenessQuestion(
            app, underway, preferences, lambda: None if book is None else book.plan
        )

    def ask(self, lifter: str) -> None:
        """Ask what was not asked today."""
        self._sound.ask(then=partial(self._soreness.ask, lifter))
