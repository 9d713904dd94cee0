"""A planned day's work as it was written and as it was done, side by side."""

from __future__ import annotations

from collections.abc import Iterator

from tempo_coach.core.legible import legible
from tempo_coach.core.marks import ALLOWED, OPEN_SETS, marked_seconds
from tempo_coach.core.plan_sums import PlannedTotals
from tempo_coach.core.session import Session
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.weeks import Totals
from tempo_coach.ui.cells import Column, laid_out
from tempo_coach.ui.day_words import DAY_ROW

_COLUMNS = (
    Column("done of written", takes_rest=True),
    Column("sets", to_right=True),
    Column("reps", to_right=True),
    Column("lowering s", to_right=True),
)


def sum_rows(session: Session, allowances: Allowances, *, width: int) -> tuple[str, ...]:
    """Return the headings, a row for each item, and one for the day."""
    rows = [
        _row(
            legible(item.prescription.exercise),
            Totals.of(item.done),
            PlannedTotals.of([item.written], allowances=allowances),
        )
        for item in session.items
    ]
    rows.append(_row(DAY_ROW, session.done, session.written))
    return laid_out(_COLUMNS, rows, width=width, least_rest=8)


def sum_notes(session: Session) -> Iterator[str]:
    """Yield what the marks in the rows mean, as far as they stand there."""
    if session.done.by_allowance.lower_ms or session.written.by_allowance.lower_ms:
        yield ALLOWED
    if session.written.open_sets:
        yield OPEN_SETS


def _row(name: str, done: Totals, written: PlannedTotals) -> tuple[str, ...]:
    lowered = marked_seconds(done.times.lower_ms, allowed_ms=done.by_allowance.lower_ms)
    sets = f"{done.sets} of {written.sets}"
    if written.open_sets and not written.reps:
        return name, sets, f"{done.reps}, open", f"{lowered}, open"
    is_open = bool(written.open_sets)
    asked = marked_seconds(
        written.times.lower_ms, allowed_ms=written.by_allowance.lower_ms, is_open=is_open
    )
    reps = f"{done.reps} of {written.reps}{'+' if is_open else ''}"
    return name, sets, reps, f"{lowered} of {asked}"
