"""Where the bar was all along: one row of heights, whatever was recorded."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from tempo_coach.core.bar_motion import Floats
from tempo_coach.core.trace import Quantity
from tempo_coach.trace.felt_speed import added_up, felt_speed
from tempo_coach.trace.filters import low_pass
from tempo_coach.trace.samples import Samples

COARSE_HZ = 50.0
"""The row's rate, at most: it is only to find the reps and to be drawn."""
CUT_OFF_HZ = 10.0
"""Of the row's smoothing: a raise of half a second keeps its shape. Ours, by choice."""


@dataclass(frozen=True, slots=True, eq=False)
class BarPath:
    """Heights in an even row, and the samples that they come from."""

    samples: Samples
    times_s: Floats
    height_m: Floats
    """Above an unknown zero, smoothed."""
    rate_hz: float
    noise_m: float
    """Standard deviation of a height, as far as it is known."""
    slope_m_s: float = 0.0
    """What was taken out as drift."""

    def levelled(self, slope_m_s: float) -> BarPath:
        """Return the same path without a drift of so many metres a second."""
        since_s = self.times_s - self.times_s[0]
        samples, order = self.samples, self.samples.quantity.order
        values = samples.values
        if order == 0:
            values = values - slope_m_s * (samples.times_s - samples.times_s[0])
        elif order == 1:
            values = values - slope_m_s
        return replace(
            self,
            samples=replace(samples, values=values),
            height_m=self.height_m - slope_m_s * since_s,
            slope_m_s=self.slope_m_s + slope_m_s,
        )

    def index(self, moment_s: float) -> int:
        """Return the place in the row that is nearest to a moment."""
        at = round((moment_s - float(self.times_s[0])) * self.rate_hz)
        return min(max(at, 0), self.times_s.size - 1)


def bar_path(samples: Samples) -> BarPath:
    """Return the bar's heights; speeds are added up once, accelerations twice."""
    rate_hz = min(samples.rate_hz, COARSE_HZ)
    match samples.quantity:
        case Quantity.HEIGHT:
            times_s, height_m = samples.even(samples.rate_hz)
        case Quantity.SPEED:
            times_s, speeds = samples.even(samples.rate_hz)
            # The bar ends about where it began, so the mean is the device's own error.
            error_m_s = float(speeds.mean())
            samples = replace(samples, values=samples.values - error_m_s)
            height_m = added_up(speeds - error_m_s, samples.rate_hz)
        case Quantity.ACCELERATION:
            times_s, values = samples.even(samples.rate_hz)
            speeds = felt_speed(values, rate_hz=samples.rate_hz, noise=samples.noise)
            height_m = added_up(speeds, samples.rate_hz)
            # From here on it is as if speeds had been recorded.
            noise_m_s = samples.noise / samples.rate_hz**0.5
            samples = replace(
                samples, times_s=times_s, values=speeds, quantity=Quantity.SPEED, noise=noise_m_s
            )
    smooth = low_pass(height_m, rate_hz=samples.rate_hz, cut_off_hz=CUT_OFF_HZ)
    coarse_s = times_s[0] + np.arange(int((times_s[-1] - times_s[0]) * rate_hz) + 1) / rate_hz
    return BarPath(
        samples, coarse_s, np.interp(coarse_s, times_s, smooth), rate_hz, _noise_m(samples)
    )


def _noise_m(samples: Samples) -> float:
    """Return what a value's noise comes to in heights, over the second or so of a turn."""
    order, rate_hz = samples.quantity.order, samples.rate_hz
    if order == 0:
        return samples.noise * math.sqrt(min(2 * CUT_OFF_HZ / rate_hz, 1.0))
    return samples.noise / math.sqrt(rate_hz)
