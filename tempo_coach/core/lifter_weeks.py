"""The weeks of each lifter."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.weeks import IsoWeek, Totals, totals_by


@dataclass(frozen=True, slots=True)
class LifterWeek:
    """What one lifter did in one week."""

    lifter: str
    week: IsoWeek
    totals: Totals
    lower_change_ms: int | None
    """Lowering time against the calendar week before; None in the lifter's first week on record."""


def lifter_weeks(rows: SetRows) -> Iterator[LifterWeek]:
    """Yield the weeks that have sets, lifter by lifter, in order."""
    before: tuple[int, int, int] | None = None
    columns = (rows.data["lifter"], rows.mondays())
    for (number, monday), totals in totals_by(rows, *columns):
        change_ms = None
        if before is not None and before[0] == number:
            is_next = before[1] == monday - 7
            change_ms = totals.times.lower_ms - (before[2] if is_next else 0)
        before = (number, monday, totals.times.lower_ms)
        yield LifterWeek(rows.lifters[number], IsoWeek.starting(monday), totals, change_ms)
