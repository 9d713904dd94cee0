"""Speeds from accelerations, which alone can't tell a rest from a steady pace.

What a device feels while nothing moves is gravity and its own error. Added up, both grow without
end, so the sum is set to nothing wherever the bar rests (zero-velocity updates). A quiet stretch is
a rest only if the speed added up since the last rest is no more than noise explains by then: a slow
lower is quiet too, but has a speed.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from tempo_coach.core.bar_motion import Floats
from tempo_coach.trace.filters import low_pass

_QUIET_S = 0.2
"""A shorter quiet stretch is no rest: it may be a way's middle. Ours, by choice."""
_QUIET_HZ = 4.0
_SURE = 3.0
"""Standard deviations that noise may explain."""
_UNKNOWN_M_S = 0.004
"""A speed that is not known better, whatever the noise."""
_UNKNOWN_SHARE_S = 0.5
"""Over the rate, the same as a share of the greatest speed since the last rest: what lies between
two samples is not known. Ours, by choice."""


def felt_speed(values: Floats, *, rate_hz: float, noise: float) -> Floats:
    """Return speeds that are nothing at rests.

    Parameters
    ----------
    values
        float64 ``(n,)``; accelerations, evenly spaced, with whatever is felt at rest. The first
        and the last are taken to be at rest.
    rate_hz
        Samples a second.
    noise
        Standard deviation of a value.
    """
    felt = values - values.mean()
    quiet = list(_quiet_middles(felt, rate_hz, noise))
    speeds = added_up(felt, rate_hz)
    for _ in range(2):
        places = sorted({0, *_rests(speeds, quiet, rate_hz, noise), speeds.size - 1})
        speeds = speeds - np.interp(np.arange(speeds.size), places, _around(speeds, places))
    return speeds


def added_up(values: Floats, rate_hz: float) -> Floats:
    """Return the sum of values over time, from 0 on, by trapezoids."""
    steps = (values[1:] + values[:-1]) / (2 * rate_hz)
    return np.concatenate(([0.0], np.cumsum(steps)))


def _around(speeds: Floats, places: list[int]) -> Floats:
    return np.asarray(speeds[places], dtype=np.float64)


def _quiet_middles(felt: Floats, rate_hz: float, noise: float) -> Iterator[int]:
    """Yield places all over each stretch without acceleration."""
    smooth = low_pass(felt, rate_hz=rate_hz, cut_off_hz=_QUIET_HZ)
    most = _SURE * noise * min((2 * _QUIET_HZ / rate_hz) ** 0.5, 1.0) + 0.02
    edges = np.flatnonzero(np.diff(np.concatenate(([0], np.abs(smooth) < most, [0]))))
    width = max(round(_QUIET_S * rate_hz), 3)
    for begins, ends in edges.reshape(-1, 2):
        if ends - begins >= width:
            # Its ends belong to the ways beside it.
            inner = width // 3
            yield from range(int(begins) + inner, int(ends) - inner, max(width // 2, 1))


def _rests(speeds: Floats, quiet: list[int], rate_hz: float, noise: float) -> set[int]:
    """Tell which quiet places are rests, from both ends: a jump must not hide all behind it."""
    forward = _rests_from(speeds, quiet, 0, rate_hz, noise)
    backward = _rests_from(speeds, quiet[::-1], speeds.size - 1, rate_hz, noise)
    return forward | backward


def _rests_from(
    speeds: Floats, quiet: list[int], first: int, rate_hz: float, noise: float
) -> set[int]:
    rests = set()
    last, fastest = first, 0.0
    before = first
    for place in quiet:
        between = speeds[min(before, place) : max(before, place) + 1] - speeds[last]
        fastest = max(fastest, float(np.abs(between).max(initial=0.0)))
        before = place
        walk = noise**2 * abs(place - last) / rate_hz**2
        spread = (walk + _UNKNOWN_M_S**2 + (_UNKNOWN_SHARE_S / rate_hz * fastest) ** 2) ** 0.5
        if abs(speeds[place] - speeds[last]) < _SURE * spread:
            rests.add(place)
            last, fastest = place, 0.0
    return rests
