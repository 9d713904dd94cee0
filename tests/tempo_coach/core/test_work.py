from __future__ import annotations

from tempo_coach.core.tempo import Phase
from tempo_coach.core.work import PhaseTimes, added, seconds_by_phase

REP = PhaseTimes(lower_ms=4000, pause_ms=1000, raise_ms=500, top_ms=250)


def test_each_phase_has_its_own_time() -> None:
    assert [REP.of(phase) for phase in Phase] == [4000, 1000, 500, 250]


def test_tension_is_all_four_phases_and_moving_two() -> None:
    assert REP.tension_ms == 5750
    assert REP.moving_ms == 4500


def test_times_add_phase_by_phase() -> None:
    assert REP + PhaseTimes(1, 2, 3, 4) == PhaseTimes(4001, 1002, 503, 254)


def test_a_rep_several_times_is_each_phase_as_often() -> None:
    assert REP.times(3) == PhaseTimes(12_000, 3000, 1500, 750)
    assert REP.times(0) == PhaseTimes()


def test_many_times_add_up_as_two_do() -> None:
    several = [PhaseTimes(1, 2, 3, 4), PhaseTimes(10, 20, 30, 40), PhaseTimes(100, 0, 0, 7)]
    assert added(several) == PhaseTimes(111, 22, 33, 51)
    assert added([]) == PhaseTimes()


def test_seconds_are_given_phase_by_phase_and_in_all() -> None:
    assert seconds_by_phase(PhaseTimes(20_500, 5000, 2500, 1)) == {
        "lower_s": 20.5,
        "pause_s": 5.0,
        "raise_s": 2.5,
        "top_s": 0.001,
        "tension_s": 28.001,
    }
