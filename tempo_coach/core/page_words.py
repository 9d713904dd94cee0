"""The sentences of a lifter's page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tempo_coach.core.amounts import lowering, measured, percent, signed
from tempo_coach.core.marks import ALLOWED, NO_LOAD, OPEN_SETS, counted
from tempo_coach.core.plan import WEEKDAYS
from tempo_coach.core.soreness_facts import MOST_SORE, SorenessTold
from tempo_coach.core.week_spans import WeekSpan
from tempo_coach.core.weeks import IsoWeek

OWN_MEASURE = (
    "Lowering load is load times seconds lowering, in kg·s: this tool's own measure, and no "
    "published one."
)
_ONE_SCALE = "All panels of a chart have one scale; the last bar is this week."
_OUTLINED = "The part of a bar with an outline alone rests on that too."


def week_words(week: IsoWeek) -> str:
    """Return a week with its first and last day."""
    return f"{week}, {week.monday().isoformat()} to {week.last_day().isoformat()}"


def headline(span: WeekSpan) -> str:
    """Say in a sentence or two what the week came to."""
    now, before, begin = span.now, span.before, f"Week {week_words(span.weeks[-1])}."
    if not now.sets:
        return f"{begin} No sets in this week."
    begin = f"{begin} Lowering {lowering(now)} s in {counted(now.sets, 'set')}"
    if before is None:
        return f"{begin}, in the first week on record."
    now_s, before_s = now.times.lower_ms / 1000, before.times.lower_ms / 1000
    if now_s == before_s:
        return f"{begin}, as much as in the week before."
    about = "≈" if now.by_allowance.lower_ms or before.by_allowance.lower_ms else ""
    share = f", {about}{percent(now_s, before_s)} %" if before_s else ""
    return f"{begin}: {about}{signed(now_s - before_s, digits=1)} s{share} on the week before."


def soreness_words(told: Iterable[SorenessTold], week: IsoWeek) -> Iterator[str]:
    """Say how sore a lifter was in a week, in a sentence; nothing where nothing was told."""
    days = [
        f"{WEEKDAYS[one.at.weekday()][:3]} {one.soreness}"
        for one in told
        if IsoWeek.of(one.at.date()) == week
    ]
    if days:
        yield f"Soreness told, 0 to {MOST_SORE}: {', '.join(days)}."


def left_out_words(left_out: int) -> str:
    """Say how many sets had no room; empty where all had."""
    return f"And {counted(left_out, 'more set')}; export lists them." if left_out else ""


def remarks(span: WeekSpan, *, is_cut: bool, is_open: bool) -> Iterator[str]:
    """Yield what the marks on the page mean, and what is not on it.

    Parameters
    ----------
    span
        The weeks of the page.
    is_cut
        A name or a note was too long.
    is_open
        The plan has sets that run until they are stopped.
    """
    if is_cut:
        yield "… stands where a name or a note is cut; export has it whole."
    if any(totals.by_allowance.tension_ms for totals in span.totals):
        yield ALLOWED
    is_outlined = any(totals.by_allowance.lower_ms for totals in span.totals)
    yield f"{_ONE_SCALE} {_OUTLINED}" if is_outlined else _ONE_SCALE
    if span.now.sets:
        yield measured(span.now)
    yield OWN_MEASURE
    if any(totals.sets_without_load for totals in span.totals):
        now = span.now.sets_without_load
        yield f"In lowering load {NO_LOAD} This week {counted(now, 'set')} of {span.now.sets}."
    if is_open:
        yield f"Under planned {OPEN_SETS}"
