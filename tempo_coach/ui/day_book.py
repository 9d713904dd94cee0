"""A lifter's planned days, read from the plan and the log."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from threading import Lock
from typing import Any, TypeGuard

from tempo_coach.core.open_day import open_day
from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_days import PlannedDay, days_of
from tempo_coach.core.ports import PlanSource
from tempo_coach.core.session import Session, session_of
from tempo_coach.core.session_facts import Change
from tempo_coach.core.session_order import place_after_move
from tempo_coach.errors import FileProblem, LogUnwritable, OutOfRange, TempoCoachError
from tempo_coach.ui.sentences import fault_sentence
from tempo_coach.ui.underway import Underway

CHANGED = "The plan has changed and was read again."
AS_READ = "All stays as it was last read."


@dataclass(frozen=True, slots=True)
class DayReading:
    """A planned day as it stands."""

    number: int
    """The higher, the later it was read."""
    plan: Plan
    today: date
    days: tuple[date, ...]
    """The dates of all planned days of the lifter, in order."""
    session: Session | None
    """None where the plan has no day for the lifter, or the log can't be read."""
    notices: tuple[str, ...]
    """What must be known, a sentence each."""


class DayBook:
    """Reads planned days and changes them, from whatever thread; one thing at a time.

    Parameters
    ----------
    underway
        What keeps the log.
    source
        Where the plan is.
    plan
        The plan as it was read at first.
    """

    def __init__(self, underway: Underway, source: PlanSource, plan: Plan) -> None:
        self.plan = plan
        self._underway = underway
        self._source = source
        self._lock = Lock()
        self._number = 0
        self._session: Session | None = None

    @property
    def names(self) -> tuple[str, ...]:
        """The plan's lifters."""
        return tuple(lifter.name for lifter in self.plan.lifters)

    def is_of(self, lifter: str | None) -> TypeGuard[str]:
        """Tell whether the plan has this lifter."""
        return lifter is not None and self.plan.has(lifter)

    def read_plan(self) -> tuple[str, ...]:
        """Take in what has become of the plan; returns what is to be said of it. Blocks."""
        with self._lock:
            return self._news()

    def read(self, lifter: str, on: date | None) -> DayReading:
        """Read the plan and the log again; blocks.

        Parameters
        ----------
        lifter
            Whose day.
        on
            The date of the day; None is the day that the lifter most likely came for, and so is a
            date that the plan no longer has.
        """
        with self._lock:
            return self._read(lifter, on, self._news())

    def change(self, item: int, change: Change, **needed: Any) -> DayReading | None:
        """Change an item of the day that was read last; None where there is none. Blocks."""
        with self._lock:
            return self._change(item, change, **needed)

    def move(self, item: int, by: int) -> DayReading | None:
        """Move an item of the day that was read last; None where it can't go there. Blocks."""
        with self._lock:
            to = None if self._session is None else place_after_move(self._session, item, by)
            return None if to is None else self._change(item, "moved", to=to)

    def _change(self, item: int, change: Change, **needed: Any) -> DayReading | None:
        session = self._session
        if session is None:
            return None
        fault = self._underway.change_session(session, item, change, **needed)
        return self._read(session.lifter, session.day.date, _unsaved(fault))

    def _news(self) -> tuple[str, ...]:
        """Take in what has become of the plan; returns what is to be said of it."""
        try:
            reading = self._source.read(today=self._today())
            plan = reading.usable(self._source.name)
        except TempoCoachError as fault:
            return (f"{fault_sentence(fault)} {AS_READ}",)
        if plan == self.plan:
            return ()
        self.plan = plan
        return (CHANGED,)

    def _read(self, lifter: str, on: date | None, notices: tuple[str, ...]) -> DayReading:
        days: tuple[PlannedDay, ...] = ()
        try:
            days = days_of(self.plan, lifter)
            self._session = self._session_of(lifter, on, days)
        except (FileProblem, OutOfRange) as fault:
            notices += (f"{fault_sentence(fault)} {AS_READ}",)
        self._number += 1
        return DayReading(
            number=self._number,
            plan=self.plan,
            today=self._today(),
            days=tuple(day.date for day in days),
            session=self._session,
            notices=notices,
        )

    def _session_of(
        self, lifter: str, on: date | None, days: tuple[PlannedDay, ...]
    ) -> Session | None:
        coach = self._underway.coach
        history, allowances = coach.history(), coach.settings.allowances
        day = next((day for day in days if day.date == on), None) or open_day(
            self.plan,
            lifter=lifter,
            today=self._today(),
            history=history,
            allowances=allowances,
        )
        if day is None:
            return None
        return session_of(
            self.plan,
            day,
            lifter=lifter,
            history=history,
            allowances=allowances,
            at=coach.clock.wall(),
        )

    def _today(self) -> date:
        return self._underway.coach.clock.wall().date()


def _unsaved(fault: LogUnwritable | None) -> tuple[str, ...]:
    if fault is None:
        return ()
    return (f"The change is kept in memory, not yet on the disk. {fault_sentence(fault)}",)
