"""What a lifter did in a week of what a plan asks for, by exercise."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.marks import counted
from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_days import days_of
from tempo_coach.core.plan_sums import PlannedTotals
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.weeks import IsoWeek, Totals


@dataclass(frozen=True, slots=True)
class PlannedLine:
    """Done and planned of one exercise, or of several that share a line."""

    name: str
    done: Totals
    planned: PlannedTotals


def planned_lines(
    plan: Plan,
    sets: Iterable[SetDone],
    *,
    lifter: str,
    week: IsoWeek,
    allowances: Allowances,
    most: int,
) -> tuple[PlannedLine, ...]:
    """Hold a week's sets against the plan, exercise by exercise, as the plan orders them.

    Parameters
    ----------
    plan
        What asks.
    sets
        The lifter's of that week.
    lifter
        Whose days of the plan.
    week
        In the calendar.
    allowances
        What planning counts for X, V and A.
    most
        How many lines there may be, 2 or more, without that of all.

    Returns
    -------
    tuple of PlannedLine
        The last is that of all; none where the plan does not cover the week or the lifter.
    """
    number = plan.week_on(week.monday())
    if number is None or name_key(lifter) not in {name_key(one.name) for one in plan.lifters}:
        return ()
    names: dict[str, str] = {}
    asked: dict[str, list[Prescription]] = {}
    done: dict[str, list[SetDone]] = {}
    for day in days_of(plan, lifter, week=number):
        for work in day.work:
            key = name_key(work.prescription.exercise)
            names.setdefault(key, work.prescription.exercise)
            asked.setdefault(key, []).append(work.prescription)
    for one in sets:
        key = name_key(one.exercise)
        names.setdefault(key, one.exercise)
        done.setdefault(key, []).append(one)

    def line(name: str, keys: Sequence[str]) -> PlannedLine:
        return PlannedLine(
            name,
            Totals.of(one for key in keys for one in done.get(key, ())),
            PlannedTotals.of(
                (one for key in keys for one in asked.get(key, ())), allowances=allowances
            ),
        )

    keys = tuple(names)
    alone = keys if len(keys) <= most else keys[: most - 1]
    lines = [line(names[key], [key]) for key in alone]
    if rest := keys[len(alone) :]:
        lines.append(line(counted(len(rest), "other"), rest))
    return (*lines, line("all", keys))
