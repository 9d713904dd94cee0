"""What stands in the rows of an export, but for those of maxes and of readiness."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

import numpy as np
from numpy.typing import NDArray

from tempo_coach.core.export_columns import Cell, Cells
from tempo_coach.core.facts import SetDone
from tempo_coach.core.kept_tempos import KeptTempo, kept_cells
from tempo_coach.core.legible import name_key
from tempo_coach.core.lifter_weeks import LifterWeek
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.set_rows import SetRows, lower_measured_s
from tempo_coach.core.soreness_facts import SorenessTold
from tempo_coach.core.weeks import IsoWeek, Totals, allowed_times, totals_by, week_of
from tempo_coach.core.work import PhaseTimes

_NOTHING = Totals.of(())


def day_cells(rows: SetRows, told: Iterable[SorenessTold], *, with_rest: bool) -> tuple[Cells, ...]:
    """Return the days of each lifter, in order.

    Parameters
    ----------
    rows
        What was done on them.
    told
        What was told of soreness, in the order of time.
    with_rest
        Days with an answer alone are rows too.
    """
    columns = (rows.data["lifter"], rows.data["day"])
    totals = {
        (rows.lifters[lifter], date.fromordinal(day)): of
        for (lifter, day), of in totals_by(rows, *columns)
    }
    answers = tuple(told)
    spelt = {name_key(name): name for name in (*(one.lifter for one in answers), *rows.lifters)}
    soreness = {(spelt[name_key(one.lifter)], one.at.date()): one.soreness for one in answers}
    days = totals.keys() | soreness.keys() if with_rest else totals.keys()
    return tuple(
        {
            "lifter": lifter,
            "date": day,
            **_week(IsoWeek.of(day)),
            **_totals(totals.get((lifter, day), _NOTHING)),
            "soreness": soreness.get((lifter, day)),
        }
        for lifter, day in sorted(days, key=lambda one: (name_key(one[0]), one[1]))
    )


def week_cells(week: LifterWeek, change_ms: int | None) -> Cells:
    """Return a lifter's week; the change is None where it can't be told."""
    return {
        "lifter": week.lifter,
        **_week(week.week),
        **_totals(week.totals),
        "lower_change_s": None if change_ms is None else change_ms / 1000,
    }


def exercise_columns(rows: SetRows) -> tuple[NDArray[np.int32], ...]:
    """Return what rows of one exercise in one lifter's week have alike."""
    return rows.data["lifter"], rows.mondays(), rows.data["exercise"]


def exercise_cells(rows: SetRows) -> Iterator[Cells]:
    """Yield each exercise of each lifter's week, in order."""
    for (lifter, monday, exercise), totals in totals_by(rows, *exercise_columns(rows)):
        yield {
            "lifter": rows.lifters[lifter],
            **_week(IsoWeek.starting(monday)),
            "exercise": rows.exercises[exercise],
            **_totals(totals),
        }


def tempo_cells(kept: KeptTempo) -> Cells:
    """Return how one tempo of an exercise was kept in a lifter's week."""
    return {
        "lifter": kept.lifter,
        **_week(kept.week),
        "exercise": kept.exercise,
        **kept_cells(kept),
    }


def _week(week: IsoWeek) -> dict[str, Cell]:
    return {"week": str(week), "week_begins": week.monday()}


def _totals(totals: Totals) -> dict[str, Cell]:
    return {
        "sets": totals.sets,
        "reps": totals.reps,
        **_times(totals.times, totals.by_allowance),
        "lower_measured_s": totals.lower_measured_ms / 1000,
        "lowering_kg_s": totals.lowering_kg_s,
        "tonnage_kg": totals.tonnage_kg,
        "sets_without_load": totals.sets_without_load,
    }


def _times(times: PhaseTimes, by_allowance: PhaseTimes) -> dict[str, Cell]:
    return {
        "lower_s": times.lower_ms / 1000,
        "pause_s": times.pause_ms / 1000,
        "raise_s": times.raise_ms / 1000,
        "top_s": times.top_ms / 1000,
        "tension_s": times.tension_ms / 1000,
        "moving_s": times.moving_ms / 1000,
        "lower_by_allowance_s": by_allowance.lower_ms / 1000,
        "raise_by_allowance_s": by_allowance.raise_ms / 1000,
    }


def set_cells(done: SetDone, measured: SetMeasured | None) -> Cells:
    """Return a set, and how it was measured."""
    times, kg, lower_kg = done.seconds.times(), done.load_kg, done.mean_lower_kg
    if kg is None or lower_kg is None:
        lowering_kg_s = tonnage_kg = None
    else:
        lowering_kg_s, tonnage_kg = lower_kg * (times.lower_ms / 1000), kg * done.reps_done
    return {
        "id": done.id,
        "lifter": done.lifter,
        "date": done.started_at.date(),
        "started_at": done.started_at,
        "ended_at": done.ended_at,
        **_week(week_of(done)),
        "exercise": done.exercise,
        "lead": done.lead,
        "tempo": str(done.tempo),
        "load_kg": kg,
        "load_as_written": done.load_as_written,
        "shape": str(done.shape),
        "lower_load_kg": done.lower_load_kg,
        "reps_prescribed": done.reps_prescribed,
        "reps_done": done.reps_done,
        **_times(times, allowed_times(done)),
        "lower_measured_s": lower_measured_s(done, measured),
        "lowering_kg_s": lowering_kg_s,
        "tonnage_kg": tonnage_kg,
        "timing": done.timing,
        "method": done.method,
        "effort": done.effort,
        "note": done.note,
    }
