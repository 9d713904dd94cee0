from __future__ import annotations

from datetime import date, datetime
from typing import Any

from tempo_coach.core.export_columns import COLUMNS, By, Cells, named
from tempo_coach.core.export_tables import Choice, export_table
from tempo_coach.core.facts import Fact, SetDone
from tempo_coach.core.plan import Plan
from tempo_coach.core.tempo import parse_tempo
from tests.tempo_coach.core.done_sets import done_set, max_tested
from tests.tempo_coach.core.plans import HEAD, plan_of
from tests.tempo_coach.core.text_logs import log_of, merge_of

TODAY = date(2026, 12, 2)
PLAN = f"""{HEAD}
[dosing]
ready_weeks = 2
[[lifters]]
name = "Ansa Vireo"
overload = true
[[days]]
day = "Monday"
[[days.work]]
line = "front squat 3x5 @ 80 kg 4-1-X-1"
"""


def on(day: str, **changes: Any) -> SetDone:
    begun = datetime.fromisoformat(f"{day}T18:00:00+01:00")
    exercise = changes.get("exercise", "")
    return done_set(id=f"{day}{exercise}", started_at=begun, ended_at=begun, **changes)


FACTS: tuple[Fact, ...] = (
    on("2026-11-19"),
    on("2026-11-26"),
    on("2026-11-27", exercise="row", tempo=parse_tempo("1-0-1-0")),
    on("2026-11-28", exercise="chin-up", lifter="Oda Falk"),
    max_tested(exercise="bench press"),
    max_tested(
        id="later", exercise="deadlift", at=datetime.fromisoformat("2026-12-05T12:00+01:00")
    ),
    max_tested(id="other", lifter="Ivo Brand"),
)


def readiness(plan: Plan | None = None, **choice: Any) -> list[Cells]:
    logs = merge_of(log_of(FACTS))
    table = export_table(logs, By.READINESS, Choice(**choice), today=TODAY, plan=plan)
    rows = list(table.rows)
    assert table.length == len(rows)
    assert all(tuple(row) == named(COLUMNS[By.READINESS]) for row in rows)
    return rows


def exercises(rows: list[Cells]) -> list[tuple[object, object]]:
    return list(dict.fromkeys((row["lifter"], row["exercise"]) for row in rows))


def test_exercises_are_those_with_lowering_emphasis_or_a_max_that_was_tested_by_then() -> None:
    assert exercises(readiness()) == [
        ("Ansa Vireo", "front squat"),
        ("Ansa Vireo", "bench press"),
        ("Ivo Brand", "front squat"),
        ("Oda Falk", "chin-up"),
    ]


def test_each_criterion_of_each_way_has_a_row_with_its_evidence_and_what_is_missing() -> None:
    rows = readiness(lifters=("ansa vireo",), exercises=("front SQUAT",))

    assert [(row["way"], row["criterion"], row["state"]) for row in rows] == [
        ("overloaded lowering", "slow lowering done", "not met"),
        ("overloaded lowering", "slow lowering on tempo", "can't be told"),
        ("overloaded lowering", "1RM tested", "not met"),
        ("overloaded lowering", "greatest load lowered tested", "not met"),
        ("overloaded lowering", "break from overload", "met"),
        ("overloaded lowering", "cleared", "not met"),
        ("fast lowering", "slow lowering done", "not met"),
        ("fast lowering", "slow lowering on tempo", "can't be told"),
        ("fast lowering", "reserve", "not met"),
    ]
    assert {row["verdict"] for row in rows} == {"not yet"}
    assert (rows[0]["evidence"], rows[0]["missing"]) == (
        "2 of the last 4",
        "2 weeks more of slow lowering under control",
    )
    assert (rows[5]["evidence"], rows[5]["as_of"]) == ("the plan says nothing", TODAY)


def test_a_plan_states_the_criteria_and_the_coach_s_word() -> None:
    rows = readiness(plan_of(PLAN), exercises=("front squat",), lifters=("Ansa Vireo",))

    found = {row["criterion"]: row for row in rows if row["way"] == "overloaded lowering"}

    assert found["slow lowering done"]["state"] == "met"
    assert str(found["slow lowering done"]["asked"]).startswith("2 weeks in a row")
    assert (found["cleared"]["state"], found["cleared"]["missing"]) == ("met", "")


def test_with_a_last_day_readiness_is_that_of_the_day_and_the_first_day_leaves_nothing_out() -> (
    None
):
    choice: dict[str, Any] = {"lifters": ("Ansa Vireo",), "exercises": ("front squat",)}

    earlier = readiness(last=date(2026, 11, 21), **choice)
    later = readiness(first=date(2026, 12, 1), last=date(2026, 12, 31), **choice)

    assert (earlier[0]["as_of"], earlier[0]["evidence"]) == (date(2026, 11, 21), "1 of the last 4")
    assert (later[0]["as_of"], later[0]["evidence"]) == (TODAY, "2 of the last 4")


def test_readiness_is_of_no_method() -> None:
    logs = merge_of(log_of([on("2026-11-19", method="hold")]))

    table = export_table(logs, By.READINESS, Choice(methods=("hold",)), today=TODAY)

    assert (table.length, list(table.rows)) == (0, [])
