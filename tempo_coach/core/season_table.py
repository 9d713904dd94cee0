"""One lifter's weeks, past and to come: lowering-emphasis work done, and its limits."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from tempo_coach.core.emphasis import is_emphasis
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible
from tempo_coach.core.load_trend import LONG_DAYS, SHORT_DAYS, WeekVariety, ewma
from tempo_coach.core.movement_groups import movement_group
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.season_calendar import DAYS_A_WEEK, SeasonCalendar, SeasonDay
from tempo_coach.core.season_limits import Level, SeasonWeek, week_levels
from tempo_coach.core.weeks import IsoWeek, week_of

SECONDS = "s"
LOAD = "kg·s"


@dataclass(frozen=True, slots=True)
class Measure:
    """Lowering-emphasis work of one week in one measure, and its limit."""

    done: float
    level: Level
    share: float
    """What the calendar leaves of the level, 0 to 1."""

    @property
    def limit(self) -> float | None:
        """What the week may hold; None where no level is known and the calendar leaves some."""
        return self._left_of(self.share)

    @property
    def over(self) -> float:
        """What was done above the limit; 0 where there is none, or less than shows."""
        if self.limit is None or round(self.done) <= round(self.limit):
            return 0.0
        return self.done - self.limit

    @property
    def left(self) -> float | None:
        """What the limit still leaves; None where none is known."""
        return None if self.limit is None else max(self.limit - self.done, 0.0)

    def plus(self, more: Iterable[float]) -> Measure:
        """Return the same with some work more."""
        return replace(self, done=self.done + math.fsum(more))

    def of_day(self, day: SeasonDay) -> float | None:
        """Return a day's part of the limit; None where none is known."""
        return self._left_of(day.share / DAYS_A_WEEK)

    def _left_of(self, share: float) -> float | None:
        # Of nothing, nothing is left, whatever the level.
        if not share:
            return 0.0
        return None if self.level.amount is None else self.level.amount * share


@dataclass(frozen=True, slots=True)
class WeekLimit:
    """How much lowering emphasis a week may hold, in one measure."""

    amount: float
    unit: str
    """Seconds of lowering, or lowering load."""
    group: str | None = None
    """The movement group that is limited; None where all work is."""

    def __str__(self) -> str:
        of = "" if self.group is None else f" for {legible(self.group)}"
        return f"{self.amount:,.0f} {self.unit}{of}"


@dataclass(frozen=True, slots=True)
class SeasonRow:
    """One week of the table."""

    week: SeasonWeek
    lower_s: Measure
    """Lowering seconds."""
    kg_s: Measure
    """Lowering load: this tool's own measure."""
    groups: Mapping[str, Measure]
    """Lowering seconds of the movement groups that are limited by themselves."""
    all_lower_s: float
    """With ordinary work."""

    def limits(self) -> tuple[WeekLimit, ...]:
        """Return the limits that are known: of seconds, of load, and of groups."""
        measures = (
            (self.lower_s, SECONDS, None),
            (self.kg_s, LOAD, None),
            *((measure, SECONDS, group) for group, measure in self.groups.items()),
        )
        return tuple(
            WeekLimit(measure.limit, unit, group)
            for measure, unit, group in measures
            if measure.limit is not None
        )


@dataclass(frozen=True, slots=True)
class DayTrend:
    """Where the daily lowering load was going by the end of a day."""

    date: date
    kg_s: float
    """That day's."""
    short: float
    """EWMA over 7 days."""
    long: float
    """EWMA over 28 days."""


