"""The charts of a lifter's page."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tempo_coach.core.amounts import load, lowering
from tempo_coach.core.legible import legible
from tempo_coach.core.page_parts import Bar, Chart, Column, Panel, Row, Table
from tempo_coach.core.week_spans import ExerciseSpan, WeekSpan
from tempo_coach.core.weeks import Totals

_FEW_WEEKS = 8


def lowering_chart(span: WeekSpan) -> Chart:
    """Return lowering seconds by exercise and week."""
    return _chart(
        span,
        "lowering seconds",
        "s",
        lowering,
        lambda totals: (totals.times.lower_ms / 1000, totals.by_allowance.lower_ms / 1000),
    )


def load_chart(span: WeekSpan) -> Chart:
    """Return lowering load by exercise and week."""
    return _chart(
        span,
        "lowering load",
        "kg·s",
        load,
        lambda totals: (totals.lowering_kg_s, 0.0),
    )


def _chart(
    span: WeekSpan,
    what: str,
    unit: str,
    text: Callable[[Totals], str],
    values: Callable[[Totals], tuple[float, float]],
) -> Chart:
    lines = list(span.exercises)
    if len(lines) != 1:
        lines.append(ExerciseSpan("all exercises", span.totals))
    panels = []
    for line in lines:
        bars = tuple(
            Bar(str(week), *values(totals), text(totals))
            for week, totals in zip(span.weeks, line.totals, strict=True)
        )
        name = legible(line.name)
        panels.append(Panel(name, bars, f"{name}, {what} in {unit}: {_said(bars)}"))
    rows = tuple(
        Row(legible(line.name), tuple(map(text, line.totals)), is_strong=line is lines[-1])
        for line in lines
    )
    # Ten weeks leave less room for names than eight.
    width_mm = 40 if len(span.weeks) <= _FEW_WEEKS else 32
    columns = (
        Column("exercise", is_text=True, width_mm=width_mm, most_lines=1),
        *(Column(str(w)) for w in span.weeks),
    )
    return Chart(
        f"{what.capitalize()} by exercise",
        tuple(panels),
        Table(f"{what.capitalize()} in figures, {unit}", columns, rows),
    )


def _said(bars: Sequence[Bar]) -> str:
    last = f"{bars[-1].text} in {bars[-1].name}"
    if len(bars) == 1:
        return f"{last}, the first week on record."
    lowest, highest = min(bars, key=lambda bar: bar.value), max(bars, key=lambda bar: bar.value)
    return (
        f"{last}, {bars[-2].text} in the week before; from {bars[0].name} on between "
        f"{lowest.text} in {lowest.name} and {highest.text} in {highest.name}."
    )
