from __future__ import annotations

import pytest

from tempo_coach.core.exercises import usual_lead
from tempo_coach.core.tempo import Phase

# Which lifts start from the floor, the hang or the shoulders: common practice, no source.


@pytest.mark.parametrize(
    "exercise",
    ["deadlift", "chin-up", "Barbell ROW", "seated  overhead press", "hammer curls", "calf raises"],
)
def test_a_lift_from_the_floor_the_hang_or_the_shoulders_begins_with_the_raise(
    exercise: str,
) -> None:
    assert usual_lead(exercise) is Phase.RAISE


@pytest.mark.parametrize("exercise", ["front squat", "bench press", "press-up", "dip", "", "ロウ"])
def test_any_other_begins_with_the_lower(exercise: str) -> None:
    assert usual_lead(exercise) is Phase.LOWER


@pytest.mark.parametrize("exercise", ["romanian deadlift", "nordic hamstring curls"])
def test_the_longest_ending_decides(exercise: str) -> None:
    assert usual_lead(exercise) is Phase.LOWER


@pytest.mark.parametrize("exercise", ["overhead presses", "snatches", "heavy push presses"])
def test_a_plural_is_the_same_exercise(exercise: str) -> None:
    assert usual_lead(exercise) is Phase.RAISE


def test_a_name_that_only_holds_the_word_is_another_exercise() -> None:
    assert usual_lead("row machine squat") is Phase.LOWER
    assert usual_lead("arrow") is Phase.LOWER
