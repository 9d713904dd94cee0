"""When the bar comes to rest, and when it sets off again, to within a few milliseconds.

A threshold of speed finds the end of a slow lower late by as much as a tenth of it, and the more so
the slower it is. So the samples around a rest are fitted with what they should show: a way whose
speed falls to nothing, a rest of any length or none, a way whose speed rises from nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import numpy as np

from tempo_coach.core.bar_motion import Floats, rise
from tempo_coach.trace.filters import fitted
from tempo_coach.trace.samples import Samples

LEAST_RISE_S = 0.03
"""Nobody gets a loaded bar to its speed, or to rest, any faster. Ours, by choice."""
_MOST_POINTS = 400
"""For one fit; more are averaged."""
_STARTS = (0.25, 1.3)
"""Rises to begin the fit from, as shares of what there is room for: a steady pace, and a
minimum-jerk movement."""
_RESTS = (1.0, 0.1)
"""Lengths of the rest to begin from, as shares of the rough one, which is too long."""


@dataclass(frozen=True, slots=True)
class Rough:
    """A rest as it is known before the fit."""

    from_s: float
    """Middle of the way before it, or where its samples begin if there is none."""
    arrives_s: float | None
    """About when the bar comes to rest; None where nothing before it matters."""
    leaves_s: float | None
    to_s: float
    """Middle of the way after it, or where its samples end."""


@dataclass(frozen=True, slots=True)
class Rest:
    """A rest of the bar; one without length is a turning point."""

    arrives_s: float | None
    """When the bar comes to rest; None where that can't be told."""
    leaves_s: float | None
    """When it sets off again."""


def rest_of(samples: Samples, rough: Rough) -> Rest:
    """Return when a rest really begins and ends."""
    inside = slice(*np.searchsorted(samples.times_s, [rough.from_s, rough.to_s]))
    times_s, values = _thinned(samples.times_s[inside], samples.values[inside])
    if times_s.size < 6:
        return Rest(None, None)
    found = _fit(times_s, values, rough, order=samples.quantity.order)
    near_s = 1.5 / samples.rate_hz
    arrives_s, leaves_s = (
        None if at_s is None or samples.is_missing(at_s, around_s=near_s) else at_s
        for at_s in (found.arrives_s, found.leaves_s)
    )
    return Rest(arrives_s, leaves_s)


def _thinned(times_s: Floats, values: Floats) -> tuple[Floats, Floats]:
    size = -(-times_s.size // _MOST_POINTS)
    if size < 2:
        return times_s, values
    count = times_s.size // size
    shape = (count, size)
    return (
        times_s[: count * size].reshape(shape).mean(axis=1),
        values[: count * size].reshape(shape).mean(axis=1),
    )


def _fit(times_s: Floats, values: Floats, rough: Rough, *, order: int) -> Rest:
    """Fit moments and rises; level and speeds follow from them by linear least squares."""
    first_s, last_s = float(times_s[0]), float(times_s[-1])
    start_s = rough.arrives_s if rough.arrives_s is not None else rough.leaves_s
    assert start_s is not None  # noqa: S101 - a rest has at least one end
    has_arrival, has_leaving = rough.arrives_s is not None, rough.leaves_s is not None
    rest_s = max((rough.leaves_s or start_s) - start_s, 0.0)

    def columns(given: Floats) -> list[Floats]:
        found = [np.ones_like(times_s)]
        place = 1
        at_s = given[0]
        if has_arrival:
            rise_s = given[place]
            place += 1
            found.append(rise((at_s - times_s) / rise_s, order=order) * rise_s ** (1 - order))
        if has_leaving:
            rise_s = given[place]
            if has_arrival:
                at_s = at_s + given[place + 1]
            found.append(rise((times_s - at_s) / rise_s, order=order) * rise_s ** (1 - order))
        return found

    def left_over(given: Floats) -> Floats:
        matrix = np.stack(columns(given), axis=1)
        # Normal equations: three columns, and several times as fast as a decomposition.
        square = matrix.T @ matrix
        square[np.diag_indices_from(square)] += 1e-12 * np.trace(square)
        solved = np.linalg.solve(square, matrix.T @ values)
        return np.asarray(values - matrix @ solved, dtype=np.float64)

    before_s = max(start_s - first_s, 2 * LEAST_RISE_S)
    after_s = max(last_s - (start_s + rest_s), 2 * LEAST_RISE_S)
    best, best_cost = None, np.inf
    shares = product(_STARTS, _RESTS if has_arrival and has_leaving else (1.0,))
    for share, kept in shares:
        start, least, most, scale = [start_s], [first_s], [last_s], [0.05]
        if has_arrival:
            start.append(max(share * before_s, 1.1 * LEAST_RISE_S))
            least.append(LEAST_RISE_S)
            most.append(2.5 * before_s)
            scale.append(0.2 * before_s)
        if has_leaving:
            start.append(max(share * after_s, 1.1 * LEAST_RISE_S))
            least.append(LEAST_RISE_S)
            most.append(2.5 * after_s)
            scale.append(0.2 * after_s)
        if has_arrival and has_leaving:
            # What is left out of the rest is shared out between both sides of it.
            start[0] += (1 - kept) * rest_s / 2
            start.append(kept * rest_s)
            least.append(0.0)
            most.append(last_s - first_s)
            scale.append(0.05)
        found, cost = fitted(left_over, start=start, least=least, most=most, scale=scale)
        if cost < best_cost:
            best, best_cost = found, cost
    assert best is not None  # noqa: S101 - there are two starts
    if not has_leaving:
        return Rest(float(best[0]), None)
    if not has_arrival:
        return Rest(None, float(best[0]))
    return Rest(float(best[0]), float(best[0] + best[-1]))
