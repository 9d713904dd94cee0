from __future__ import annotations

import pytest

from tempo_coach.core.movement_groups import TABLE, movement_group


@pytest.mark.parametrize(
    ("exercise", "group"),
    [
        ("front squat", "knee extensors"),
        ("Pause Back Squats", "knee extensors"),
        ("nordic hamstring curl", "knee flexors"),
        ("barbell curl", "pulling"),
        ("romanian deadlift", "hip extensors"),
        ("bench press", "pressing"),
        ("leg press", "knee extensors"),
        ("chin-ups", "pulling"),
        ("calf raises", "calves"),
        ("plank", None),
        ("", None),
    ],
)
def test_the_longest_ending_decides_the_group(exercise: str, group: str | None) -> None:
    assert movement_group(exercise) == group


def test_what_the_plan_says_goes_before_the_table() -> None:
    more = {"Front Squat": "legs", "heel drop": "calves"}

    assert movement_group("front squat", more=more) == "legs"
    assert movement_group("single-leg heel drop", more=more) == "calves"
    assert movement_group("back squat", more=more) == "knee extensors"


def test_every_exercise_stands_in_one_group() -> None:
    assert len(TABLE) > 40
    assert all(movement_group(name) == group for name, group in TABLE.items())
