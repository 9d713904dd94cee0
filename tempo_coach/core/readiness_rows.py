"""Who is ready for more, as rows of an export: a row a criterion."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date

from tempo_coach.core.export_columns import Cells
from tempo_coach.core.legible import name_key
from tempo_coach.core.lifter_advice import logged_advice
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.plan import Plan


def readiness_cells(
    logs: MergedLogs,
    *,
    lifters: Collection[str],
    exercises: Collection[str],
    plan: Plan | None,
    today: date,
) -> Iterator[Cells]:
    """Yield each criterion of overloaded and of fast lowering, by lifter and exercise.

    Exercises are those of the lifter with lowering-emphasis work or a tested max, the latest first.

    Parameters
    ----------
    logs
        Where sets and maxes are from; all sets of a lifter until today count.
    lifters, exercises
        Only these, by `name_key`; empty are all.
    plan
        States the criteria; None where there is none.
    today
        The day on which it stands so.
    """
    numbers = {name_key(name): number for number, name in enumerate(logs.rows.lifters)}
    names = {name_key(one.lifter): one.lifter for one in logs.maxes.tested}
    names |= {name_key(name): name for name in logs.rows.lifters}
    for key, lifter in sorted(names.items()):
        if lifters and key not in lifters:
            continue
        rows = logs.rows.where(logs.rows.data["lifter"] == numbers.get(key, -1))
        advice = logged_advice(plan, lifter, logs=logs, rows=rows, today=today)
        for exercise in advice.judged_exercises():
            if exercises and name_key(exercise) not in exercises:
                continue
            for way in advice.readiness(exercise):
                for one in way.criteria:
                    yield {
                        "lifter": lifter,
                        "exercise": exercise,
                        "as_of": today,
                        "way": way.way,
                        "verdict": way.verdict,
                        "criterion": one.name,
                        "asked": one.asked,
                        "state": one.state,
                        "evidence": one.evidence,
                        "missing": one.missing,
                    }
