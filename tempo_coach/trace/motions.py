"""How far and how fast the bar went in a rep."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tempo_coach.core.cut_set import Stretch
from tempo_coach.core.measured_rep import Motion
from tempo_coach.core.tempo import Phase
from tempo_coach.trace.bar_path import BarPath
from tempo_coach.trace.filters import low_pass

_PER_WAY = 4.0
"""Swings in the length of a way that are kept for its speeds: a minimum-jerk movement loses under
one hundredth of its peak, and a slow lower is not mistaken for its noise. Ours, by choice."""
_SLOWEST_HZ, _FASTEST_HZ = 1.0, 10.0


def motion_of(path: BarPath, stretches: Sequence[Stretch]) -> Motion | None:
    """Return a rep's range and speeds; None where none of its ways was measured."""
    speeds: dict[Phase, tuple[float, float]] = {}
    ranges = []
    for phase in (Phase.LOWER, Phase.RAISE):
        ways = [one for one in stretches if one.phase is phase]
        begins_s, ends_s = ways[0].begins_s, ways[-1].ends_s
        if begins_s is None or ends_s is None or ends_s <= begins_s:
            continue
        edges_m = np.interp([begins_s, ends_s], path.times_s, path.height_m)
        range_m = abs(float(edges_m[1] - edges_m[0]))
        ranges.append(range_m)
        spent_s = sum((one.lasts_ms or 0) for one in ways) / 1000
        mean = range_m / spent_s
        speeds[phase] = (mean, max(_peak(path, begins_s, ends_s), mean))
    if not ranges:
        return None
    none = (None, None)
    lower, raised = speeds.get(Phase.LOWER, none), speeds.get(Phase.RAISE, none)
    return Motion(max(ranges), *lower, *raised)


def _peak(path: BarPath, begins_s: float, ends_s: float) -> float:
    """Return the greatest speed on a way, smoothed as its length allows."""
    cut_off_hz = float(np.clip(_PER_WAY / (ends_s - begins_s), _SLOWEST_HZ, _FASTEST_HZ))
    # Only what lies on the way: a fast one beside it would colour it.
    inside = slice(path.index(begins_s), path.index(ends_s) + 1)
    smooth = low_pass(path.height_m[inside], rate_hz=path.rate_hz, cut_off_hz=cut_off_hz)
    return float(np.abs(np.diff(smooth)).max(initial=0.0)) * path.rate_hz
