"""One lifter's season: the weeks of the plan and its calendar, what was done, and what may be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import fmean
from typing import Any

from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible
from tempo_coach.core.load_trend import WHY_NO_SAFE_ZONE, WeekVariety
from tempo_coach.core.plan import MOST_WEEKS, Plan
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.season_calendar import SeasonCalendar
from tempo_coach.core.season_limits import BASE_WEEKS, SeasonWeek
from tempo_coach.core.season_table import (
    DayTrend,
    Measure,
    SeasonRow,
    day_trend,
    season_rows,
    week_variety,
)
from tempo_coach.core.taper import Taper, TaperShape
from tempo_coach.core.weeks import IsoWeek


@dataclass(frozen=True, slots=True)
class Season:
    """One lifter's season."""

    lifter: str
    calendar: SeasonCalendar
    rules: DosingRules
    rows: tuple[SeasonRow, ...]
    """From the plan's first week to the last one that the plan or its calendar speaks of."""
    trend: DayTrend | None
    """By the end of today, of all lowering; None where the log has nothing."""
    variety: WeekVariety
    """Of the last seven-day week that is over."""
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
    person, rules = plan.lifter(lifter), plan.rules_of(lifter)
    calendar = plan.calendar_of(lifter)
    first = plan.iso_week(1)
    trend = day_trend(sets, until=today)
    return Season(
        lifter=person.name,
        calendar=calendar,
        rules=rules,
        rows=season_rows(
            sets,
            calendar=calendar,
            rules=rules,
            first=first,
            weeks=_week_count(plan, calendar),
            today=today,
        ),
        trend=trend[-1] if trend else None,
        variety=week_variety(sets, IsoWeek.of(today).before()),
        today=today,
    )


def _week_count(plan: Plan, calendar: SeasonCalendar) -> int:
    begins = plan.iso_week(1).monday()
    ends = [span.until for span in (*calendar.team, *calendar.own)]
    ends.append(begins + timedelta(weeks=plan.weeks, days=-1))
    return min((max(ends) - begins).days // 7 + 1, MOST_WEEKS)


def week_words(week: SeasonWeek) -> str:
    """Say what a week is, such as ``off season, then taper to Spring meet``."""
    said: list[str] = []
    for day in week.days:
        is_tapering = day.meet is not None and day.date < day.meet.first
        words = f"taper to {day.meet.name or 'the meet'}" if is_tapering and day.meet else day.words
        if not said or said[-1] != words:
            said.append(words)
    return legible(", then ".join(said))


def taper_words(taper: Taper) -> str:
    """Say how the work comes down before a meet, and what the share left out is a share of."""
    form = f"{taper.shape} over {taper.days} days"
    if taper.shape is TaperShape.EXPONENTIAL:
        form += f", τ {taper.tau_days:g} d"
    return (
        f"Taper: {form}. It leaves out {1 - taper.mean:.0%} of the sum over these days; the "
        "published 41 to 60 % (Bosquet et al. 2007, MSSE 39:1358) is read so, and not as what is "
        f"left on the last day. The last lowering emphasis is {taper.last_days} days before the "
        "meet."
    )


def season_sentences(season: Season) -> Iterator[str]:
    """Yield what the table rests on, and what it can't say yet, a sentence or two each."""
    rules = season.rules
    yield (
        f"Lowering emphasis: a lower of {rules.emphasis_from_s:g} s or more, lowering only, stops "
        "on the way down, one side down, or more lowered than raised. Ordinary work is not limited."
    )
    if all(row.lower_s.limit is None for row in season.rows):
        yield (
            "No limit can be told yet: the plan states no base_s, and the log has no full loading "
            "week."
        )
    yield from _jump(season)
    past = [meet for meet in season.calendar.meets() if meet.until < season.today]
    for meet in past:
        yield f"{legible(meet.name or 'The meet')} of {meet.first.isoformat()} is over."
    if len(past) < len(season.calendar.meets()):
        yield taper_words(season.calendar.taper)
    if season.trend is not None:
        yield (
            f"Daily lowering load, smoothed: {season.trend.short:,.0f} kg·s over 7 days, "
            f"{season.trend.long:,.0f} kg·s over 28 (EWMA). {WHY_NO_SAFE_ZONE}"
        )
    if season.variety.monotony is not None:
        yield (
            f"Last week's monotony was {season.variety.monotony:.2f}, its strain "
            f"{season.variety.strain:,.0f} (Foster 1998; the standard deviation is that of a "
            "population)."
        )


def standing_words(season: Season, week: IsoWeek) -> tuple[str, ...]:
    """Say where a week stands, in a sentence; nothing outside the season."""
    row = season.row_of(week)
    if row is None:
        return ()
    done = f"lowering emphasis {row.lower_s.done:.0f} s"
    limit = row.lower_s.limit
    held = f"{done}, no limit known" if limit is None else f"{done} of {limit:.0f} s"
    over = f", {row.lower_s.over:.0f} s over the limit" if row.lower_s.over else ""
    return (f"Season, {week_words(row.week)}: {held}{over}.",)


def _jump(season: Season) -> Iterator[str]:
    """Say where a stated base allows a jump from what was really done."""
    this = season.this_week
    if this is None or season.rules.base_s is None or not this.lower_s.limit:
        return
    loading = [row for row in season.rows if row.week.week < this.week.week and row.week.is_loading]
    done = [row.lower_s.done for row in loading if row.lower_s.done][-BASE_WEEKS:]
    growth = season.rules.growth_percent
    if done and this.lower_s.limit > fmean(done) * (1 + growth / 100):
        yield (
            f"This week's limit of {this.lower_s.limit:.0f} s rests on the stated base; the last "
            f"loading weeks had {fmean(done):.0f} s on average, and {growth:g}% more than that is "
            f"{fmean(done) * (1 + growth / 100):.0f} s."
        )


def season_data(season: Season) -> dict[str, Any]:
    """Return a season as plain data."""
    trend, variety = season.trend, season.variety
    return {
        "lifter": season.lifter,
        "weeks": [_row_data(row) for row in season.rows],
        "trend": None
        if trend is None
        else {
            "date": trend.date.isoformat(),
            "kg_s": trend.kg_s,
            "ewma_7_d_kg_s": trend.short,
            "ewma_28_d_kg_s": trend.long,
        },
        "last_week": {
            "kg_s": variety.load,
            "monotony": variety.monotony,
            "strain": variety.strain,
            "standard_deviation": "population",
        },
        "notes": list(season_sentences(season)),
    }


def _row_data(row: SeasonRow) -> dict[str, Any]:
    return {
        "week": str(row.week.week),
        "from": row.week.week.monday().isoformat(),
        "words": week_words(row.week),
        "share": row.week.share,
        "emphasis": {"lower_s": _measure_data(row.lower_s), "kg_s": _measure_data(row.kg_s)},
        "groups": {name: _measure_data(one) for name, one in row.groups.items()},
        "all_lower_s": row.all_lower_s,
        "days": [
            {"date": day.date.isoformat(), "words": day.words, "share": day.share}
            for day in row.week.days
        ],
    }


def _measure_data(measure: Measure) -> dict[str, Any]:
    return {
        "done": measure.done,
        "limit": measure.limit,
        "over": measure.over,
        "level": measure.level.amount,
        "why": measure.level.why,
    }
