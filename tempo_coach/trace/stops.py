"""Stops on the way down, where the line asks for some."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from tempo_coach.core.prescription import Prescription
from tempo_coach.trace.bar_path import BarPath
from tempo_coach.trace.filters import low_pass
from tempo_coach.trace.turning_points import Turn

_SLOW = 0.3
"""A stop is slower than this share of the speed on the way. Ours, by choice."""
_SMOOTH_HZ = 3.0
_LEAST_SHARE = 0.4
"""How long a stop is at least, as a share of the one prescribed."""
_LEAST_S = 0.2


def with_stops(path: BarPath, turns: Sequence[Turn], prescription: Prescription) -> Iterator[Turn]:
    """Yield the turns of a rep, and between them the stops on its way down."""
    for before, after in zip(turns, (*turns[1:], None), strict=True):
        yield before
        if after is not None and after.height_m < before.height_m:
            yield from _stops(path, before, after, prescription)


def _stops(path: BarPath, high: Turn, low: Turn, prescription: Prescription) -> Iterator[Turn]:
    stops = prescription.shape.stops
    if stops is None or low.index - high.index < 5:
        return
    inside = slice(high.index, low.index + 1)
    heights = path.height_m[inside]
    smooth = low_pass(heights, rate_hz=path.rate_hz, cut_off_hz=_SMOOTH_HZ)
    speeds = np.abs(np.gradient(smooth)) * path.rate_hz
    done = (high.height_m - smooth) / (high.height_m - low.height_m)
    # From when the bar leaves the top for good, since a step or a fidget before it is no stop; and
    # half as far down as the first that is asked for.
    first, last = float(stops.at[0]) / 2, (1 + float(stops.at[-1])) / 2
    between = np.arange(done.size) > np.flatnonzero(done <= first).max(initial=0)
    between &= done < last
    if not between.any():
        return
    slow = _SLOW * float(np.quantile(speeds[between], 0.8))
    edges = np.flatnonzero(np.diff(np.concatenate(([0], between & (speeds < slow), [0]))))
    least = max(_LEAST_SHARE * stops.each_ms / 1000, _LEAST_S) * path.rate_hz
    found = [(ends - begins, begins, ends) for begins, ends in edges.reshape(-1, 2)]
    longest = sorted((one for one in found if one[0] >= least), reverse=True)[: len(stops.at)]
    for _, begins, ends in sorted(longest, key=lambda one: one[1]):
        height_m = float(np.median(heights[begins:ends]))
        yield Turn(high.index + int(begins + ends) // 2, height_m)
