from __future__ import annotations

from datetime import timedelta

from hypothesis import given

from tempo_coach.core.facts import FACTS, Changes, SetCorrected, SetStruck, line_of
from tempo_coach.core.history import fold
from tempo_coach.core.measured_facts import Means, RepMeasured, SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep, Motion
from tempo_coach.core.set_rows import lower_measured_s
from tempo_coach.core.weeks import weekly
from tempo_coach.core.work import PhaseTimes
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.done_sets import MONDAY, done_set, seconds

LATER = MONDAY + timedelta(minutes=2)
REPS = (MeasuredRep(3600, 900, 800, 1000), MeasuredRep(None, 1000, 900, 1000))
TIMES = PhaseTimes(7600, 1900, 1700, 2000)


def measured(*, by: Means = "tapped", minutes: int = 0) -> SetMeasured:
    at = LATER + timedelta(minutes=minutes)
    return SetMeasured.of("5c2e", REPS, times=TIMES, by=by, at=at)


def test_a_measurement_is_one_line_with_these_keys_in_this_order() -> None:
    moved = MeasuredRep(3600, 900, 800, 1000, Motion(0.62, 0.17, 0.25, 0.7, 1.1))
    fact = SetMeasured.of("5c2e", [moved], times=PhaseTimes(3600, 900, 800, 1000), by="trace",
                          at=LATER)  # fmt: skip

    assert line_of(fact) == (
        b'{"v":1,"kind":"set_measured","id":"5c2e","at":"2026-03-02T18:06:05.250000+01:00",'
        b'"timing":"trace","seconds":{"lower":3.6,"pause":0.9,"raise":0.8,"top":1.0},'
        b'"reps":[{"lower":3.6,"pause":0.9,"raise":0.8,"top":1.0,"motion":{"range_m":0.62,'
        b'"lower_mean_m_s":0.17,"lower_peak_m_s":0.25,"raise_mean_m_s":0.7,'
        b'"raise_peak_m_s":1.1}}]}\n'
    )
    assert FACTS.validate_json(line_of(fact)) == fact


@given(strategies.measured_reps)
def test_any_rep_comes_back_from_the_log_as_it_was(rep: MeasuredRep) -> None:
    written = RepMeasured.of(rep)

    assert RepMeasured.model_validate_json(written.model_dump_json(by_alias=True)).rep() == rep


def test_a_set_counts_as_it_was_measured_beside_what_was_prescribed() -> None:
    (done,) = fold([measured(), done_set()]).sets

    assert done.timing == "tapped"
    assert done.seconds.times() == TIMES
    assert done.reps_done == 2
    assert done.reps_prescribed == 5


def test_the_latest_measurement_counts_whichever_was_written_first() -> None:
    history = fold([measured(by="trace", minutes=5), measured(), done_set()])

    assert history.measured["5c2e"].timing == "trace"
    assert history.sets[0].timing == "trace"
    assert history.corrected["5c2e"] == LATER + timedelta(minutes=5)


def test_what_the_lifter_corrects_later_counts() -> None:
    correction = SetCorrected(
        id="5c2e", at=LATER + timedelta(minutes=1), changes=Changes(reps_done=3)
    )

    assert fold([correction, measured(), done_set()]).sets[0].reps_done == 3


def test_a_struck_set_is_no_longer_measured() -> None:
    history = fold([measured(), done_set(), SetStruck(id="5c2e", at=LATER)])

    assert history.measured == {}
    assert history.sets == ()


def test_a_measurement_without_its_set_is_named() -> None:
    assert fold([measured()]).orphaned == ("5c2e",)


def test_the_lowering_that_nobody_measured_counts_as_paced_and_is_told_apart() -> None:
    history = fold([measured(), done_set()])
    (week,) = weekly(history.sets, measured=history.measured)

    assert week.total.times.lower_ms == 7600
    assert week.total.lower_measured_ms == 3600
    assert lower_measured_s(done_set(), None) == 0
    assert lower_measured_s(done_set(timing="trace"), None) == 20


def test_seconds_that_are_corrected_by_hand_are_no_longer_measured() -> None:
    by_hand = SetCorrected(
        id="5c2e",
        at=LATER + timedelta(minutes=1),
        changes=Changes(seconds=seconds(lower=18, pause=5)),
    )

    corrected = fold([by_hand, measured(), done_set()])
    measured_again = fold([by_hand, measured(minutes=2), done_set()])

    assert (corrected.sets[0].timing, corrected.measured) == ("paced", {})
    assert corrected.sets[0].seconds.lower == 18
    assert measured_again.measured["5c2e"].timing == "tapped"
    assert fold([by_hand, done_set(timing="trace")]).sets[0].timing == "paced"
