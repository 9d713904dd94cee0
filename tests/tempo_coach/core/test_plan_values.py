from __future__ import annotations

import pytest
from pydantic import TypeAdapter

from tempo_coach.core.plan_values import GroupName, read_plan_line
from tempo_coach.errors import OutOfRange


def test_a_line_that_is_too_long_to_be_paced_is_refused() -> None:
    assert read_plan_line(" OFF ") is None
    with pytest.raises(OutOfRange, match="a set is at most 600 s"):
        read_plan_line("squat 3x100 4-0-3-0")


def test_a_movement_group_is_the_same_however_it_is_spelt() -> None:
    group = TypeAdapter[str](GroupName)
    assert group.validate_python(" Knee  FLEXORS") == group.validate_python("knee flexors")
