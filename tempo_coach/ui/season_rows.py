"""What the season screen shows: the weeks as bars, and what there is to know of one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from rich.cells import cell_len

from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible
from tempo_coach.core.marks import counted
from tempo_coach.core.plan_season import CalendarSpan
from tempo_coach.core.season import Season
from tempo_coach.core.season_table import Measure, SeasonRow, is_emphasis_set
from tempo_coach.core.season_words import (
    WITHOUT_PLAN,
    basis_sentences,
    meet_sentences,
    week_words,
)
from tempo_coach.core.weeks import IsoWeek
from tempo_coach.ui.bars import bar
from tempo_coach.ui.cells import Column, fitted, laid_out

LIMIT = "│"
"""Stands in a row at the place of its limit."""
NOW = "now"
_UNKNOWN = "–"
_LEAST_BAR = 8
_LEAST_WORDS = 20
_WIDE = 104
"""From here on there is room for what a week is."""
_WORDS_SHARE = 0.4
"""What of the width that may take; the heading of the chosen week says all of it."""
_COLUMNS: tuple[Column, ...] = (
    Column("week"),
    Column(f"lowering emphasis, {LIMIT} limit", takes_rest=True),
    Column("s", to_right=True),
    Column("limit", to_right=True),
    Column(),
)
_DAY_COLUMNS = (
    Column("day"),
    Column("what it is", takes_rest=True),
    Column("share", to_right=True, gives_way=1),
    Column("limit s", to_right=True),
    Column("done s", to_right=True),
)
_SPAN_COLUMNS = (
    Column("from"),
    Column("to"),
    Column("what", takes_rest=True),
    Column("when"),
    Column("whose", gives_way=2),
    Column("lowering", to_right=True, gives_way=1),
)


def season_rows(season: Season, *, width: int) -> tuple[str, ...]:
    """Return the headings and a row a week: its bar with the limit's mark, seconds and limit."""
    most = max((max(row.lower_s.done, row.lower_s.limit or 0) for row in season.rows), default=0)
    texts = [_texts(row, season) for row in season.rows]
    columns = _COLUMNS
    if width >= _WIDE:
        columns = (*_COLUMNS[:1], Column("what it is"), *_COLUMNS[1:])
        most_cells = int(width * _WORDS_SHARE)
        texts = [
            (*text[:1], _cut(week_words(row.week), most_cells), *text[1:])
            for text, row in zip(texts, season.rows, strict=True)
        ]
    at = next(place for place, column in enumerate(columns) if column.takes_rest)
    lines = [[column.heading for column in columns], *texts]
    fixed = sum(max(cell_len(line[place]) for line in lines) for place in range(len(columns)))
    fixed -= max(cell_len(line[at]) for line in lines)
    cells = max(width - fixed - 2 * (len(columns) - 1), _LEAST_BAR)
    rows = [
        (*text[:at], _bar(row.lower_s, most=most, cells=cells), *text[at + 1 :])
        for text, row in zip(texts, season.rows, strict=True)
    ]
    return laid_out(columns, rows, width=width, least_rest=_LEAST_BAR)


def week_heading(row: SeasonRow, today: date) -> str:
    """Name a week by its days, and say what it is."""
    week = row.week.week
    this = ", this week" if week == IsoWeek.of(today) else ""
    days = f"{week.monday().isoformat()} to {week.last_day().isoformat()}"
    return f"{days}{this}: {week_words(row.week)}"


def week_part(season: Season, row: SeasonRow) -> Iterator[str]:
    """Say what was done in a week, what may be, and what is left of it."""
    is_over = row.week.week < IsoWeek.of(season.today)
    yield f"Lowering emphasis: {_measure_words(row.lower_s, 's', is_over=is_over)}."
    if row.lower_s.level.amount is None:
        yield f"Limit: {row.lower_s.level.why}."
    else:
        share = "" if row.week.share == 1 else f"; the calendar leaves {row.week.share:.0%} of it"
        yield f"Level: {row.lower_s.level.amount:.0f} s, {row.lower_s.level.why}{share}."
    yield f"Lowering load of it: {_measure_words(row.kg_s, 'kg·s', is_over=is_over)}."
    for group, measure in row.groups.items():
        yield f"{legible(group)}: {_measure_words(measure, 's', is_over=is_over)}."
    yield f"All lowering, ordinary work too: {row.all_lower_s:.0f} s."
    yield ""
    yield from basis_sentences(season)


