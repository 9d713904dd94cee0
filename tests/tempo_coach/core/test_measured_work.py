from __future__ import annotations

from tempo_coach.core.clauses import parse_shape
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.measured_work import measured_times
from tempo_coach.core.rep_shape import PLAIN
from tempo_coach.core.work import PhaseTimes

PACED = PhaseTimes(4000, 1000, 1000, 1000)


def test_measured_phases_count_as_measured_and_the_others_as_paced() -> None:
    reps = [MeasuredRep(3600, None, 1200, 0), MeasuredRep(None, None, None, None)]

    times = measured_times(reps, paced=PACED, shape=PLAIN)

    assert times == PhaseTimes(3600 + 4000, 1000 + 1000, 1200 + 1000, 0 + 1000)


def test_a_rep_that_was_broken_off_counts_as_far_as_it_went() -> None:
    times = measured_times(
        [MeasuredRep(3600, 900, 1200, 800)],
        paced=PACED,
        shape=PLAIN,
        broken_off=PhaseTimes(lower_ms=2500),
    )

    assert times == PhaseTimes(6100, 900, 1200, 800)


def test_the_raise_of_the_spotters_is_no_work_of_the_lifter_measured_or_not() -> None:
    times = measured_times(
        [MeasuredRep(5000, 0, 3000, 0)],
        paced=PhaseTimes(lower_ms=5000),
        shape=parse_shape("lowering only"),
    )

    assert times == PhaseTimes(lower_ms=5000)
