"""One lifter's page of a report."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from tempo_coach.core.cautions import SHORT
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible
from tempo_coach.core.page_ahead import Ahead
from tempo_coach.core.page_charts import load_chart, lowering_chart
from tempo_coach.core.page_parts import Chart, Table
from tempo_coach.core.page_room import (
    PAGE_MM,
    PANEL_MM,
    WIDTH_MM,
    chart_mm,
    cut,
    fitted,
    heads_mm,
    rows_within,
    table_mm,
    text_mm,
)
from tempo_coach.core.page_tables import HALF_MM, exercises_table, plan_table, weeks_table
from tempo_coach.core.page_words import headline, left_out_words, remarks
from tempo_coach.core.plan import Plan
from tempo_coach.core.planned_weeks import planned_lines
from tempo_coach.core.set_groups import set_groups
from tempo_coach.core.sets_table import sets_table
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.week_spans import WeekSpan

_HEADINGS_MM = 12.0
"""The report's heading, that of the cautions, and a gap at the end."""
_NAME_PT, _HEADLINE_PT, _TEXT_PT = 16.0, 9.5, 7.5
"""As the style sheet for print has them, or more."""
MOST_EXERCISES = 5
"""Lines of a table and panels of a chart, without that of all."""


@dataclass(frozen=True, slots=True)
class LifterPage:
    """What stands on the page."""

    anchor: str
    """What the roster leads to."""
    lifter: str
    week: str
    headline: str
    standing: str
    """Maxes and reserve, and where the week stands in the season; empty where nothing is known."""
    sums: tuple[Table, ...]
    """Two, side by side where there is room."""
    charts: tuple[Chart, ...]
    sets: Table
    left_out: str
    """How many sets had no room; empty where all had."""
    remarks: str
    """What the marks mean, and what else is not on the page."""
    ahead: Ahead | None
    """Of the weeks to come, for the back of the sheet with the cautions; None where no plan has
    the lifter."""
    cautions: str


def lifter_page(
    span: WeekSpan,
    sets: Iterable[SetDone],
    *,
    lifter: str,
    anchor: str,
    allowances: Allowances,
    plan: Plan | None,
    standing: Sequence[str] = (),
    ahead: Ahead | None = None,
) -> LifterPage:
    """Put a page together that fits on a sheet of A4; what is ahead fits on its back.

    Parameters
    ----------
    span
        The lifter's weeks; the page is about the last.
    sets
        All of the last week.
    lifter
        The name.
    anchor
        What leads to the page.
    allowances
        What planning counts for X, V and A.
    plan
        What the week is held against; a lifter who is not in it has a page without.
    standing
        What is known of the lifter beside the weeks, a sentence each.
    ahead
        What is said of the weeks to come.
    """
    sets = tuple(sets)
    planned = (
        ()
        if plan is None
        else planned_lines(
            plan,
            sets,
            lifter=lifter,
            week=span.weeks[-1],
            allowances=allowances,
            most=MOST_EXERCISES,
        )
    )
    is_open = bool(planned and planned[-1].planned.open_sets)
    groups = set_groups(sets, allowances=allowances)
    # As long as it could be, so that what is left out in the end makes no more room than there is.
    whole = LifterPage(
        anchor=anchor,
        lifter=legible(lifter),
        week=str(span.weeks[-1]),
        headline=headline(span),
        standing=" ".join(standing[:MOST_EXERCISES]),
        sums=(weeks_table(span), plan_table(planned) if planned else exercises_table(span)),
        charts=(lowering_chart(span), load_chart(span)),
        sets=sets_table(groups),
        left_out=left_out_words(len(sets)),
        remarks=" ".join(remarks(span, is_cut=True, is_open=is_open)),
        ahead=ahead,
        cautions=" ".join(SHORT),
    )
    page = _with_short_texts(whole)
    room = rows_within(page.sets, PAGE_MM - _taken_mm(page))
    return replace(
        page,
        sets=replace(page.sets, rows=page.sets.rows[:room]),
        left_out=left_out_words(sum(len(group.sets) for group in groups[room:])),
        remarks=" ".join(remarks(span, is_cut=page != whole, is_open=is_open)),
    )


def _within_back(ahead: Ahead, cautions: str) -> Ahead:
    """Return what there is room for beside the cautions."""
    ahead = ahead.with_short_texts()
    taken_mm = _HEADINGS_MM + ahead.cut_to(0).mm() + text_mm(cautions, size_pt=_TEXT_PT)
    return ahead.cut_to(rows_within(ahead.proposal, PAGE_MM - taken_mm))


def _with_short_texts(page: LifterPage) -> LifterPage:
    return replace(
        page,
        lifter=cut(page.lifter, size_pt=_NAME_PT, width_mm=WIDTH_MM, most_lines=2),
        sums=tuple(fitted(table, width_mm=HALF_MM) for table in page.sums),
        charts=tuple(map(_with_short_names, page.charts)),
        sets=fitted(page.sets),
        ahead=None if page.ahead is None else _within_back(page.ahead, page.cautions),
    )


def _with_short_names(chart: Chart) -> Chart:
    panels = (
        replace(panel, name=cut(panel.name, size_pt=_TEXT_PT, width_mm=PANEL_MM, most_lines=2))
        for panel in chart.panels
    )
    return replace(chart, panels=tuple(panels), figures=fitted(chart.figures))


def _taken_mm(page: LifterPage) -> float:
    """Return the height of all that stands on the front but the rows of the sets."""
    texts = [page.standing, page.left_out, page.remarks]
    if page.ahead is None:
        texts.append(page.cautions)
    return (
        _HEADINGS_MM
        + text_mm(page.lifter, size_pt=_NAME_PT)
        + text_mm(page.headline, size_pt=_HEADLINE_PT)
        + max(table_mm(table, width_mm=HALF_MM) for table in page.sums)
        + sum(map(chart_mm, page.charts))
        + heads_mm(page.sets.columns)
        + sum(text_mm(text, size_pt=_TEXT_PT) for text in texts)
    )
