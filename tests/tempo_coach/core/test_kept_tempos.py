from __future__ import annotations

from datetime import timedelta

import pytest

from tempo_coach.core.facts import SetDone
from tempo_coach.core.kept_tempos import kept_data, kept_in
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.tempo import parse_tempo
from tempo_coach.core.work import PhaseTimes
from tests.tempo_coach.core.done_sets import MONDAY, done_set


def tapped(
    *lowers_ms: int | None, weeks: int = 0, tempo: str = "4-1-X-1", exercise: str = "front squat"
) -> tuple[SetDone, SetMeasured]:
    at = MONDAY + timedelta(weeks=weeks)
    done = done_set(started_at=at, ended_at=at, tempo=parse_tempo(tempo), exercise=exercise)
    reps = [MeasuredRep(lower_ms, 1000, 800, None) for lower_ms in lowers_ms]
    return done, SetMeasured.of(done.id, reps, times=PhaseTimes(), by="tapped", at=at)


def test_a_week_adds_up_the_lowers_of_its_measured_sets() -> None:
    (kept,) = kept_in([tapped(4000, 3800, 3600), tapped(3600, 3400, None, 3200)])

    assert (kept.sets, kept.lowers) == (2, 6)
    assert (kept.within_share, kept.within_time) == (2, 4)
    assert kept.mean_off_ms == pytest.approx(-400)
    assert kept.mean_off_share == pytest.approx(-0.1)
    # By least squares over the reps 1 to 3, and over 1, 2 and 4: -200 and -(14/3)/(14/3)·(1000/7).
    assert kept.drift_ms == pytest.approx((-200 - 128.5714) / 2, abs=0.01)


def test_each_exercise_tempo_and_week_stands_by_itself_under_its_last_spelling() -> None:
    kept = kept_in(
        [
            tapped(4000),
            tapped(4000, exercise="Front squat", weeks=0),
            tapped(4000, weeks=1),
            tapped(3000, tempo="3-0-1-0"),
            tapped(4000, exercise="bench press"),
        ]
    )

    assert [(one.exercise.lower(), str(one.tempo), str(one.week), one.sets) for one in kept] == [
        ("bench press", "4-1-X-1", "2026-W10", 1),
        ("front squat", "3-0-1-0", "2026-W10", 1),
        ("front squat", "4-1-X-1", "2026-W10", 2),
        ("front squat", "4-1-X-1", "2026-W11", 1),
    ]


def test_lowers_without_a_prescribed_length_and_sets_measured_as_a_whole_are_left_out() -> None:
    own_speed = tapped(2000, tempo="V-0-V-0")

    assert kept_in([own_speed, (done_set(timing="trace"), None), tapped(None)]) == ()


def test_plain_data_has_its_units_in_its_keys() -> None:
    (data,) = kept_data(kept_in([tapped(3600, 3600)]))

    assert data == {
        "lifter": "Ansa Vireo",
        "week": "2026-W10",
        "exercise": "front squat",
        "tempo": "4-1-X-1",
        "sets_measured": 1,
        "lowers": 2,
        "lowers_within_6_percent": 0,
        "lowers_within_half_second": 2,
        "lower_prescribed_s": 4.0,
        "lower_off_s": -0.4,
        "lower_off_share": -0.1,
        "lower_drift_s": None,
    }
