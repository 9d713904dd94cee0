from __future__ import annotations

import json

import pytest

from tempo_coach.core.max_estimates import tempo_records
from tempo_coach.core.max_overview import ExerciseMaxes, max_overview, overview_data
from tempo_coach.core.recorded_maxes import fold_maxes
from tempo_coach.core.rep_equations import Caveat
from tempo_coach.core.tempo import Allowances, parse_tempo
from tests.tempo_coach.core.done_sets import done_set, max_tested
from tests.tempo_coach.core.plans import plan_of

TESTED = fold_maxes(
    [
        max_tested(),
        max_tested(id="b", what="lowered", load_kg=100.0, lower_s=3.0),
        max_tested(id="c", lifter="Mirela Oude", exercise="FRONT squat", load_kg=70.0),
    ]
).tested
SETS = (
    done_set(tempo=parse_tempo("2-0-1-0"), reps_done=10),
    done_set(id="d", exercise="row", effort=5.0),
    done_set(id="e", exercise="row", tempo=parse_tempo("3-0-1-0"), load_kg=60.0),
)


@pytest.fixture(name="found")
def overview() -> tuple[ExerciseMaxes, ...]:
    return max_overview(
        TESTED,
        tempo_records(SETS),
        planned=plan_of().lifters,
        allowances=Allowances(),
    )


def test_maxes_come_by_lifter_and_exercise_whatever_is_known_of_them(
    found: tuple[ExerciseMaxes, ...],
) -> None:
    assert [(one.lifter, one.exercise, len(one.known), len(one.records)) for one in found] == [
        ("Ansa Vireo", "front squat", 2, 1),
        ("Ansa Vireo", "row", 0, 1),
        ("Mirela Oude", "FRONT squat", 2, 0),
    ]


def test_the_reserve_is_known_where_both_its_maxes_are(found: tuple[ExerciseMaxes, ...]) -> None:
    assert [one.reserve.ratio if one.reserve else None for one in found] == [
        pytest.approx(100 / 90),
        None,
        None,
    ]


def test_the_caveats_are_those_of_the_latest_estimates(found: tuple[ExerciseMaxes, ...]) -> None:
    assert [one.caveats for one in found] == [
        (Caveat.MANY_REPS,),
        (Caveat.SLOW_LOWER,),
        (),
    ]


def test_as_data_it_is_json_with_units_in_the_keys(found: tuple[ExerciseMaxes, ...]) -> None:
    squats, rows, _ = json.loads(json.dumps(overview_data(found), allow_nan=False))
    assert [one["load_kg"] for one in squats["tested"]] == [90.0, 100.0]
    assert squats["reserve"]["percent_of_lifted"] == 11.11
    assert (rows["tested"], rows["reserve"]) == ([], None)
    (estimate,) = rows["estimated"]
    assert (estimate["tempo"], estimate["lower_s"], estimate["trend"]) == ("3-0-1-0", 3.0, None)
    assert estimate["days"][0]["caveats"] == ["slow_lower"]


def test_nothing_known_gives_nothing() -> None:
    assert max_overview([], tempo_records([done_set(effort=None)]), allowances=Allowances()) == ()
