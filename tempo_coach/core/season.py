"""One lifter's season: the weeks of the plan and its calendar, what was done, and what may be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tempo_coach.core.facts import SetDone
from tempo_coach.core.load_trend import WeekVariety
from tempo_coach.core.plan import MOST_WEEKS, Plan
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.season_calendar import SeasonCalendar
from tempo_coach.core.season_table import (
    DayTrend,
    SeasonRow,
    day_trend,
    season_rows,
    sets_without_load,
    week_variety,
)
from tempo_coach.core.weeks import IsoWeek, week_of

WEEKS_BACK = 26
"""How far a season without a plan reaches back at the most."""
WEEKS_AHEAD = 4
"""And how far it looks ahead."""


@dataclass(frozen=True, slots=True)
class Season:
    """One lifter's season."""

    lifter: str
    calendar: SeasonCalendar
    rules: DosingRules
    is_planned: bool
    """A plan says what it is; else the log alone does."""
    rows: tuple[SeasonRow, ...]
    """From the plan's first week to the last one that the plan or its calendar speaks of; without
    a plan the last half year and a few weeks more."""
    trend: tuple[DayTrend, ...]
    """Of all lowering, from the first day with sets to the end of today."""
    without_load: int
    """How many sets of the last four weeks add nothing to it, since no load in kg is known."""
    variety: WeekVariety
    """Of the last seven-day week that is over."""
    variety_before: WeekVariety
    """Of the week before that."""
    today: date

    @property
    def this_week(self) -> SeasonRow | None:
        """The week of today; None where the season does not hold it."""
        return self.row_of(IsoWeek.of(self.today))

    def row_of(self, week: IsoWeek) -> SeasonRow | None:
        """Return a week of the season; None where it does not hold it."""
        return next((row for row in self.rows if row.week.week == week), None)


def season_of(plan: Plan, lifter: str, *, sets: Sequence[SetDone], today: date) -> Season:
    """Return a lifter's season.

    Parameters
    ----------
    plan
        The plan.
    lifter
        The spelling's case does not matter.
    sets
        The lifter's, in the order they were done.
    today
        The lifter's date.

    Raises
    ------
    OutOfRange
        The plan has nobody of that name.
    """
    person, calendar = plan.lifter(lifter), plan.calendar_of(lifter)
    return _season(
        person.name,
        calendar,
        plan.rules_of(lifter),
        sets=sets,
        first=plan.iso_week(1),
        weeks=_week_count(plan, calendar),
        today=today,
        is_planned=True,
    )


def season_of_log(lifter: str, *, sets: Sequence[SetDone], today: date) -> Season:
    """Return what the log alone says of a lifter's season, by the rules where no plan states any.

    Parameters
    ----------
    lifter
        The name.
    sets, today
        As for `season_of`.
    """
    this, rules = IsoWeek.of(today), DosingRules()
    begun = [week for week in map(week_of, sets) if week <= this]
    first = max(min(begun, default=this), this.before(WEEKS_BACK))
    return _season(
        lifter,
        SeasonCalendar((), (), rules.as_taper()),
        rules,
        sets=sets,
        first=first,
        weeks=(this.monday() - first.monday()).days // 7 + 1 + WEEKS_AHEAD,
        today=today,
        is_planned=False,
    )


def lifter_season(
    plan: Plan | None, lifter: str, *, sets: Sequence[SetDone], today: date
) -> Season:
    """Return a lifter's season: the plan's where it has the lifter, else the log's."""
    if plan is not None and plan.has(lifter):
        return season_of(plan, lifter, sets=sets, today=today)
    return season_of_log(lifter, sets=sets, today=today)


def _season(
    lifter: str,
    calendar: SeasonCalendar,
    rules: DosingRules,
    *,
    sets: Sequence[SetDone],
    first: IsoWeek,
    weeks: int,
    today: date,
    is_planned: bool,
) -> Season:
    last = IsoWeek.of(today).before()
    return Season(
        lifter=lifter,
        calendar=calendar,
        rules=rules,
        is_planned=is_planned,
        rows=season_rows(
            sets, calendar=calendar, rules=rules, first=first, weeks=weeks, today=today
        ),
        trend=day_trend(sets, until=today),
        without_load=sets_without_load(sets, until=today),
        variety=week_variety(sets, last),
        variety_before=week_variety(sets, last.before()),
        today=today,
    )


def _week_count(plan: Plan, calendar: SeasonCalendar) -> int:
    begins = plan.iso_week(1).monday()
    ends = [span.until for span in (*calendar.team, *calendar.own)]
    ends.append(begins + timedelta(weeks=plan.weeks, days=-1))
    return min((max(ends) - begins).days // 7 + 1, MOST_WEEKS)
