from __future__ import annotations

import math

import pytest

from tempo_coach.core.measured_rep import MeasuredRep, Motion
from tempo_coach.core.tempo import Phase
from tempo_coach.errors import OutOfRange


def test_a_rep_says_how_long_each_phase_took() -> None:
    rep = MeasuredRep(4_120, 950, None, 0)

    assert [rep.of(phase) for phase in Phase] == [4_120, 950, None, 0]


def test_a_phase_below_zero_is_refused_by_name() -> None:
    with pytest.raises(OutOfRange, match="a pause can't last -1 ms"):
        MeasuredRep(4_000, -1, 1_000, 0)


@pytest.mark.parametrize("value", [-0.1, math.nan, math.inf])
def test_a_speed_that_is_no_magnitude_is_refused(value: float) -> None:
    with pytest.raises(OutOfRange, match="raise_peak_m_s"):
        Motion(0.5, 0.1, 0.2, None, value)
