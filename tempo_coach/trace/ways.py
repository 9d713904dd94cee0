"""One way of the bar as it is known before its ends are fitted."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tempo_coach.trace.bar_path import BarPath
from tempo_coach.trace.filters import low_pass
from tempo_coach.trace.turning_points import Turn

SLOW = 0.1
"""A way has clearly begun where its speed is above this share of what it is in the middle."""
_PER_WAY = 8.0
"""Swings in the length of a way that are kept for that."""


@dataclass(frozen=True, slots=True)
class Way:
    """A way up or down, roughly."""

    leaves_s: float
    """When it has clearly begun, which may be a little late."""
    middle_s: float
    arrives_s: float
    """When little is left of it, which may be a little early."""
    about_s: float
    """How long it takes, judged by its steep half."""


def way_of(path: BarPath, begins: Turn, ends: Turn) -> Way:
    """Return a way between two turns."""
    heights = path.height_m[begins.index : ends.index + 1]
    times_s = path.times_s[begins.index : ends.index + 1]
    done = (heights - begins.height_m) / (ends.height_m - begins.height_m)
    middle = int(np.argmax(done >= 0.5))
    quarter = np.flatnonzero(done[: middle + 1] <= 0.25)
    third = middle + np.flatnonzero(done[middle:] >= 0.75)
    steep_s = float(times_s[third[0]] - times_s[quarter[-1]])
    about_s = 2 * max(steep_s, 2 / path.rate_hz)
    smooth = low_pass(done, rate_hz=path.rate_hz, cut_off_hz=_PER_WAY / about_s)
    speeds = np.gradient(smooth) * path.rate_hz
    slow = SLOW / about_s
    before = np.flatnonzero(speeds[:middle] < slow)
    after = np.flatnonzero(speeds[middle:] < slow)
    return Way(
        float(times_s[before[-1] if before.size else 0]),
        float(times_s[middle]),
        float(times_s[middle + after[0] if after.size else -1]),
        about_s,
    )
