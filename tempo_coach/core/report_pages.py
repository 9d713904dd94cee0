"""A report: one printed page for each lifter, and the roster before them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum

import numpy as np

from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible
from tempo_coach.core.lifter_advice import LifterAdvice, logged_advice
from tempo_coach.core.lifter_pages import MOST_EXERCISES, LifterPage, lifter_page
from tempo_coach.core.marks import ALLOWED, counted
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.page_ahead import ahead_of
from tempo_coach.core.page_parts import Table
from tempo_coach.core.page_words import soreness_words
from tempo_coach.core.plan import Plan
from tempo_coach.core.roster import RULE, Roster, roster
from tempo_coach.core.roster_table import roster_table
from tempo_coach.core.season_words import standing_words
from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.strength_words import strength_words
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.week_spans import week_span
from tempo_coach.core.weeks import IsoWeek
from tempo_coach.errors import OutOfRange

WEEKS = 8
MOST_WEEKS = 10
"""What fits side by side on a page."""


class PageFormat(StrEnum):
    """What a report is written as; also how its file's name ends."""

    HTML = "html"
    PDF = "pdf"


@dataclass(frozen=True, slots=True)
class RosterPage:
    """The page before those of the lifters."""

    heading: str
    table: Table
    remarks: tuple[str, ...]
    """How it is sorted, and what its marks mean."""


@dataclass(frozen=True, slots=True)
class Report:
    """What is printed."""

    title: str
    heading: str
    roster: RosterPage | None
    """None for one lifter."""
    length: int
    """How many lifters there are."""
    pages: Iterable[LifterPage]
    """One for each of them, to be taken once."""

    def told(self, advance: Callable[[int], None]) -> Report:
        """Return the same report, which tells of each page that is taken."""

        def pages() -> Iterator[LifterPage]:
            for page in self.pages:
                yield page
                advance(1)

        return replace(self, pages=pages())


@dataclass(frozen=True, slots=True)
class Scope:
    """What a report is about."""

    week: IsoWeek
    weeks: int = WEEKS
    """How many stand side by side up to the week, 2 to `MOST_WEEKS`."""
    allowances: Allowances = field(default_factory=Allowances)
    plan: Plan | None = None


def reported_week(rows: SetRows, *, asked: IsoWeek | None) -> IsoWeek:
    """Return the week to report, the latest that has sets where none is asked for.

    Raises
    ------
    OutOfRange
        There are no sets in the week.
    """
    if not rows:
        raise OutOfRange("there are no sets to report", hint="'tempo-coach where' tells the log")
    mondays = rows.mondays().astype(np.int64)
    if asked is None:
        return IsoWeek.starting(int(mondays.max()))
    distances = np.abs(mondays - asked.monday().toordinal())
    nearest = IsoWeek.starting(int(mondays[distances.argmin()]))
    if nearest != asked:
        raise OutOfRange(f"there are no sets in {asked}", hint=f"the nearest week is {nearest}")
    return asked


def report_of(
    logs: MergedLogs, rows: SetRows, scope: Scope, *, shown: Callable[[SetDone], SetDone]
) -> Report:
    """Return a report.

    Parameters
    ----------
    logs
        Where whole sets are read again.
    rows
        Those of its rows that the report is about; some are in the week.
    scope
        What of them, and beside what.
    shown
        Takes out of a set what is not to be seen.
    """
    week = scope.week
    rows = rows.where(rows.data["day"] < week.monday().toordinal() + 7)
    found = roster(rows, weeks=scope.weeks)
    anchors = {line.lifter: f"page-{number}" for number, line in enumerate(found.lines, start=1)}
    several = len(anchors) > 1
    return Report(
        title=f"{week}: {counted(len(anchors), 'lifter') if several else legible(*anchors)}",
        heading=f"Report of {week}",
        roster=_roster_page(found, anchors) if several else None,
        length=len(anchors),
        pages=_pages(logs, rows, scope, anchors=anchors, shown=shown),
    )


def _roster_page(found: Roster, anchors: Mapping[str, str]) -> RosterPage:
    is_about = any(time.by_allowance_ms for line in found.lines for time in line.weeks)
    return RosterPage(
        f"{counted(len(anchors), 'lifter')} side by side",
        roster_table(found, anchors=anchors),
        (RULE, ALLOWED) if is_about else (RULE,),
    )


def _pages(
    logs: MergedLogs,
    rows: SetRows,
    scope: Scope,
    *,
    anchors: Mapping[str, str],
    shown: Callable[[SetDone], SetDone],
) -> Iterator[LifterPage]:
    done: dict[str, list[SetDone]] = {}
    for one in logs.sets(rows.where(rows.mondays() == scope.week.monday().toordinal())):
        done.setdefault(one.lifter, []).append(shown(one))
    for lifter, anchor in anchors.items():
        own = rows.where(rows.data["lifter"] == rows.lifters.index(lifter))
        span = week_span(own, through=scope.week, weeks=scope.weeks, most_exercises=MOST_EXERCISES)
        advice = _advice(logs, own, scope, lifter)
        yield lifter_page(
            span,
            done.get(lifter, ()),
            lifter=lifter,
            anchor=anchor,
            allowances=scope.allowances,
            plan=scope.plan,
            standing=_standing(logs, advice, scope, lifter),
            ahead=None
            if advice is None
            else ahead_of(advice, span.weeks, allowances=scope.allowances),
        )


def _advice(logs: MergedLogs, own: SetRows, scope: Scope, lifter: str) -> LifterAdvice | None:
    """Return the advice as of the week's end; None where no plan has the lifter."""
    if scope.plan is None or not scope.plan.has(lifter):
        return None
    return logged_advice(scope.plan, lifter, logs=logs, rows=own, today=scope.week.last_day())


def _standing(
    logs: MergedLogs, advice: LifterAdvice | None, scope: Scope, lifter: str
) -> tuple[str, ...]:
    """Say where the week stands in the plan's season, how sore the lifter was, and the maxes."""
    plan, until = scope.plan, scope.week.last_day()
    planned = () if plan is None or advice is None else plan.lifter(lifter).maxes
    return (
        *(() if advice is None else standing_words(advice.season, scope.week)),
        *soreness_words(logs.soreness.of(lifter), scope.week),
        *strength_words(logs.maxes, lifter=lifter, planned=planned, until=until),
    )