def season_rows(
    sets: Iterable[SetDone],
    *,
    calendar: SeasonCalendar,
    rules: DosingRules,
    first: IsoWeek,
    weeks: int,
    today: date,
) -> tuple[SeasonRow, ...]:
    """Return the weeks of one lifter from the first on.

    Parameters
    ----------
    sets
        The lifter's, of any time.
    calendar
        The lifter's.
    rules
        How the work is dosed.
    first
        The first week; a stated base holds from there.
    weeks
        How many.
    today
        Weeks that begin later have no work yet.
    """
    every = tuple(sets)
    trained = [one for one in every if is_emphasis_set(one, rules)]
    days = first.monday()
    spans = [
        SeasonWeek.of(IsoWeek.of(days + timedelta(weeks=number)), calendar)
        for number in range(weeks)
    ]

    def measures(done: Mapping[IsoWeek, float], base: float | None) -> list[Measure]:
        levels = week_levels(
            spans, calendar=calendar, base=base, rules=rules, done=done, today=today
        )
        return [
            Measure(done.get(week.week, 0.0), level, week.share)
            for week, level in zip(spans, levels, strict=True)
        ]

    seconds = measures(by_week(trained, lower_s), rules.base_s)
    loads = measures(by_week(trained, kg_s), rules.base_kg_s)
    in_all = by_week(every, lower_s)
    groups = {
        group: measures(by_week(_of_group(trained, group, rules), lower_s), base)
        for group, base in rules.group_base_s.items()
    }
    return tuple(
        SeasonRow(
            week=week,
            lower_s=seconds[place],
            kg_s=loads[place],
            groups={group: of[place] for group, of in groups.items()},
            all_lower_s=in_all.get(week.week, 0.0),
        )
        for place, week in enumerate(spans)
    )


def is_emphasis_set(done: SetDone, rules: DosingRules) -> bool:
    """Tell whether a set is lowering-emphasis work under the rules of a plan."""
    slow_from_ms = round(rules.emphasis_from_s * 1000)
    return is_emphasis(done.tempo, done.shape, slow_from_ms=slow_from_ms)


def lower_s(done: SetDone) -> float:
    """Return the seconds that a set was lowered."""
    return done.seconds.lower


def kg_s(done: SetDone) -> float:
    """Return a set's load lowered × seconds; 0 where the load is not known in kg."""
    return (done.mean_lower_kg or 0.0) * done.seconds.lower


def by_week(sets: Iterable[SetDone], amount: Callable[[SetDone], float]) -> dict[IsoWeek, float]:
    """Add sets up by ISO week of their local date."""
    sums: dict[IsoWeek, float] = {}
    for done in sets:
        week = week_of(done)
        sums[week] = sums.get(week, 0.0) + amount(done)
    return sums


def _of_group(sets: Iterable[SetDone], group: str, rules: DosingRules) -> list[SetDone]:
    return [one for one in sets if movement_group(one.exercise, more=rules.groups) == group]


def day_trend(sets: Iterable[SetDone], *, until: date) -> tuple[DayTrend, ...]:
    """Return the trend of the daily lowering load, from the first day with sets on."""
    loads: dict[date, float] = {}
    for done in sets:
        day = done.started_at.date()
        loads[day] = loads.get(day, 0.0) + kg_s(done)
    if not loads or min(loads) > until:
        return ()
    first = min(loads)
    days = [first + timedelta(days=number) for number in range((until - first).days + 1)]
    daily = [loads.get(day, 0.0) for day in days]
    short, long = ewma(daily, span=SHORT_DAYS), ewma(daily, span=LONG_DAYS)
    return tuple(map(DayTrend, days, daily, short, long))


def sets_without_load(sets: Iterable[SetDone], *, until: date) -> int:
    """Return how many sets of the days that weigh most in the trend have no load in kg."""
    since = until - timedelta(days=min(LONG_DAYS - 1, (until - date.min).days))
    return sum(
        since <= one.started_at.date() <= until
        and one.seconds.lower > 0
        and one.mean_lower_kg is None
        for one in sets
    )


def week_variety(sets: Iterable[SetDone], week: IsoWeek) -> WeekVariety:
    """Return how alike the days of a week were in lowering load."""
    monday = week.monday()
    daily = [0.0] * 7
    for done in sets:
        after = (done.started_at.date() - monday).days
        if 0 <= after < len(daily):
            daily[after] += kg_s(done)
    return WeekVariety.of(daily)
