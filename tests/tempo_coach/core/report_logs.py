"""Reports of sets, without files."""

from __future__ import annotations

from collections.abc import Iterable

from tempo_coach.core.facts import SetDone
from tempo_coach.core.plan import Plan
from tempo_coach.core.report_pages import WEEKS, Report, Scope, report_of, reported_week
from tempo_coach.core.tempo import Allowances
from tests.tempo_coach.core.text_logs import log_of, merge_of


def report(sets: Iterable[SetDone], *, weeks: int = WEEKS, plan: Plan | None = None) -> Report:
    """Return the report of the latest week."""
    logs = merge_of(log_of(sets))
    scope = Scope(reported_week(logs.rows, asked=None), weeks, Allowances(), plan)
    return report_of(logs, logs.rows, scope, shown=lambda done: done)
