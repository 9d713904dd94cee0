"""The planned day that a lifter most likely came for."""

from __future__ import annotations

from datetime import date

from tempo_coach.core.history import History
from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_days import PlannedDay, planned_days
from tempo_coach.core.session import session_of
from tempo_coach.core.tempo import Allowances


def open_day(
    plan: Plan, *, lifter: str, today: date, history: History, allowances: Allowances
) -> PlannedDay | None:
    """Return today's planned day, or the one to show on a day without work.

    That is the last day before, while it can still be done and something of it is left; else the
    next one, and behind the end of the plan the last. None where the plan has no day at all for
    the lifter.

    Raises
    ------
    OutOfRange
        The plan has nobody of that name.
    """
    near = planned_days(plan, lifter=lifter, around=today)
    if near.today is not None:
        return near.today
    if near.last is not None:
        session = session_of(plan, near.last, lifter=lifter, history=history, allowances=allowances)
        if today < session.until and session.next_item is not None:
            return near.last
    return near.next or near.last
