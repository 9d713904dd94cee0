from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.bar_motion import RISE_SHARE, Move, rise

MOMENTS = np.linspace(-1.0, 5.0, 60_001)


def test_the_peak_speed_of_a_minimum_jerk_movement_is_1_875_times_its_mean() -> None:
    # Flash & Hogan 1985, J Neurosci 5:1688.
    move = Move(0.0, 2.0, 1.0, 0.4, rise_s=1.0, fall_s=1.0)

    assert move.peak_m_s / (0.6 / 2.0) == pytest.approx(1.875)
    assert np.abs(move.at(MOMENTS, order=1)).max() == pytest.approx(1.875 * 0.3)


def test_a_minimum_jerk_movement_is_the_published_polynomial() -> None:
    # Flash & Hogan 1985, J Neurosci 5:1688: 10 t³ − 15 t⁴ + 6 t⁵.
    move = Move(0.0, 1.0, 0.0, 1.0, rise_s=0.5, fall_s=0.5)
    moments = np.linspace(0.0, 1.0, 101)

    shown = move.at(moments, order=0)

    np.testing.assert_allclose(shown, 10 * moments**3 - 15 * moments**4 + 6 * moments**5, atol=1e-9)


@given(rise_s=st.floats(0.05, 1.5), fall_s=st.floats(0.05, 1.5), range_m=st.floats(-1.2, 1.2))
def test_a_way_goes_from_rest_to_rest_whatever_its_rise_and_fall(
    rise_s: float, fall_s: float, range_m: float
) -> None:
    move = Move(0.0, 3.0, 0.0, range_m, rise_s, fall_s)

    heights, speeds, felt = (move.at(MOMENTS, order=order) for order in (0, 1, 2))

    assert heights[0] == pytest.approx(0.0, abs=1e-9)
    assert heights[-1] == pytest.approx(range_m)
    assert speeds[[0, -1]] == pytest.approx([0.0, 0.0])
    # NumPy's own differences.
    step_s = MOMENTS[1] - MOMENTS[0]
    np.testing.assert_allclose(np.gradient(heights, step_s), speeds, atol=1e-4)
    np.testing.assert_allclose(np.gradient(speeds, step_s)[1:-1], felt[1:-1], atol=0.1)


def test_a_rise_gets_8_fifteenths_of_the_way_at_full_speed() -> None:
    assert rise(np.array([1.0, 2.0]), order=0) == pytest.approx([RISE_SHARE, 1 + RISE_SHARE])
