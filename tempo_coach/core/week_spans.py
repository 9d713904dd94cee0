"""One lifter's weeks up to a week, in all and by exercise."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tempo_coach.core.marks import counted
from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.weeks import IsoWeek, Totals, totals_by

_NOTHING = Totals.of(())


@dataclass(frozen=True, slots=True)
class ExerciseSpan:
    """One exercise over some weeks, or several that share a line."""

    name: str
    totals: tuple[Totals, ...]
    """As `WeekSpan.weeks`."""


@dataclass(frozen=True, slots=True)
class WeekSpan:
    """Weeks side by side, those without sets too."""

    weeks: tuple[IsoWeek, ...]
    """In order, none before the lifter's first on record."""
    totals: tuple[Totals, ...]
    """Of all exercises."""
    exercises: tuple[ExerciseSpan, ...]
    """Most lowering time in the last week first; those that are left share the last."""

    @property
    def now(self) -> Totals:
        """The last week."""
        return self.totals[-1]

    @property
    def before(self) -> Totals | None:
        """The week before; None where the last one is the first on record."""
        return self.totals[-2] if len(self.totals) > 1 else None


def week_span(rows: SetRows, *, through: IsoWeek, weeks: int, most_exercises: int) -> WeekSpan:
    """Add up some weeks.

    Parameters
    ----------
    rows
        One lifter's, all that are on record.
    through
        The last week.
    weeks
        How many, 2 or more.
    most_exercises
        How many lines there may be, 2 or more.
    """
    mondays = rows.mondays()
    last = through.monday().toordinal()
    on_record = mondays[mondays <= last]
    first = max(
        int(on_record.min()) if len(on_record) else last,
        through.before(weeks - 1).monday().toordinal(),
    )
    rows = rows.where((mondays >= first) & (mondays <= last))
    shown = range(first, last + 1, 7)
    in_all = {monday: total for (monday,), total in totals_by(rows, rows.mondays())}
    return WeekSpan(
        weeks=tuple(map(IsoWeek.starting, shown)),
        totals=tuple(in_all.get(monday, _NOTHING) for monday in shown),
        exercises=_exercises(rows, shown, most_exercises),
    )


def _exercises(rows: SetRows, shown: range, most: int) -> tuple[ExerciseSpan, ...]:
    exercise, mondays = rows.data["exercise"], rows.mondays()
    lowered = dict.fromkeys(np.unique(exercise).tolist(), (0, 0))
    for (number, monday), totals in totals_by(rows, exercise, mondays):
        now, ever = lowered[number]
        lower_ms = totals.times.lower_ms
        lowered[number] = (now + (lower_ms if monday == shown[-1] else 0), ever + lower_ms)
    order = sorted(lowered, key=lambda number: (*(-one for one in lowered[number]), number))
    alone = order if len(order) <= most else order[: most - 1]
    names = [rows.exercises[number] for number in alone]
    if len(order) > len(alone):
        names.append(counted(len(order) - len(alone), "other"))
    lines = np.full(len(rows.exercises), len(alone), dtype=np.int32)
    lines[alone] = np.arange(len(alone), dtype=np.int32)
    found = dict(totals_by(rows, lines[exercise], mondays))
    return tuple(
        ExerciseSpan(name, tuple(found.get((line, monday), _NOTHING) for monday in shown))
        for line, name in enumerate(names)
    )
