"""What SciPy does for traces: smoothing, and medians."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import median_filter
from scipy.signal import butter, sosfiltfilt

from tempo_coach.core.bar_motion import Floats

FILTER_ORDER = 2
"""Twice, there and back, so that nothing is shifted in time: the usual fourth-order zero-lag
Butterworth filter of biomechanics (common practice, no source)."""


def low_pass(values: Floats, *, rate_hz: float, cut_off_hz: float) -> Floats:
    """Return values without what is faster than a cut-off, not shifted in time.

    Parameters
    ----------
    values
        float64 ``(n,)``, evenly spaced and finite.
    rate_hz
        Samples a second.
    cut_off_hz
        Above 0; from 0.45 of the rate up nothing is filtered.
    """
    if cut_off_hz >= 0.45 * rate_hz or values.size < 3:
        return values
    sections = butter(FILTER_ORDER, cut_off_hz, fs=rate_hz, output="sos")
    # Mirrored at its ends for a whole swing of the filter, as far as there is something.
    pad = min(values.size - 1, int(rate_hz / cut_off_hz) + 3)
    return np.asarray(sosfiltfilt(sections, values, padlen=pad), dtype=np.float64)


def running_median(values: Floats, *, width: int) -> Floats:
    """Return the median around each value.

    Parameters
    ----------
    values
        float64 ``(n,)``, finite.
    width
        How many values, an odd number.
    """
    return np.asarray(median_filter(values, size=width, mode="nearest"), dtype=np.float64)
