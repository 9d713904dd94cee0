"""How much lowering-emphasis work a week may hold."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.season_calendar import SeasonCalendar, SeasonDay
from tempo_coach.core.weeks import IsoWeek

BASE_WEEKS = 4
"""How many full loading weeks a base that is not stated is the mean of."""
_BREAK_WEEKS = 2
_NO_BASE = "no full loading week in the log yet"


@dataclass(frozen=True, slots=True)
class SeasonWeek:
    """Seven days of one lifter's calendar."""

    week: IsoWeek
    days: tuple[SeasonDay, ...]

    @classmethod
    def of(cls, week: IsoWeek, calendar: SeasonCalendar) -> SeasonWeek:
        """Return a week of a calendar."""
        return cls(week, calendar.week(week))

    @property
    def share(self) -> float:
        """What the calendar leaves of the week, 0 to 1."""
        return math.fsum(day.share for day in self.days) / len(self.days)

    @property
    def is_loading(self) -> bool:
        """It is a full loading week: nothing is taken out of it."""
        return all(day.is_loading for day in self.days)


@dataclass(frozen=True, slots=True)
class Level:
    """What a week would hold if the calendar took nothing out."""

    amount: float | None
    """None where nothing says so yet."""
    why: str
    """Where it comes from, in a few words."""


def week_levels(
    weeks: Sequence[SeasonWeek],
    *,
    calendar: SeasonCalendar,
    base: float | None,
    rules: DosingRules,
    done: Mapping[IsoWeek, float],
    today: date,
) -> Iterator[Level]:
    """Yield the level of weeks that follow one another, in any one measure.

    With a stated base the first loading week has it, and one that follows a loading week has the
    level of that week and the stated growth. Without one, a week that has begun has the mean of
    the last four full loading weeks that hold work, and the growth; weeks to come go on from there.
    The growth ends at a stated share of the base, and the first loading week after two or more with
    less than a stated part of their level has that part.

    Parameters
    ----------
    weeks
        In order, without gaps.
    calendar
        Where they are from.
    base
        What is stated, if anything is.
    rules
        How the work is dosed.
    done
        What was done, by week; may hold more weeks than asked for.
    today
        Weeks that begin later have no work yet.
    """
    level = Level(None, _NO_BASE) if base is None else Level(base, "the stated base")
    before: SeasonWeek | None = None
    idle, has_loaded = 0, False
    top = None if base is None else base * rules.most_percent / 100
    for week in weeks:
        if base is None and week.week.monday() <= today:
            level, idle = _from_log(week.week, calendar, rules, done)
            top = level.amount and level.amount * rules.most_percent / 100
        elif (amount := level.amount) is not None and week.is_loading and has_loaded:
            if idle >= _BREAK_WEEKS:
                level = _after_break(amount, idle, rules)
            elif before is not None and before.is_loading:
                level = _grown(amount, "the level before", rules, top=top)
            else:
                level = Level(amount, "the level before")
        yield level
        has_loaded |= week.is_loading
        idle = idle + 1 if week.share < rules.after_break_percent / 100 else 0
        before = week


def _from_log(
    week: IsoWeek, calendar: SeasonCalendar, rules: DosingRules, done: Mapping[IsoWeek, float]
) -> tuple[Level, int]:
    """Return the level that the weeks before one give it, and how many of them were idle."""
    before = sorted((one for one, amount in done.items() if one < week and amount > 0))
    loading = [one for one in before if SeasonWeek.of(one, calendar).is_loading][-BASE_WEEKS:]
    if not loading:
        return Level(None, _NO_BASE), 0
    idle = (week.monday() - before[-1].monday()) // timedelta(weeks=1) - 1
    mean = math.fsum(done[one] for one in loading) / len(loading)
    if idle >= _BREAK_WEEKS:
        return _after_break(mean, idle, rules), idle
    counted = f"{len(loading)} full loading week{'' if len(loading) == 1 else 's'}"
    return _grown(mean, f"the mean of the last {counted}", rules), idle


def _grown(level: float, of: str, rules: DosingRules, *, top: float | None = None) -> Level:
    grown = level * (1 + rules.growth_percent / 100)
    if top is not None and grown > top:
        return Level(top, f"{rules.most_percent:g}% of the base, where the growth ends")
    return Level(grown, f"{rules.growth_percent:g}% above {of}")


def _after_break(level: float, idle: int, rules: DosingRules) -> Level:
    part = rules.after_break_percent
    return Level(level * part / 100, f"{part:g}% of the level, after {idle} weeks with less")
