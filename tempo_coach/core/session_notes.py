"""What log and calendar have to say before a lifter's sets."""

from __future__ import annotations

from datetime import datetime
from functools import cache

from tempo_coach.core.emphasis import overloads
from tempo_coach.core.history import History
from tempo_coach.core.plan import Plan
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.season import lifter_season
from tempo_coach.core.set_notes import Ahead, Known, set_notes
from tempo_coach.core.strength import LifterRecord, Strength
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.week_room import WeekRoom


class SessionNotes:
    """Knows a lifter's season at a moment, and says of each set what speaks against it.

    Parameters
    ----------
    plan
        None where there is none. A plan has a word on the lifters it has, and on calendar and
        limits in the weeks of its season; for other lifters the log speaks alone.
    lifter
        The spelling's case does not matter.
    history
        What the log holds.
    at
        The moment.
    allowances
        What stands in for X, V and A.
    """

    def __init__(
        self,
        plan: Plan | None,
        lifter: str,
        *,
        history: History,
        at: datetime,
        allowances: Allowances,
    ) -> None:
        self._sets = history.of(lifter)
        self._season = lifter_season(plan, lifter, sets=self._sets, today=at.date())
        told = history.soreness.on(lifter, at.date())
        self._soreness = None if told is None else told.soreness
        self._measured = history.measured
        self._at = at
        person = plan.lifter(lifter) if plan is not None and plan.has(lifter) else None
        record = LifterRecord(lifter, person, history.maxes)
        self._overloads = cache(lambda: overloads(self._sets, record=record, allowances=allowances))
        self.room = WeekRoom.of(self._season, at=at, allowances=allowances)
        """What the limits leave of the week; None where the plan's season does not hold it."""

    def of(self, line: Prescription, strength: Strength) -> tuple[str, ...]:
        """Return what speaks against the next set of a line beside the limits, a sentence each.

        Parameters
        ----------
        line
            With its loads worked out.
        strength
            What is known for it.
        """
        season, on = self._season, self._at.date()
        return set_notes(
            Ahead(line, self._at),
            Known(
                sets=self._sets,
                rules=season.rules,
                day=season.calendar.day(on) if season.this_week else None,
                strength=strength,
                overloads=self._overloads,
                measured=self._measured,
                soreness=self._soreness,
            ),
        )
