from __future__ import annotations

import numpy as np
import pytest
from scipy.signal import butter, filtfilt, savgol_filter

from tempo_coach.trace.filters import FILTER_ORDER, low_pass, running_median

RATE_HZ = 100.0
MOMENTS = np.arange(0, 20, 1 / RATE_HZ)


def test_it_is_scipy_s_own_butterworth_filter_there_and_back() -> None:
    values = np.random.default_rng(1).normal(size=MOMENTS.size)

    smooth = low_pass(values, rate_hz=RATE_HZ, cut_off_hz=6.0)

    # scipy.signal.filtfilt, by polynomials in place of sections.
    other = filtfilt(*butter(FILTER_ORDER, 6.0, fs=RATE_HZ), values)
    np.testing.assert_allclose(smooth[50:-50], other[50:-50], atol=1e-6)


@pytest.mark.parametrize(("tone_hz", "kept"), [(0.5, 1.0), (6.0, 0.5), (24.0, 0.002)])
def test_at_its_cut_off_half_is_left_and_nothing_is_late(tone_hz: float, kept: float) -> None:
    # A Butterworth filter leaves 1/√2 at its cut-off, so there and back a half.
    tone = np.sin(2 * np.pi * tone_hz * MOMENTS)

    smooth = low_pass(tone, rate_hz=RATE_HZ, cut_off_hz=6.0)

    np.testing.assert_allclose(smooth[200:-200], kept * tone[200:-200], atol=0.01)


def test_nothing_is_filtered_near_the_half_of_the_rate() -> None:
    values = np.random.default_rng(1).normal(size=50)

    np.testing.assert_array_equal(low_pass(values, rate_hz=10.0, cut_off_hz=6.0), values)


def test_the_derivative_of_the_smoothed_is_that_of_savitzky_and_golay() -> None:
    # scipy.signal.savgol_filter, which derives by fitted polynomials (Savitzky & Golay 1964).
    heights = 0.3 * np.sin(2 * np.pi * 0.4 * MOMENTS)

    smooth = low_pass(heights, rate_hz=RATE_HZ, cut_off_hz=6.0)
    speeds = np.gradient(smooth, 1 / RATE_HZ)

    other = savgol_filter(heights, 11, 3, deriv=1, delta=1 / RATE_HZ)
    np.testing.assert_allclose(speeds[50:-50], other[50:-50], atol=0.002)


def test_a_running_median_leaves_out_what_is_single() -> None:
    values = np.ones(20)
    values[10] = 100.0

    assert running_median(values, width=5).tolist() == [1.0] * 20
