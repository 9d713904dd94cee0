"""What the week has come to so far, on one quiet line."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import partial

from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from tempo_coach.coach import Coach
from tempo_coach.core.facts import SetDone
from tempo_coach.core.history import History
from tempo_coach.core.log_reading import read_logs
from tempo_coach.core.weeks import IsoWeek, Totals, week_of
from tempo_coach.errors import LogUnreadable


def week_sentence(sets: Iterable[SetDone], today: date) -> str:
    """Add up this week's sets beside the last week's lowering; empty where there are no sets."""
    sets = tuple(sets)
    if not sets:
        return ""
    this_week = IsoWeek.of(today)
    now = Totals.of(done for done in sets if week_of(done) == this_week)
    before = Totals.of(done for done in sets if week_of(done) == this_week.before())
    is_first = not any(week_of(done) < this_week for done in sets)
    last_week = "" if is_first else f"; last week {_lowering_words(before)}"
    return f"This week: {_work_words(now)}{last_week}."


def _work_words(totals: Totals) -> str:
    if not totals.sets:
        return "nothing yet"
    about = "about " if totals.by_allowance.tension_ms else ""
    tension = f"tension {about}{_seconds(totals.times.tension_ms)}"
    sets = f"{totals.sets} set{'' if totals.sets == 1 else 's'}"
    return f"{_lowering_words(totals)}, {tension} in {sets}"


def _lowering_words(totals: Totals) -> str:
    if not totals.sets:
        return "nothing"
    about = "about " if totals.by_allowance.lower_ms else ""
    return f"lowering {about}{_seconds(totals.times.lower_ms)}"


def _seconds(length_ms: int) -> str:
    return f"{length_ms / 1000:.0f} s"


class WeekLine(Static):
    """Reads the log in a thread and sums up a lifter's week.

    Parameters
    ----------
    coach
        Whose log and clock.
    """

    @dataclass
    class Summed(Message):
        """The log was read."""

        sentence: str
        history: History

    @dataclass
    class Unreadable(Message):
        """The log can't be read."""

        fault: LogUnreadable

    def __init__(self, coach: Coach) -> None:
        super().__init__(markup=False)
        self.display = False
        self._coach = coach

    def read(self, lifter: str | None) -> None:
        """Read again, for a lifter; None shows nothing."""
        if lifter is None:
            self.display = False
            return
        self.run_worker(partial(self._read, lifter), thread=True, group="week", exclusive=True)

    def on_week_line_summed(self, event: Summed) -> None:
        """Show the sentence."""
        self.update(event.sentence)
        self.display = bool(event.sentence)

    def _read(self, lifter: str) -> None:
        message: Message
        try:
            history = read_logs([self._coach.log]).history
        except LogUnreadable as fault:
            message = self.Unreadable(fault)
        else:
            today = self._coach.clock.wall().date()
            message = self.Summed(week_sentence(history.of(lifter), today), history)
        # Another lifter may have been asked for meanwhile, and a thread can't be stopped.
        if not get_current_worker().is_cancelled:
            self.post_message(message)
