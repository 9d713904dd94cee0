"""The days of a plan on the calendar."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from tempo_coach.core.plan import WEEKDAYS, Plan
from tempo_coach.core.prescription import Prescription


@dataclass(frozen=True, slots=True)
class PlannedWork:
    """One piece of work on one date."""

    item: int
    """Its place in the plan's day, from 1; work that is off that week keeps its place."""
    prescription: Prescription
    """As written, so that its load may be a share of a max."""
    note: str


@dataclass(frozen=True, slots=True)
class PlannedDay:
    """One lifter's work on one date."""

    date: date
    week: int
    """Of the plan, from 1."""
    work: tuple[PlannedWork, ...]
    """Never empty: a day whose work is all off is no planned day."""


@dataclass(frozen=True, slots=True)
class NearbyDays:
    """A lifter's planned days around a date."""

    last: PlannedDay | None
    """The latest before the date."""
    today: PlannedDay | None
    """The one on the date."""
    next: PlannedDay | None
    """The first after the date."""


def days_of(plan: Plan, lifter: str, *, week: int | None = None) -> tuple[PlannedDay, ...]:
    """Return a lifter's planned days by date, of one week from 1 or of all.

    Raises
    ------
    OutOfRange
        The plan has nobody of that name.
    """
    name = plan.lifter(lifter).name
    weeks = range(1, plan.weeks + 1) if week is None else (week,)
    days = []
    for number in weeks:
        monday = plan.iso_week(number).monday()
        for day in plan.days:
            work = tuple(
                PlannedWork(place, line, piece.note)
                for place, piece in enumerate(day.work, start=1)
                if (line := piece.in_week(number)) is not None
            )
            if work and day.is_for(name):
                on = monday + timedelta(days=WEEKDAYS.index(day.day))
                days.append(PlannedDay(on, number, work))
    return tuple(sorted(days, key=lambda one: one.date))


def planned_days(plan: Plan, *, lifter: str, around: date) -> NearbyDays:
    """Return a lifter's planned days on a date, before it and after it.

    Raises
    ------
    OutOfRange
        The plan has nobody of that name.
    """
    days = days_of(plan, lifter)
    before = [day for day in days if day.date < around]
    after = [day for day in days if day.date > around]
    return NearbyDays(
        last=before[-1] if before else None,
        today=next((day for day in days if day.date == around), None),
        next=after[0] if after else None,
    )
