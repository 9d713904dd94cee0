"""The tables of sums on a lifter's page."""

from __future__ import annotations

from collections.abc import Sequence

from tempo_coach.core.amounts import NONE, load, lowering, percent, signed
from tempo_coach.core.legible import legible
from tempo_coach.core.marks import marked_seconds
from tempo_coach.core.page_parts import Column, Row, Table
from tempo_coach.core.planned_weeks import PlannedLine
from tempo_coach.core.week_spans import WeekSpan
from tempo_coach.core.weeks import Totals

_MEASURES = ("sets", "reps", "lowering s", "tension s", "lowering load kg·s")
HALF_MM = 93
"""Of a table, in print: two stand side by side."""
_WIDTHS_MM = (20, 10, 10, 16, 16, 21)
_BY_EXERCISE_MM = (27, 9, 9, 14, 14, 20)


def weeks_table(span: WeekSpan) -> Table:
    """Return the sums of each week, and how the last one changed."""
    rows = [
        Row(str(week), _sums(totals), is_strong=week == span.weeks[-1])
        for week, totals in zip(span.weeks, span.totals, strict=True)
    ]
    if span.before is not None:
        now, before = _numbers(span.now), _numbers(span.before)
        is_partial = bool(span.now.sets_without_load or span.before.sets_without_load)
        marks = _change_marks(span.now, span.before)
        changes = [
            f"{mark}{signed(a - b, digits=1 if name.endswith(' s') else 0)}"
            for name, mark, a, b in zip(_MEASURES, marks, now, before, strict=True)
        ]
        changes[-1] += "+" if is_partial else ""
        rows.append(Row("change", tuple(changes)))
        shares = (
            f"{mark}{percent(a, b)}" if b else NONE
            for mark, a, b in zip(marks, now, before, strict=True)
        )
        rows.append(Row("change, %", tuple(shares)))
    return Table("Week by week", _columns(("week", *_MEASURES), _WIDTHS_MM), tuple(rows))


def _sums(totals: Totals) -> tuple[str, ...]:
    tension = marked_seconds(totals.times.tension_ms, allowed_ms=totals.by_allowance.tension_ms)
    return str(totals.sets), str(totals.reps), lowering(totals), tension, load(totals)


def _numbers(totals: Totals) -> tuple[float, ...]:
    return (
        totals.sets,
        totals.reps,
        totals.times.lower_ms / 1000,
        totals.times.tension_ms / 1000,
        totals.lowering_kg_s,
    )


def _change_marks(now: Totals, before: Totals) -> tuple[str, ...]:
    lower = "≈" if now.by_allowance.lower_ms or before.by_allowance.lower_ms else ""
    tension = "≈" if now.by_allowance.tension_ms or before.by_allowance.tension_ms else ""
    return "", "", lower, tension, lower


def exercises_table(span: WeekSpan) -> Table:
    """Return the last week's sums by exercise."""
    rows = [
        Row(legible(one.name), _sums(one.totals[-1]))
        for one in span.exercises
        if one.totals[-1].sets
    ]
    rows.append(Row("all", _sums(span.now), is_strong=True))
    return Table(
        "This week by exercise",
        _columns(("exercise", *_MEASURES), _BY_EXERCISE_MM),
        tuple(rows),
    )


def plan_table(lines: Sequence[PlannedLine]) -> Table:
    """Return what was done of what the plan asks for, by exercise; the last line is all of it."""
    rows = [Row(legible(line.name), _done_of(line), is_strong=line is lines[-1]) for line in lines]
    headings = ("exercise", "sets done", "planned", "reps done", "planned", "lowering s done",
                "planned")  # fmt: skip
    return Table(
        "Done of what is planned this week",
        _columns(headings, (25, 9, 13, 9, 13, 12, 12)),
        tuple(rows),
    )


def _done_of(line: PlannedLine) -> tuple[str, ...]:
    done, planned = line.done, line.planned
    is_open = bool(planned.open_sets)
    asked = marked_seconds(
        planned.times.lower_ms, allowed_ms=planned.by_allowance.lower_ms, is_open=is_open
    )
    reps = f"{planned.reps}{'+' if is_open else ''}"
    return str(done.sets), str(planned.sets), str(done.reps), reps, lowering(done), asked


def _columns(headings: Sequence[str], widths: Sequence[int]) -> tuple[Column, ...]:
    first, *rest = zip(headings, widths, strict=True)
    return (
        Column(first[0], is_text=True, width_mm=first[1]),
        *(Column(heading, width_mm=width) for heading, width in rest),
    )
