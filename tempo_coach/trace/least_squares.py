"""The nearest parameters within bounds that leave the least sum of squares over."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

import numpy as np

from tempo_coach.core.bar_motion import Floats

Reckoned: TypeAlias = tuple[Floats, Floats]
"""What is left over, ``(n,)``, and its derivatives by each parameter, ``(n, parameters)``."""
_MOST_STEPS = 40
_ENOUGH = 1e-6
"""Share of the sum below which a step gains too little for another."""


def best_near(
    start: Floats, reckon: Callable[[Floats], Reckoned], *, least: Floats, most: Floats
) -> tuple[Floats, float]:
    """Return the parameters, and the sum of squares (Levenberg 1944, Marquardt 1963).

    Ten times as fast as SciPy's for a few parameters and hundreds of values.

    Parameters
    ----------
    start
        float64 ``(parameters,)``; where to begin.
    reckon
        Gives what is left over, and its derivatives.
    least
        Lower bounds.
    most
        Upper bounds.
    """
    found = np.clip(start, least, most)
    left_over, slopes = reckon(found)
    cost, damping = float(left_over @ left_over), 0.01
    for _ in range(_MOST_STEPS):
        square, gradient = slopes.T @ slopes, slopes.T @ left_over
        # What is at its bound, and would go beyond, stays.
        free = ~(((found <= least) & (gradient > 0)) | ((found >= most) & (gradient < 0)))
        if not free.any():
            break
        part = square[np.ix_(free, free)]
        diagonal = part.ravel()[:: part.shape[0] + 1]
        diagonal *= 1 + damping
        diagonal += 1e-15 * diagonal.sum() + 1e-300
        step = np.zeros_like(found)
        step[free] = np.linalg.solve(part, -gradient[free])
        tried = np.clip(found + step, least, most)
        left_over_there, slopes_there = reckon(tried)
        cost_there = float(left_over_there @ left_over_there)
        if cost_there < cost:
            gain = (cost - cost_there) / cost
            found, left_over, slopes, cost = tried, left_over_there, slopes_there, cost_there
            damping *= 0.3
            if gain < _ENOUGH:
                break
        else:
            damping *= 5
            if damping > 1e6:
                break
    return found, cost
