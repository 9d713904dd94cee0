"""What a season says of itself in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import fmean

from tempo_coach.core.legible import legible
from tempo_coach.core.load_trend import LONG_DAYS, SETTLED_DAYS, SHORT_DAYS, WHY_NO_SAFE_ZONE
from tempo_coach.core.marks import counted
from tempo_coach.core.season import Season
from tempo_coach.core.season_calendar import DAYS_A_WEEK
from tempo_coach.core.season_limits import BASE_WEEKS, SeasonWeek
from tempo_coach.core.season_table import DayTrend
from tempo_coach.core.taper import Taper, TaperShape
from tempo_coach.core.weeks import IsoWeek

_LEVEL = 0.05
"""Two means nearer than this are called level; by choice."""
WITHOUT_PLAN = (
    "No plan is open for this lifter: limits come from the log alone. A plan adds the calendar, "
    "the taper before a meet, and limits and rules of the coach's own."
)
NO_LIMIT = (
    "No limit can be told yet: the plan states no base_s, and the log has no full loading week."
)
NO_LIMIT_YET = "No limit can be told yet: the log has no full week of lowering emphasis."


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
    ends = (
        f"the last lowering emphasis is {counted(max(taper.last_days, 1), 'day')} before the meet"
    )
    if not taper.days:
        return f"No taper is stated, and {ends}."
    form = f"{taper.shape} over {counted(taper.days, 'day')}"
    if taper.shape is TaperShape.EXPONENTIAL:
        form += f", τ {taper.tau_days:g} d"
    return (
        f"Taper: {form}, and {ends}. In all it leaves out {1 - taper.mean:.0%} of the sum over "
        "these days; the published 41 to 60 % (Bosquet et al. 2007, MSSE 39:1358) is read so, and "
        "not as what is left on the last day."
    )


def season_sentences(season: Season) -> Iterator[str]:
    """Yield what the table rests on, and what it can't say yet, a sentence or two each."""
    yield from basis_sentences(season)
    yield from meet_sentences(season)
    yield from trend_sentences(season)


def basis_sentences(season: Season) -> Iterator[str]:
    """Say what counts, and what the limits rest on or why there are none."""
    rules = season.rules
    yield (
        f"Lowering emphasis: a lower of {rules.emphasis_from_s:g} s or more, lowering only, stops "
        "on the way down, one side down, or more lowered than raised. Ordinary work is not limited."
    )
    if not season.is_planned:
        yield WITHOUT_PLAN
    if all(row.lower_s.level.amount is None for row in season.rows):
        yield NO_LIMIT if season.is_planned else NO_LIMIT_YET
    yield from _begins_again(season)
    yield from _jump(season)


def meet_sentences(season: Season) -> Iterator[str]:
    """Say which meets are over, and how the work comes down before those to come."""
    past = [meet for meet in season.calendar.meets() if meet.until < season.today]
    for meet in past:
        yield f"{legible(meet.name or 'The meet')} of {meet.first.isoformat()} is over."
    end = season.rows[-1].week.days[-1].date
    for meet in season.calendar.meets():
        if meet.first > end:
            yield (
                f"{legible(meet.name or 'The meet')} of {meet.first.isoformat()} is behind the "
                f"{len(season.rows)} weeks that are shown."
            )
    if len(past) < len(season.calendar.meets()):
        yield taper_words(season.calendar.taper)


def trend_sentences(season: Season) -> Iterator[str]:
    """Say where the lowering load goes, in words and figures; nothing of what it may lead to."""
    trend, last, before = season.trend, season.variety, season.variety_before
    if not trend:
        return
    yield (
        f"Daily lowering load, smoothed: {trend[-1].short:,.0f} kg·s over {SHORT_DAYS} days, "
        f"{trend[-1].long:,.0f} kg·s over {LONG_DAYS} (EWMA); {_direction(trend)}."
    )
    if season.without_load:
        yield (
            f"{counted(season.without_load, 'set')} of the last {LONG_DAYS} days had no load known "
            "in kg: nothing is added for these."
        )
    if last.load or before.load:
        change = last.load - before.load
        share = f" ({change / before.load:+.0%})" if before.load else ""
        more = "more" if change >= 0 else "less"
        yield (
            f"Last week's lowering load: {last.load:,.0f} kg·s, {abs(change):,.0f} {more} than the "
            f"week before{share}."
        )
    if last.monotony is not None:
        yield (
            f"Last week's monotony was {last.monotony:.2f}, its strain {last.strain:,.0f} (Foster "
            "1998; the standard deviation is that of a population)."
        )
    elif last.load:
        yield "Last week's days were all alike, so that monotony has no value (Foster 1998)."
    yield WHY_NO_SAFE_ZONE


def _direction(trend: Sequence[DayTrend]) -> str:
    """Say where it goes by the means of a week, in which days of rest and of work even out."""
    if len(trend) < SETTLED_DAYS:
        return f"which way it goes is said once the log goes back {SETTLED_DAYS} days"
    short = fmean(one.short for one in trend[-DAYS_A_WEEK:])
    long = fmean(one.long for one in trend[-DAYS_A_WEEK:])
    if abs(short - long) <= _LEVEL * long:
        return "about level over the last week"
    return f"{'rising' if short > long else 'falling'} over the last week"


def standing_words(season: Season, week: IsoWeek) -> tuple[str, ...]:
    """Say where a week stands, in a sentence; nothing outside the season."""
    row = season.row_of(week)
    if row is None:
        return ()
    done = f"lowering emphasis {row.lower_s.done:.0f} s"
    limit = row.lower_s.limit
    held = f"{done}, no limit known" if limit is None else f"{done} of {limit:.0f} s"
    over = f", {row.lower_s.over:.0f} s over the limit" if row.lower_s.over else ""
    less = f"; {row.lower_s.level.why}" if row.lower_s.level.after_less else ""
    return (f"Season, {week_words(row.week)}: {held}{over}{less}.",)


def _begins_again(season: Season) -> Iterator[str]:
    """Say what began again lower of late, when, and after how many weeks with less."""
    this = IsoWeek.of(season.today)
    late = [row for row in season.rows if this.before(BASE_WEEKS) < row.week.week <= this]
    last: dict[str, tuple[IsoWeek, str]] = {}
    for row in late:
        for name, measure in (
            ("lowering seconds", row.lower_s),
            ("lowering load", row.kg_s),
            *row.groups.items(),
        ):
            if measure.level.after_less:
                last[name] = (row.week.week, measure.level.why)
    for week, why in sorted(set(last.values())):
        names = " and ".join(legible(name) for name, one in last.items() if one == (week, why))
        yield (
            f"The level of {names} begins again lower in {week}: {why}. What is not in the log "
            "counts as not done."
        )


def _jump(season: Season) -> Iterator[str]:
    """Say where a stated base allows a jump from what was really done."""
    this = season.this_week
    if this is None or season.rules.base_s is None or this.lower_s.limit is None:
        return
    loading = [row for row in season.rows if row.week.week < this.week.week and row.week.is_loading]
    done = [row.lower_s.done for row in loading if row.lower_s.done][-BASE_WEEKS:]
    growth = season.rules.growth_percent
    if not done:
        return
    limit, mean = round(this.lower_s.limit), fmean(done)
    grown = round(mean * (1 + growth / 100))
    if limit > grown:
        yield (
            f"This week's limit of {limit} s rests on the stated base; the last loading weeks had "
            f"{mean:.0f} s on average, and {growth:g}% more than that is {grown} s."
        )
