from __future__ import annotations

from tempo_coach.core.adherence import USUAL_BAND
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.set_adherence import set_adherence
from tempo_coach.core.work import PhaseTimes
from tests.tempo_coach.core.done_sets import MONDAY, done_set, seconds


def test_a_paced_set_tells_nothing_of_how_it_was_kept() -> None:
    assert set_adherence(done_set(), None, band=USUAL_BAND) is None


def test_a_set_measured_as_a_whole_has_the_mean_for_each_of_its_lowers() -> None:
    done = done_set(timing="trace", seconds=seconds(lower=15.0, pause=5))

    kept = set_adherence(done, None, band=USUAL_BAND)

    assert kept is not None
    assert kept.lower is not None
    assert kept.lower.off_ms == (-1000,) * 5
    assert kept.is_lower_short


def test_reps_that_were_measured_count_before_what_the_set_says() -> None:
    done = done_set(timing="trace", seconds=seconds(lower=15.0))
    reps = [MeasuredRep(4000, 1000, 800, None)] * 5
    measured = SetMeasured.of(done.id, reps, times=PhaseTimes(), by="trace", at=MONDAY)

    kept = set_adherence(done, measured, band=USUAL_BAND)

    assert kept is not None
    assert not kept.is_lower_short
