from __future__ import annotations

from datetime import datetime
from typing import Any

import pytest

from tempo_coach.core.emphasis import is_emphasis, overload_run, overloads
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.strength import LifterRecord
from tempo_coach.core.tempo import Allowances, Phase
from tempo_coach.core.weeks import IsoWeek
from tests.tempo_coach.core.done_sets import done_set, max_tested


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("squat 3x5 3-0-1-0", True),
        ("squat 3x5 2.9-0-1-0", False),
        ("squat 3x5 V-0-V-0", False),
        ("bench press 3x3 @ 110% 2-0-A-0 lowering only", True),
        ("dip 3x4 2-0-1-0 stop 1 s at 1/2", True),
        ("leg press 3x6 2-0-1-0 two up one down", True),
        ("squat 3x5 @ 80% 2-0-X-0 lower @ 105%", True),
        ("squat 3x5 2-0-1-0 sides alternating", False),
        ("pin press 3x3 5-0-X-0 raise only", False),
    ],
)
def test_slow_and_shaped_lowers_are_emphasis_work(line: str, expected: bool) -> None:
    read = parse_prescription(line)

    assert is_emphasis(read.tempo, read.shape) is expected


def test_what_a_slow_lower_is_can_be_said_otherwise() -> None:
    read = parse_prescription("squat 3x5 3-0-1-0")

    assert not is_emphasis(read.tempo, read.shape, slow_from_ms=4000)


def record_of(*maxes: tuple[str, float, str]) -> LifterRecord:
    """Return what is known of a lifter with some maxes: exercise, kg and day."""
    return LifterRecord(
        "Ansa Vireo",
        recorded=RecordedMaxes(
            tuple(
                max_tested(
                    id=f"m{number}",
                    exercise=exercise,
                    load_kg=kg,
                    at=datetime.fromisoformat(f"{day}T18:00:00+01:00"),
                )
                for number, (exercise, kg, day) in enumerate(maxes)
            )
        ),
    )


@pytest.mark.parametrize(
    ("changes", "max_kg", "expected"),
    [
        ({"load_kg": 101.0}, 100.0, True),
        ({"load_kg": 100.0}, 100.0, False),
        ({"load_kg": 101.0}, None, False),
        ({"load_kg": 101.0, "method": "overloaded-lowering"}, None, True),
        ({"load_kg": None, "method": "overloaded-lowering"}, 100.0, True),
        ({"load_kg": 110.0, "v": 2, "shape": RepShape(only=Phase.RAISE)}, 100.0, False),
    ],
)
def test_overload_is_more_than_the_max_or_what_the_set_calls_so(
    changes: dict[str, Any], max_kg: float | None, expected: bool
) -> None:
    done = done_set(**changes)
    record = record_of(*([("front squat", max_kg, "2026-10-01")] if max_kg else []))

    assert (overloads([done], record=record, allowances=Allowances()) == (done,)) is expected


def test_each_set_is_held_against_the_max_of_its_exercise_and_its_time() -> None:
    record = record_of(
        ("bench press", 60.0, "2026-10-01"),
        ("front squat", 100.0, "2026-10-01"),
        ("front squat", 120.0, "2026-11-20"),
    )
    heavy = [
        done_set(id=day, load_kg=110.0, started_at=datetime.fromisoformat(f"{day}T18:00:00+01:00"))
        for day in ("2026-09-25", "2026-11-10", "2026-11-25")
    ]

    over = overloads(heavy, record=record, allowances=Allowances())

    assert [one.id for one in over] == ["2026-09-25", "2026-11-10"]


@pytest.mark.parametrize(
    ("weeks_ago", "run"), [([], 1), ([1], 2), ([1, 3], 4), ([3], 1), ([2], 3), ([1, 4, 5], 2)]
)
def test_a_break_of_two_weeks_ends_a_run_of_overload(weeks_ago: list[int], run: int) -> None:
    until = IsoWeek(2026, 11)

    assert overload_run([until.before(back) for back in weeks_ago], until) == run
