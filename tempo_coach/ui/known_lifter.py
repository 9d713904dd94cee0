"""What is known of who lifts."""

from __future__ import annotations

from tempo_coach.coach import Coach
from tempo_coach.core.history import History, fold
from tempo_coach.core.load import Load, parse_load
from tempo_coach.core.method_lines import BestFor
from tempo_coach.core.plan import Lifter, Plan
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.session_notes import SessionNotes
from tempo_coach.core.strength import LifterRecord, Strength
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.day_book import DayBook


class KnownLifter:
    """Looks a lifter up in the plan that is open, and in the maxes of the log.

    Parameters
    ----------
    coach
        What counts for X and V.
    book
        The plan; None where none is open.
    name
        Who lifts; None where nobody has said yet.
    """

    def __init__(self, coach: Coach, book: DayBook | None, name: str | None) -> None:
        self._coach = coach
        self._book = book
        self.name = name
        self._history = fold(())
        self._notes: tuple[object, SessionNotes] | None = None

    @property
    def history(self) -> History:
        """The log as it was last read."""
        return self._history

    @history.setter
    def history(self, history: History) -> None:
        self._history, self._notes = history, None

    @property
    def record(self) -> LifterRecord:
        """Plan and log."""
        return LifterRecord(self.name or "", self.person, self._history.maxes)

    @property
    def plan(self) -> Plan | None:
        """The plan that is open."""
        return None if self._book is None else self._book.plan

    @property
    def person(self) -> Lifter | None:
        """The lifter as the plan has them; None where it does not."""
        if self._book is None or self.name is None:
            return None
        try:
            return self._book.plan.lifter(self.name)
        except OutOfRange:
            return None

    @property
    def step(self) -> Load:
        """What loads are rounded to."""
        if self._book is not None:
            return self._book.plan.loads_by
        return parse_load("5 lb" if self._coach.settings.unit == "lb" else "2.5 kg")

    def strength_for(self, prescription: Prescription) -> Strength:
        """Return what is known of the lifter for a line."""
        return self.record.strength_for(prescription, self._coach.settings.allowances)

    def notes(self) -> SessionNotes | None:
        """Return who says now what speaks against a line; None where nobody lifts yet."""
        if self.name is None:
            return None
        at = self._coach.clock.wall()
        # What is worked out of a whole log serves the letters that are typed within a minute.
        key = (self.name, self.plan, at.replace(second=0, microsecond=0))
        if self._notes is None or self._notes[0] != key:
            allowances = self._coach.settings.allowances
            notes = SessionNotes(
                self.plan, self.name, history=self._history, at=at, allowances=allowances
            )
            self._notes = key, notes
        return self._notes[1]

    def best_for(self, exercise: str) -> BestFor:
        """Return what tells the lifter's 1RM of an exercise, by the seconds of the lower."""
        record = self.record
        return lambda lower_s: record.best(exercise, lower_s=lower_s)
