from __future__ import annotations

from datetime import timedelta

import pytest

from tempo_coach.core.facts import Fact, SetDone
from tempo_coach.core.history import fold
from tempo_coach.core.ledger import Ledger
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep, Motion
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.set_measurer import SetMeasurer
from tempo_coach.core.tempo import Allowances
from tempo_coach.errors import LogUnwritable
from tests.tempo_coach.core.done_sets import done_set, seconds
from tests.tempo_coach.fakes import NOON, HandClock, MemoryLog, disk_full

REP = MeasuredRep(3600, 900, 800, 1000)
STOPPED = done_set(reps_done=2, seconds=seconds(lower=8 + 2.5, pause=2, raise_=2, top=2))
"""Two reps and 2.5 s of a third."""


class Bench:
    """What measures, and what it was given."""

    def __init__(self, log: MemoryLog | None = None) -> None:
        self.log = log or MemoryLog()
        ledger = Ledger(self.log, rescue=MemoryLog("rescue"))
        self.measurer = SetMeasurer(ledger, clock=HandClock(), new_id=lambda: "new")

    def facts(self, done: SetDone) -> list[Fact]:
        return [done, *self.log.facts]


def test_a_tapped_set_counts_as_measured_with_its_last_rep_as_far_as_it_went() -> None:
    bench = Bench()

    measured, problem = bench.measurer.measure(
        STOPPED, [REP, REP], by="tapped", allowances=Allowances()
    )

    assert problem is None
    assert measured.timing == "tapped"
    assert measured.seconds == seconds(lower=7.2 + 2.5, pause=1.8, raise_=1.6, top=2)
    assert fold(bench.facts(STOPPED)).sets == (measured,)


def test_a_trace_says_how_many_reps_there_were() -> None:
    measured, _ = Bench().measurer.measure(
        done_set(), [REP] * 4, by="trace", allowances=Allowances()
    )

    assert measured.reps_done == 4
    assert measured.seconds == seconds(lower=14.4, pause=3.6, raise_=3.2, top=4)


def test_a_measurement_is_dated_after_the_correction_before_even_by_a_clock_set_back() -> None:
    bench = Bench()
    corrected_at = NOON + timedelta(hours=3)

    bench.measurer.measure(
        done_set(), [REP], by="trace", allowances=Allowances(), after=corrected_at
    )

    (fact,) = bench.log.facts
    assert isinstance(fact, SetMeasured)
    assert fact.at > corrected_at


@pytest.mark.parametrize(
    ("line", "own"),
    [
        ("front squat 1x2 @ 80 kg 4-1-X-1", seconds(lower=7.6, pause=0.9, raise_=1.7, top=1)),
        ("bench press 1x2 @ 110% 4-0-A-0 lowering only", seconds(lower=7.6, pause=0.9, top=1)),
    ],
)
def test_a_set_known_from_a_trace_alone_is_logged_with_its_reps(line: str, own: object) -> None:
    bench = Bench()
    moved = MeasuredRep(4000, None, 900, None, Motion(0.6, 0.15, 0.2, 0.7, 1.0))

    done, problem = bench.measurer.log_traced(
        parse_prescription(line),
        [REP, moved],
        lifter="Ansa Vireo",
        started_at=NOON,
        allowances=Allowances(),
    )

    assert problem is None
    first, second = bench.log.facts
    assert isinstance(first, SetDone)
    assert isinstance(second, SetMeasured)
    assert (first.id, first.timing, first.reps_done) == ("new", "trace", 2)
    assert first.seconds == own
    assert second.reps[1].motion is not None
    assert fold(bench.log.facts).sets == (done,)


def test_what_the_disk_does_not_take_is_told() -> None:
    log = MemoryLog()
    log.fault = disk_full()

    _, problem = Bench(log).measurer.measure(done_set(), [REP], by="trace", allowances=Allowances())

    assert isinstance(problem, LogUnwritable)