def days_part(
    season: Season, row: SeasonRow, sets: Iterable[SetDone], *, width: int
) -> tuple[str, ...]:
    """Return the days of a week: what the calendar leaves of each, and what was done on it."""
    done: dict[date, float] = {}
    for one in sets:
        if is_emphasis_set(one, season.rules):
            day = one.started_at.date()
            done[day] = done.get(day, 0.0) + one.seconds.lower
    rows = [
        (
            f"{day.date:%a} {day.date.isoformat()}",
            "today, " * (day.date == season.today) + legible(day.words),
            f"{day.share:.0%}",
            _amount(row.lower_s.of_day(day)),
            f"{done.get(day.date, 0.0):,.0f}",
        )
        for day in row.week.days
    ]
    return laid_out(_DAY_COLUMNS, rows, width=width, least_rest=_LEAST_WORDS)


def year_part(season: Season, *, width: int) -> Iterator[str]:
    """Yield the spans of the calendar and the meets, and how the work comes down before one."""
    calendar = season.calendar
    spans = sorted(
        (*((one, True) for one in calendar.own), *((one, False) for one in calendar.team)),
        key=lambda found: (found[0].first, found[0].until),
    )
    if spans:
        rows = [_span_texts(one, season.today, is_own=is_own) for one, is_own in spans]
        yield from laid_out(_SPAN_COLUMNS, rows, width=width)
        yield ""
        yield from meet_sentences(season)
    elif season.is_planned:
        yield "The plan's calendar is empty: every day is off season."
    else:
        yield WITHOUT_PLAN


def _texts(row: SeasonRow, season: Season) -> tuple[str, ...]:
    return (
        str(row.week.week),
        "",
        f"{row.lower_s.done:,.0f}{'!' if row.lower_s.over else ''}",
        _amount(row.lower_s.limit),
        NOW if row.week.week == IsoWeek.of(season.today) else "",
    )


def _cut(text: str, most_cells: int) -> str:
    return fitted(text, min(cell_len(text), most_cells))


def _bar(measure: Measure, *, most: float, cells: int) -> str:
    drawn = bar(measure.done, most=most, cells=cells)
    if measure.limit is None or not most:
        return drawn
    at = min(int(measure.limit / most * cells), cells - 1)
    return drawn[:at] + LIMIT + drawn[at + 1 :]


def _measure_words(measure: Measure, unit: str, *, is_over: bool) -> str:
    done = f"{measure.done:,.0f} {unit}"
    if measure.limit is None or measure.left is None:
        return f"{done}, no limit known"
    of = f"{done} of {measure.limit:,.0f}"
    if measure.over:
        return f"{of}, {measure.over:,.0f} over the limit"
    return of if is_over else f"{of}, {measure.left:,.0f} left"


def _amount(amount: float | None) -> str:
    return _UNKNOWN if amount is None else f"{amount:,.0f}"


def _span_texts(span: CalendarSpan, today: date, *, is_own: bool) -> tuple[str, ...]:
    left = {"off season": "all of it", "in season": f"{span.lowering_percent or 0:g}%"}
    return (
        span.first.isoformat(),
        span.until.isoformat(),
        span.kind if span.name is None else f"{legible(span.name)} ({span.kind})",
        _when(span, today),
        "own" if is_own else "team",
        left.get(span.kind, "none"),
    )


def _when(span: CalendarSpan, today: date) -> str:
    if span.until < today:
        return "over"
    if span.first <= today:
        return "now"
    return f"in {counted((span.first - today).days, 'day')}"
