"""All lifters side by side, those first whom a coach should look at first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

import numpy as np

from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.weeks import IsoWeek, totals_by

RULE = (
    "First whose lowering seconds rose most in the last week on the week before, a first week "
    "counting as a rise from nothing; then the others, longest since the last session first."
)
"""How a roster is sorted."""
WEEKS = 8


@dataclass(frozen=True, slots=True)
class LowerTime:
    """Lowering time of one week."""

    lower_ms: int = 0
    by_allowance_ms: int = 0
    """The part of it that planning counted for X or V."""


@dataclass(frozen=True, slots=True)
class RosterLine:
    """One lifter's last weeks."""

    lifter: str
    weeks: tuple[LowerTime, ...]
    """As `Roster.weeks`."""
    lower_change_ms: int
    """Of the last week, against the week before."""
    is_first_week: bool
    """The last week is the lifter's first on record."""
    last_session: date


@dataclass(frozen=True, slots=True)
class Roster:
    """Lifters and weeks."""

    weeks: tuple[IsoWeek, ...]
    """Up to the latest in which anybody has sets."""
    lines: tuple[RosterLine, ...]
    """Sorted as `RULE` says."""


def roster(rows: SetRows, *, weeks: int = WEEKS) -> Roster:
    """Set all lifters side by side, over the last so many weeks."""
    if not rows:
        return Roster((), ())
    mondays = rows.mondays()
    last = IsoWeek.starting(int(mondays.max()))
    shown = tuple(dict.fromkeys(last.before(back) for back in reversed(range(weeks))))
    # The week before is needed too: the last one is held against it.
    recent = rows.where(mondays >= last.before(max(weeks - 1, 1)).monday().toordinal())
    times = {
        (lifter, IsoWeek.starting(monday)): LowerTime(
            totals.times.lower_ms, totals.by_allowance.lower_ms
        )
        for (lifter, monday), totals in totals_by(recent, recent.data["lifter"], recent.mondays())
    }
    lines = []
    for lifter, first_day, last_day in _days(rows):
        latest = times.get((lifter, last), LowerTime())
        before = times.get((lifter, last.before()), LowerTime())
        lines.append(
            RosterLine(
                lifter=rows.lifters[lifter],
                weeks=tuple(times.get((lifter, week), LowerTime()) for week in shown),
                lower_change_ms=latest.lower_ms - before.lower_ms,
                is_first_week=IsoWeek.of(first_day) == last,
                last_session=last_day,
            )
        )
    return Roster(shown, tuple(sorted(lines, key=_first_to_look_at)))


def _days(rows: SetRows) -> Iterator[tuple[int, date, date]]:
    """Yield the lifters that have sets, each with the first and the last day."""
    lifter, day = rows.data["lifter"], rows.data["day"]
    first = np.full(len(rows.lifters), date.max.toordinal())
    last = np.zeros(len(rows.lifters), dtype=np.int64)
    np.minimum.at(first, lifter, day)
    np.maximum.at(last, lifter, day)
    for number in np.flatnonzero(last).tolist():
        yield number, date.fromordinal(int(first[number])), date.fromordinal(int(last[number]))


def _first_to_look_at(line: RosterLine) -> tuple[int, date, str]:
    return -max(line.lower_change_ms, 0), line.last_session, line.lifter


def roster_data(found: Roster) -> dict[str, Any]:
    """Return a roster as plain data, with its rule."""
    return {
        "rule": RULE,
        "weeks": [str(week) for week in found.weeks],
        "lifters": [
            {
                "lifter": line.lifter,
                "lower_s": [time.lower_ms / 1000 for time in line.weeks],
                "lower_by_allowance_s": [time.by_allowance_ms / 1000 for time in line.weeks],
                "lower_change_s": line.lower_change_ms / 1000,
                "first_week": line.is_first_week,
                "last_session": line.last_session.isoformat(),
            }
            for line in found.lines
        ],
    }
