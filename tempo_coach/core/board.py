"""A week of a plan as it would stand on a board."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from tempo_coach.core.bar_words import set_words
from tempo_coach.core.loading import Rack
from tempo_coach.core.method_flags import Flag, flags
from tempo_coach.core.plan import Lifter, Plan
from tempo_coach.core.plan_days import PlannedDay, PlannedWork, days_of
from tempo_coach.core.plan_loads import ResolvedLoad, resolve
from tempo_coach.core.plan_sums import PlannedTotals
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.set_bar import SetBar, set_bar
from tempo_coach.core.strength import LifterRecord
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.work import seconds_by_phase


@dataclass(frozen=True, slots=True)
class BoardLine:
    """One piece of work, with the load worked out for the lifter."""

    work: PlannedWork
    resolved: ResolvedLoad
    flags: tuple[Flag, ...]
    one_set: PlannedTotals
    all_sets: PlannedTotals


@dataclass(frozen=True, slots=True)
class BoardDay:
    """One day of the week."""

    day: PlannedDay
    lines: tuple[BoardLine, ...]
    total: PlannedTotals


@dataclass(frozen=True, slots=True)
class Board:
    """One lifter's week."""

    lifter: Lifter
    days: tuple[BoardDay, ...]
    total: PlannedTotals


def board_of(
    plan: Plan,
    *,
    lifter: str,
    week: int,
    allowances: Allowances,
    recorded: RecordedMaxes | None = None,
) -> Board:
    """Return a lifter's week of the plan, from 1.

    Parameters
    ----------
    plan
        The plan.
    lifter
        One of its lifters.
    week
        From 1.
    allowances
        What stands in for X, V and A.
    recorded
        The maxes of the log, which hold beside those of the plan.

    Raises
    ------
    OutOfRange
        The plan has nobody of that name.
    """
    person = plan.lifter(lifter)
    record = LifterRecord(person.name, person, recorded or RecordedMaxes())
    days = []
    for day in days_of(plan, lifter, week=week):
        lines = tuple(
            BoardLine(
                work=work,
                resolved=resolve(
                    work.prescription,
                    plan=plan,
                    lifter=person,
                    allowances=allowances,
                    recorded=recorded,
                ),
                flags=flags(
                    work.prescription,
                    record.strength_for(work.prescription, allowances),
                    allowances=allowances,
                    step_kg=plan.loads_by.kg() or 0,
                ),
                one_set=PlannedTotals.of_one_set(work.prescription, allowances=allowances),
                all_sets=PlannedTotals.of([work.prescription], allowances=allowances),
            )
            for work in day.work
        )
        days.append(BoardDay(day, lines, _sum(line.all_sets for line in lines)))
    return Board(person, tuple(days), _sum(day.total for day in days))


def _sum(totals: Iterable[PlannedTotals]) -> PlannedTotals:
    return sum(totals, PlannedTotals())


def board_data(board: Board, *, rack: Rack | None) -> dict[str, Any]:
    """Return a board as plain data, with the units in the keys.

    Parameters
    ----------
    board
        What is told.
    rack
        What loads are to be loaded with; None leaves it out.
    """
    return {
        "lifter": board.lifter.name,
        "days": [
            {
                "date": one.day.date.isoformat(),
                "work": [_line_data(line, rack) for line in one.lines],
                "total": _totals_data(one.total),
            }
            for one in board.days
        ],
        "total": _totals_data(board.total),
    }


def bar_of(line: BoardLine, rack: Rack | None) -> SetBar | None:
    """Return what goes on the bar for a line; None where that can't be said, or is not to be."""
    if rack is None:
        return None
    prescription = line.resolved.prescription
    return set_bar(rack, exercise=prescription.exercise, load=prescription.load)


def _line_data(line: BoardLine, rack: Rack | None) -> dict[str, Any]:
    return {
        "item": line.work.item,
        "line": str(line.work.prescription),
        "loaded_line": str(line.resolved.prescription),
        "load_kg": line.resolved.load_kg,
        "load_words": line.resolved.words,
        "lower_load_kg": line.resolved.lower_load_kg,
        "on_the_bar": _bar_data(bar_of(line, rack)),
        "remarks": [str(flag) for flag in line.flags],
        "note": line.work.note,
        "one_set": _totals_data(line.one_set),
        "all_sets": _totals_data(line.all_sets),
    }


def _bar_data(found: SetBar | None) -> dict[str, Any] | None:
    if found is None:
        return None
    bar = found.bar
    return {
        "words": set_words(found),
        "a_side": None if bar is None else [str(disc) for disc in bar.side],
    }


def _totals_data(totals: PlannedTotals) -> dict[str, Any]:
    return {
        "sets": totals.sets,
        "open_sets": totals.open_sets,
        "reps": totals.reps,
        **seconds_by_phase(totals.times),
        "by_allowance": seconds_by_phase(totals.by_allowance),
    }
