"""What the weeks screen says: bars, sums and what they rest on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from tempo_coach.core.legible import legible
from tempo_coach.core.marks import ALLOWED, NO_LOAD, OPEN_SETS, counted, marked_seconds
from tempo_coach.core.plan_sums import PlannedTotals
from tempo_coach.core.week_chart import ChartWeek
from tempo_coach.core.weeks import IsoWeek, Totals
from tempo_coach.ui.bars import bar
from tempo_coach.ui.cells import Column, laid_out

ALL_EXERCISES = "all exercises"
SO_FAR = "so far"
_LEAST_BAR = 8
_BAR_COLUMNS = (
    Column("week"),
    Column("lowering", takes_rest=True),
    Column("s", to_right=True),
    Column("change", to_right=True, gives_way=1),
)
_SUM_COLUMNS = (
    Column("exercise", takes_rest=True),
    Column("sets", to_right=True, gives_way=2),
    Column("reps", to_right=True, gives_way=3),
    Column("lowering s", to_right=True),
    Column("tension s", to_right=True, gives_way=1),
    Column("lowering load kg·s", to_right=True),
)


def chart_rows(chart: Sequence[ChartWeek], *, today: date, width: int) -> tuple[str, ...]:
    """Return the headings and a row a week: its name, bar, seconds, and the change.

    The week that is not over yet has no change to speak of.
    """
    most = max((one.total.times.lower_ms for one in chart), default=0)
    texts = [(str(one.week), "", _lowering(one.total), _change(one, today)) for one in chart]
    heads = [column.heading for column in _BAR_COLUMNS]
    fixed = sum(max(len(row[at]) for row in [heads, *texts]) for at in (0, 2, 3))
    cells = max(width - fixed - 6, _LEAST_BAR)
    rows = [
        (week, bar(one.total.times.lower_ms, most=most, cells=cells), seconds, change)
        for one, (week, _, seconds, change) in zip(chart, texts, strict=True)
    ]
    return laid_out(_BAR_COLUMNS, rows, width=width, least_rest=_LEAST_BAR)


def week_words(one: ChartWeek, today: date) -> str:
    """Name a week by its days."""
    days = f"{one.week.monday().isoformat()} to {one.week.last_day().isoformat()}"
    so_far = f", {SO_FAR}" if one.week == IsoWeek.of(today) else ""
    return f"{one.week} · {days}{so_far}"


def sum_rows(one: ChartWeek, *, width: int) -> tuple[str, ...]:
    """Return the headings and a row for each exercise of a week, and one for all of them."""
    rows = [_row(legible(part.exercise), part.totals) for part in one.exercises]
    if len(rows) > 1:
        rows.append(_row("all", one.total))
    return laid_out(_SUM_COLUMNS, rows, width=width, least_rest=10)


def planned_words(one: ChartWeek, planned: PlannedTotals) -> str:
    """Say what was planned for a week, and what was done in it."""
    is_open = bool(planned.open_sets)
    asked = marked_seconds(
        planned.times.lower_ms, allowed_ms=planned.by_allowance.lower_ms, is_open=is_open
    )
    return (
        f"Planned: {counted(planned.sets, 'set')}, {planned.reps}{'+' if is_open else ''} reps, "
        f"lowering {asked} s. Done: {counted(one.total.sets, 'set')}, "
        f"{counted(one.total.reps, 'rep')}, {_lowering(one.total)} s."
    )


def notes(chart: Sequence[ChartWeek], planned: PlannedTotals | None) -> Iterator[str]:
    """Yield what the numbers and their marks mean, as far as they stand there."""
    yield "Lowering load: load × seconds lowering, this tool's own measure."
    if any(one.total.by_allowance.tension_ms for one in chart):
        yield ALLOWED
    if any(one.total.sets_without_load for one in chart):
        yield NO_LOAD
    if planned is not None and planned.open_sets:
        yield OPEN_SETS


def _row(name: str, totals: Totals) -> tuple[str, ...]:
    more = "+" if totals.sets_without_load else ""
    return (
        name,
        str(totals.sets),
        str(totals.reps),
        _lowering(totals),
        marked_seconds(totals.times.tension_ms, allowed_ms=totals.by_allowance.tension_ms),
        f"{totals.lowering_kg_s:,.0f}{more}",
    )


def _lowering(totals: Totals) -> str:
    return marked_seconds(totals.times.lower_ms, allowed_ms=totals.by_allowance.lower_ms)


def _change(one: ChartWeek, today: date) -> str:
    if one.week == IsoWeek.of(today):
        return SO_FAR
    if one.lower_change_ms is None:
        return ""
    return f"{one.lower_change_ms / 1000:+,.1f}".removesuffix(".0") if one.lower_change_ms else "0"
