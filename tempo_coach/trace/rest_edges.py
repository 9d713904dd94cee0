"""When the bar comes to rest, and when it sets off again, to within a few milliseconds.

A threshold of speed finds the end of a slow lower late by as much as a tenth of it, and the more so
the slower it is. So the samples around a rest are fitted with what they should show: a way whose
speed falls to nothing, a rest of any length or none, a way whose speed rises from nothing.
"""

from __future__ import annotations

import math

import numpy as np

from tempo_coach.core.bar_motion import Floats
from tempo_coach.trace.rest_fit import Fitted, Rest, RestFit, Rough
from tempo_coach.trace.samples import Samples

_FEWEST_POINTS = 6
_COARSE_POINTS, _MOST_POINTS = 120, 400
"""For a fit, at first and at last; more samples are averaged."""
_MUCH_LIKELIER = 20.0
"""Twice the logarithm of a likelihood ratio, from which another shape is believed. Ours."""


def rest_of(samples: Samples, rough: Rough, *, tries_sudden: bool = True) -> Rest:
    """Return when a rest really begins and ends.

    Parameters
    ----------
    samples
        Those of the trace.
    rough
        The rest as it is known before.
    tries_sudden
        Also tries ways that set off suddenly. What is cut off in the middle looks like one.
    """
    inside = slice(*np.searchsorted(samples.times_s, [rough.from_s, rough.to_s]))
    times_s, values = samples.times_s[inside], samples.values[inside]
    if times_s.size < _FEWEST_POINTS:
        return Rest(None, None)
    found = _fitted(times_s, values, rough, samples, tries_sudden=tries_sudden)
    near_s = 1.5 / samples.rate_hz
    arrives_s, leaves_s = (
        None if at_s is None or samples.is_missing(at_s, around_s=near_s) else at_s
        for at_s in (found.arrives_s, found.leaves_s)
    )
    return Rest(arrives_s, leaves_s)


def _fitted(
    times_s: Floats, values: Floats, rough: Rough, samples: Samples, *, tries_sudden: bool
) -> Rest:
    """Fit coarsely from several starts, finely from the best; then try ways that set off suddenly.

    These are only taken where the samples ask for them: both fit what is within noise.
    """
    order = samples.quantity.order
    coarse = RestFit(*_thinned(times_s, values, _COARSE_POINTS), rough, order, samples.noise)
    fine = RestFit(*_thinned(times_s, values, _MOST_POINTS), rough, order, samples.noise)
    best = min((coarse.from_start(start) for start in coarse.starts()), key=lambda one: one.cost)
    found = fine.from_start(best.given, best.sudden)
    for sides in fine.other_sides() if tries_sudden else ():
        tried = coarse.from_start(best.given, best.sudden | sides)
        tried = fine.from_start(tried.given, tried.sudden)
        if not _is_much_likelier(tried, found, fine.points):
            continue
        # The usual shape may only have been fitted badly: once more from where this one led.
        again = fine.from_start(tried.given, found.sudden)
        best = found = tried if _is_much_likelier(tried, again, fine.points) else again
    return fine.rest(found)


def _is_much_likelier(one: Fitted, than: Fitted, points: int) -> bool:
    return points * math.log(max(than.cost, 1e-300) / max(one.cost, 1e-300)) > _MUCH_LIKELIER


def _thinned(times_s: Floats, values: Floats, most: int) -> tuple[Floats, Floats]:
    """Return means of so many samples each that no more than `most` are left."""
    size = -(-times_s.size // most)
    if size < 2:
        return times_s, values
    count = times_s.size // size
    shape = (count, size)
    return (
        times_s[: count * size].reshape(shape).mean(axis=1),
        values[: count * size].reshape(shape).mean(axis=1),
    )
