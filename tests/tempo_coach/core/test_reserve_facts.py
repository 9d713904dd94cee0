from __future__ import annotations

import json
from typing import Any

import pytest

from tempo_coach.core.facts import facts_schema
from tempo_coach.core.log_lines import Unread, read_line
from tests.tempo_coach.core.reserve_tests import attempt_made, reserve_begun

BEGUN = b"""{"v":1,"kind":"reserve_begun","id":"e5e5","at":"2026-11-25T18:00:00+01:00",\
"lifter":"Jonne Tarval","exercise":"bench press","max_kg":100.0,"step_kg":5.0,"lower_s":5.0,\
"ceiling_kg":130.0}"""
MADE = b"""{"v":1,"kind":"attempt_made","id":"try-1","at":"2026-11-25T18:05:00+01:00",\
"test":"e5e5","set":"set-1","load_kg":105.0,"held":true,"lowered_s":4.8}"""


def test_both_stand_in_the_log_like_this() -> None:
    assert read_line(BEGUN) == reserve_begun()
    assert read_line(MADE) == attempt_made(1, 105, held=True, lowered_s=4.8)
    assert reserve_begun().model_dump_json().encode() == BEGUN


@pytest.mark.parametrize(
    "changes",
    [
        {"step_kg": 10.1},
        {"step_kg": 0.9},
        {"ceiling_kg": 160.1},
        {"lower_s": 0.5},
        {"lower_s": 31},
        {"max_kg": 601},
        {"max_kg": "100"},
        {"v": 2},
        {"more": 1},
    ],
)
def test_a_test_outside_its_bounds_is_not_read(changes: dict[str, Any]) -> None:
    line = json.dumps(json.loads(BEGUN) | changes).encode()
    assert isinstance(read_line(line), Unread)


@pytest.mark.parametrize(
    "changes",
    [
        {"set": None},
        {"held": 1},
        {"load_kg": 0},
        {"load_kg": 601},
        {"lowered_s": -1},
        {"lowered_s": 121},
    ],
)
def test_an_attempt_outside_its_bounds_is_not_read(changes: dict[str, Any]) -> None:
    line = json.dumps(json.loads(MADE) | changes).encode()
    assert isinstance(read_line(line), Unread)


def test_the_schema_knows_both() -> None:
    assert {"ReserveBegun", "AttemptMade"} <= facts_schema()["$defs"].keys()
