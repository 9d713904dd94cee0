"""How much lowering-emphasis work a week may hold."""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import chain, pairwise, takewhile
from statistics import fmean

from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.season_calendar import SeasonCalendar, SeasonDay
from tempo_coach.core.weeks import IsoWeek

BASE_WEEKS = 4
"""How many full loading weeks a base that is not stated is the mean of."""
_BREAK_WEEKS = 2
_REACH = 104
"""A break is followed for two years: by then it has done to the level what it does."""
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
    def most_share(self) -> float:
        """What the calendar leaves of the day of which it leaves most, 0 to 1."""
        return max(day.share for day in self.days)

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
    after_less: int = 0
    """So many weeks with less make it begin again lower; 0 where none do."""


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

    With a stated base the first loading week has it, and one that follows a full loading week has
    the level of that week and the stated growth. Without one, a week that has begun has the mean of
    the last four full loading weeks, and the growth; weeks to come go on from there. The growth
    ends at a stated share of the base.

    A week has less where the calendar leaves, or the log holds, under a stated part of its level;
    it is no full loading week. After two or more of them the level is that part of what it was,
    until a week again holds that part of its own; after a meet it is no lower than where it last
    began again, so that many meets do not take it to nothing. For a week that the calendar cuts,
    those before it count that had less than the part of what its own days leave; where no day
    leaves that part, those that hold under it of their limit. Weeks before the first work do not
    count, and those that are not over count as done.

    Parameters
    ----------
    weeks
        At least one, in order, without gaps.
    calendar
        Where they are from.
    base
        What is stated, if anything is; it holds from the first of the weeks.
    rules
        How the work is dosed.
    done
        What was done, by week; may hold more weeks than asked for.
    today
        Weeks that end before it are over.
    """
    first = weeks[0].week
    worked = min((week for week, amount in done.items() if amount > 0), default=None)
    before = _worked_before(first, done, calendar) if base is None else ()
    course = _Course(rules, base)
    for week in chain(before, weeks):
        monday = week.week.monday()
        level = course.level(week, is_to_come=monday > today)
        if week.week >= first:
            yield level
        if week.week.last_day() >= today:
            course.go_past(week, level, None)
        elif worked is not None and worked <= week.week:
            course.go_past(week, level, done.get(week.week, 0.0))


def _worked_before(
    first: IsoWeek, done: Mapping[IsoWeek, float], calendar: SeasonCalendar
) -> Iterator[SeasonWeek]:
    """Yield the weeks with work before one, and behind each the weeks without."""
    worked = sorted(week for week, amount in done.items() if amount > 0 and week < first)
    for week, after in pairwise([*worked, first]):
        for back in range(_REACH):
            one = week.before(-back)
            if one >= after:
                break
            yield SeasonWeek.of(one, calendar)


class _Course:
    """How a level goes on from week to week."""

    def __init__(self, rules: DosingRules, base: float | None) -> None:
        self._rules, self._base = rules, base
        self._held = base
        """What the next level is built on."""
        self._top = None if base is None else base * rules.most_percent / 100
        self._full: list[float] = []
        """Without a base, what full loading weeks held since the level last began again."""
        self._has_loaded = self._may_grow = self._has_begun_again = False
        self._parts: deque[float] = deque(maxlen=_REACH)
        """What the last weeks had of their levels, by calendar and log."""
        self._under_limit = 0
        """How many weeks in a row, up to now, held less of their limits."""
        self._begun_again = 0.0
        """Where the level last began again."""
        self._is_after_meet = False

    def level(self, week: SeasonWeek, *, is_to_come: bool) -> Level:
        """Return the level of the next week."""
        held, rules = self._held, self._rules
        if held is None:
            return Level(None, _NO_BASE)
        less = self._less(week)
        if less >= _BREAK_WEEKS:
            return self._lower(held, less)
        if self._full and not is_to_come:
            count = len(self._full)
            of = f"the mean of the last {count} full loading week{'' if count == 1 else 's'}"
            return _grown(held, of, rules, top=self._top)
        if week.is_loading and self._may_grow:
            return _grown(held, "the level before", rules, top=self._top)
        return Level(held, "the level before" if self._has_loaded else "the stated base")

    def _lower(self, held: float, less: int) -> Level:
        part, after = self._rules.after_break_percent, f"after {less} weeks with less"
        if self._has_begun_again:
            return Level(held, f"{part:g}% of the level, {after}", less)
        if self._is_after_meet and self._begun_again > held * part / 100:
            again = min(held, self._begun_again)
            return Level(again, f"where it last began again, {after}", less)
        return Level(held * part / 100, f"{part:g}% of the level, {after}", less)

    def _less(self, week: SeasonWeek) -> int:
        """Return how many weeks in a row before a week had less."""
        part = self._rules.after_break_percent / 100
        if week.most_share < part and not self._has_begun_again:
            return self._under_limit
        few = part * week.most_share if week.most_share >= part else part
        return sum(1 for _ in takewhile(lambda had: had < few, reversed(self._parts)))

    def go_past(self, week: SeasonWeek, level: Level, done: float | None) -> None:
        """Take what was done in a week; None where it is not over."""
        amount = level.amount or done
        if not amount or not (self._has_loaded or week.is_loading):
            return
        self._has_loaded = True
        part = self._rules.after_break_percent / 100
        had = week.share if done is None else min(week.share, done / amount)
        is_under_limit = done is not None and done < amount * week.share * part
        if week.share:
            self._under_limit = self._under_limit + 1 if is_under_limit else 0
        self._parts.append(had)
        self._may_grow = week.is_loading and had >= part
        self._is_after_meet = any(day.meet is not None for day in week.days)
        if level.after_less:
            self._held, self._full, self._begun_again = amount, [], amount
        self._has_begun_again = level.after_less > 0 and had < part
        if not week.share or is_under_limit:
            return
        if self._base is None and week.is_loading and done is not None:
            counted = min(done, amount) if level.after_less else done
            self._full = [*self._full, counted][-BASE_WEEKS:]
            self._held = fmean(self._full)
            self._top = self._held * self._rules.most_percent / 100
        elif not self._full or done is None:
            self._held = amount


def _grown(level: float, of: str, rules: DosingRules, *, top: float | None) -> Level:
    grown = level * (1 + rules.growth_percent / 100)
    if top is not None and grown > top:
        return Level(top, f"{rules.most_percent:g}% of the base, where the growth ends")
    return Level(grown, f"{rules.growth_percent:g}% above {of}")
