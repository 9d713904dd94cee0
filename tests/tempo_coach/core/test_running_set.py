from __future__ import annotations

from datetime import timedelta

import pytest

from tempo_coach.core.facts import SetDone
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.running_set import RunningRest, RunningSet
from tempo_coach.core.timeline import Timeline
from tests.tempo_coach.core.done_sets import MONDAY, done_set, seconds

ZERO_MS = 700_000


def running(line: str = "front squat 4x5 @ 80 kg 4-1-X-1") -> RunningSet:
    prescription = parse_prescription(line)
    return RunningSet(
        id="5c2e",
        lifter="Ansa Vireo",
        prescription=prescription,
        timeline=Timeline.of(prescription),
        zero_ms=ZERO_MS,
        began_at=MONDAY - timedelta(seconds=10),
    )


def done_by(track_ms: int, line: str = "front squat 4x5 @ 80 kg 4-1-X-1") -> SetDone:
    fact = running(line).fact(ZERO_MS + track_ms)
    assert fact is not None
    return fact


def test_a_finished_set_is_a_fact_of_reps_times_tempo() -> None:
    assert done_by(45_000) == done_set(effort=None)


def test_a_set_ends_with_its_last_phase_however_late_it_is_asked() -> None:
    assert done_by(3_600_000) == done_by(45_000)


def test_a_set_that_is_stopped_is_logged_as_far_as_it_went() -> None:
    assert done_by(10_000 + 7000 + 4250) == done_set(
        reps_done=1,
        ended_at=MONDAY + timedelta(milliseconds=11_250),
        seconds=seconds(lower=8, pause=1.25, raise_=1, top=1),
        effort=None,
    )


@pytest.mark.parametrize("track_ms", [-100, 0, 9999, 10_000])
def test_nothing_is_done_before_the_first_rep(track_ms: int) -> None:
    assert running().fact(ZERO_MS + track_ms) is None


def test_a_millisecond_of_the_first_rep_is_something() -> None:
    assert done_by(10_001).seconds == seconds(lower=0.001)
    assert done_by(10_001).reps_done == 0


def test_a_load_that_needs_the_max_or_the_body_mass_is_kept_as_written() -> None:
    done = done_by(45_000, "dip 4x5 @ bw+10 kg 4-1-X-1")
    assert (done.load_kg, done.load_as_written) == (None, "bw+10 kg")


def test_a_set_without_a_load_has_none() -> None:
    done = done_by(45_000, "dip 4x5 4-1-X-1")
    assert (done.load_kg, done.load_as_written) == (None, "")


def test_a_set_until_stopped_has_no_prescribed_reps() -> None:
    done = done_by(10_000 + 14_000, "deadlift 4xmax 4-1-X-1")
    assert (done.reps_prescribed, done.reps_done, done.lead) == (None, 2, "raise")


def test_a_place_is_counted_from_the_first_sample_that_is_heard() -> None:
    assert running().position_ms(ZERO_MS - 100) == -100
    moment = running().moment(ZERO_MS + 14_000)
    assert moment is not None
    assert (moment.rep, moment.span.phase.value, moment.elapsed_ms) == (1, "pause", 0)
    assert running().moment(ZERO_MS) is None


def test_a_set_is_over_when_its_last_phase_has_ended() -> None:
    assert not running().is_over(ZERO_MS + 44_999)
    assert running().is_over(ZERO_MS + 45_000)


def test_a_rest_runs_down_to_zero_and_stays_there() -> None:
    rest = RunningRest(zero_ms=ZERO_MS, rest_ms=90_000)
    left = [rest.left_ms(ZERO_MS + elapsed) for elapsed in (0, 1, 89_999, 90_000, 3_600_000)]
    assert left == [90_000, 89_999, 1, 0, 0]


def test_what_others_do_in_a_rep_is_not_logged_as_tension() -> None:
    done = done_by(60_000, "bench press 1x3 @ 110 kg 5-0-A-0 lowering only")

    assert done.seconds == seconds(lower=15)
    assert done.ended_at - done.started_at == timedelta(seconds=24)
    assert (done.v, str(done.shape), done.reps_done) == (2, "lowering only", 3)


def test_what_is_lowered_and_the_method_are_logged_with_the_set() -> None:
    line = "squat 1x2 @ 100 kg 3-0-X-0 lower @ 120 kg method accentuated-lowering"
    done = done_by(60_000, line)

    assert (done.load_kg, done.lower_load_kg) == (100, 120)
    assert done.method == "accentuated-lowering"
