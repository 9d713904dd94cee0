from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from tempo_coach.core.settings import Settings
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.timeline import LEAST_SETUP_MS, LONGEST_SETUP_MS, USUAL_SETUP_MS


def test_nothing_needs_to_be_set() -> None:
    settings = Settings()
    assert settings.lifter is None
    assert settings.setup_ms == USUAL_SETUP_MS
    assert settings.offset_ms == 0
    assert settings.allowances == Allowances()


def test_seconds_become_whole_milliseconds() -> None:
    settings = Settings(setup_s=4.5, fast_s=0.7, own_s=2.2, assisted_s=3.3)
    assert settings.setup_ms == 4500
    assert settings.allowances == Allowances(700, 2200, 3300)


def test_the_bounds_of_the_setup_are_those_of_a_timeline() -> None:
    assert Settings(setup_s=3).setup_ms == LEAST_SETUP_MS
    assert Settings(setup_s=60).setup_ms == LONGEST_SETUP_MS


@pytest.mark.parametrize(
    "given",
    [
        {"setup_s": 2.999},
        {"setup_s": 60.001},
        {"setup_s": "10"},
        {"setup_s": float("nan")},
        {"setup_s": True},
        {"offset_ms": -501},
        {"offset_ms": 1001},
        {"offset_ms": 1.5},
        {"fast_s": 0.1},
        {"own_s": 11},
        {"assisted_s": None},
        {"lifter": ""},
        {"lifter": 7},
        {"volume": 11},
    ],
)
def test_anything_else_is_refused_by_its_name(given: dict[str, Any]) -> None:
    with pytest.raises(ValidationError, match=next(iter(given))):
        Settings.model_validate(given)


def test_every_setting_says_what_it_is() -> None:
    assert all(field.description for field in Settings.model_fields.values())
