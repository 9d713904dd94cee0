"""Weeks side by side, those without sets too."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from tempo_coach.core.board import board_of
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_sums import PlannedTotals
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.weeks import ExerciseTotals, IsoWeek, Totals, week_of, weekly

WEEKS = 12


@dataclass(frozen=True, slots=True)
class ChartWeek:
    """One week of the chart."""

    week: IsoWeek
    total: Totals
    """All zero where nothing was done."""
    exercises: tuple[ExerciseTotals, ...]
    """In order of the alphabet."""
    lower_change_ms: int | None
    """Lowering time against the week before; None up to the first week on record."""


def exercises_of(sets: Iterable[SetDone]) -> tuple[str, ...]:
    """Return the names of the exercises, each as last written, in order of the alphabet."""
    names = {name_key(done.exercise): done.exercise for done in sets}
    return tuple(names[key] for key in sorted(names))


def week_chart(
    sets: Iterable[SetDone],
    *,
    through: IsoWeek,
    exercise: str | None = None,
    measured: Mapping[str, SetMeasured] = NONE_MEASURED,
) -> tuple[ChartWeek, ...]:
    """Return the `WEEKS` calendar weeks up to one of them, in order.

    Parameters
    ----------
    sets
        One lifter's, in the order they were done.
    through
        The last week.
    exercise
        Counts this one alone; None counts all.
    measured
        How some of them were measured, by their ids.
    """
    counted = [
        done for done in sets if exercise is None or name_key(done.exercise) == name_key(exercise)
    ]
    first = min(map(week_of, counted), default=through)
    # The week before the first one shown is that one's measure; older ones need no adding up.
    recent = (done for done in counted if week_of(done) >= through.before(WEEKS))
    on_record = {week.week: week for week in weekly(recent, measured=measured)}
    chart = []
    for back in reversed(range(WEEKS)):
        key = through.before(back)
        week, before = on_record.get(key), on_record.get(key.before())
        total = Totals.of(()) if week is None else week.total
        before_ms = 0 if before is None else before.total.times.lower_ms
        chart.append(
            ChartWeek(
                week=key,
                total=total,
                exercises=() if week is None else week.exercises,
                lower_change_ms=total.times.lower_ms - before_ms if key > first else None,
            )
        )
    return tuple(chart)


def planned_in(
    plan: Plan, week: IsoWeek, *, lifter: str, exercise: str | None, allowances: Allowances
) -> PlannedTotals | None:
    """Return what a plan asks for in a calendar week, of one exercise or of all.

    Returns
    -------
    PlannedTotals or None
        None in weeks that the plan does not cover.

    Raises
    ------
    OutOfRange
        The plan has nobody of that name.
    """
    number = plan.week_on(week.monday())
    if number is None:
        return None
    board = board_of(plan, lifter=lifter, week=number, allowances=allowances)
    lines = (line.work.prescription for day in board.days for line in day.lines)
    return PlannedTotals.of(
        (
            line
            for line in lines
            if exercise is None or name_key(line.exercise) == name_key(exercise)
        ),
        allowances=allowances,
    )
