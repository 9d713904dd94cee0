"""When the bar comes to rest, and when it sets off again, to within a few milliseconds.

A threshold of speed finds the end of a slow lower late by as much as a tenth of it, and the more so
the slower it is. So the samples around a rest are fitted with what they should show: a way whose
speed falls to nothing, a rest of any length or none, a way whose speed rises from nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np

from tempo_coach.core.bar_motion import Floats, rise
from tempo_coach.trace.least_squares import Reckoned, best_near
from tempo_coach.trace.samples import Samples

LEAST_RISE_S = 0.03
"""Nobody gets a loaded bar to its speed, or to rest, any faster. Ours, by choice."""
_FEWEST_POINTS = 6
_COARSE_POINTS, _MOST_POINTS = 120, 400
"""For a fit, at first and at last; more samples are averaged."""
_STARTS = (0.06, 0.3, 1.3)
"""Rises to begin the fit from, as shares of what there is room for: from a steady pace to a
minimum-jerk movement."""
_RESTS = (1.0, 0.1)
"""Lengths of the rest to begin from, as shares of the rough one, which is too long."""
DRIFT_M_S = 0.0005
"""Standard deviation of the drift of heights, 3 cm a minute. Ours, by choice."""
ERROR_M_S = 0.005
"""The same of what a speed shows at rest, once its mean is taken out. Ours, by choice."""


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
    times_s, values = samples.times_s[inside], samples.values[inside]
    if times_s.size < _FEWEST_POINTS:
        return Rest(None, None)
    order = samples.quantity.order
    coarse = _Fit(*_thinned(times_s, values, _COARSE_POINTS), rough, order, samples.noise)
    fine = _Fit(*_thinned(times_s, values, _MOST_POINTS), rough, order, samples.noise)
    tried = [coarse.from_start(start) for start in coarse.starts()]
    best, _ = min(tried, key=lambda one: one[1])
    found = fine.rest(fine.from_start(best)[0])
    near_s = 1.5 / samples.rate_hz
    arrives_s, leaves_s = (
        None if at_s is None or samples.is_missing(at_s, around_s=near_s) else at_s
        for at_s in (found.arrives_s, found.leaves_s)
    )
    return Rest(arrives_s, leaves_s)


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


class _Fit:
    """The fit of one rest: its moments and rises; all else follows by linear least squares.

    The parameters are when the bar arrives (or, if only that matters, leaves), how long the fall
    before it takes, how long the rise after it, and how long the rest is; those alone that matter.
    """

    def __init__(
        self, times_s: Floats, values: Floats, rough: Rough, order: int, noise: float
    ) -> None:
        self._times_s, self._order = times_s, order
        self._first_s, self._last_s = float(times_s[0]), float(times_s[-1])
        self._arrives, self._leaves = rough.arrives_s is not None, rough.leaves_s is not None
        ends = [at_s for at_s in (rough.arrives_s, rough.leaves_s) if at_s is not None]
        self._start_s = ends[0]
        self._rest_s = max(ends[-1] - ends[0], 0.0)
        self._before_s = max(ends[0] - self._first_s, 2 * LEAST_RISE_S)
        self._after_s = max(self._last_s - ends[-1], 2 * LEAST_RISE_S)
        self._level = [np.ones_like(times_s)]
        if order == 0:
            self._level.append(times_s - self._start_s)
        # What a rest shows may be off and drift, but not so far that it could pass for a way.
        self._weight = noise / (ERROR_M_S if order else DRIFT_M_S)
        self._values = np.append(values, 0.0)

    def starts(self) -> Iterator[Floats]:
        """Yield what to begin from."""
        both = self._arrives and self._leaves
        for share, kept in product(_STARTS, _RESTS if both else (1.0,)):
            # What is left out of the rest is shared out between both sides of it.
            start = [self._start_s + (1 - kept) * self._rest_s / 2]
            start += [share * self._before_s] * self._arrives
            start += [share * self._after_s] * self._leaves
            yield np.array(start + [kept * self._rest_s] * both)

    def from_start(self, start: Floats) -> tuple[Floats, float]:
        """Return the nearest best parameters, and how much is left over."""
        both = self._arrives and self._leaves
        rises_s = [self._before_s] * self._arrives + [self._after_s] * self._leaves
        span_s = self._last_s - self._first_s
        least = [self._first_s, *([LEAST_RISE_S] * len(rises_s)), *([0.0] * both)]
        most = [self._last_s, *(2.5 * one for one in rises_s), *([span_s] * both)]
        return best_near(start, self._reckoned, least=np.array(least), most=np.array(most))

    def rest(self, found: Floats) -> Rest:
        """Return the rest that parameters stand for."""
        at_s = float(found[0])
        if not self._leaves:
            return Rest(at_s, None)
        return Rest(at_s, at_s + float(found[-1])) if self._arrives else Rest(None, at_s)

    def _reckoned(self, given: Floats) -> Reckoned:
        """Return what is left over with these parameters, and how each of them changes it."""
        times_s, count = self._times_s, len(given)
        columns = list(self._level)
        slopes: list[tuple[int, int, Floats]] = []
        at_s, place = given[0], 1
        if self._arrives:
            column, by_time, by_rise = self._way(at_s - times_s, given[place])
            slopes += [(0, len(columns), by_time), (place, len(columns), by_rise)]
            columns.append(column)
            place += 1
        if self._leaves:
            leaves_s = at_s + given[-1] if self._arrives else at_s
            column, by_time, by_rise = self._way(times_s - leaves_s, given[place])
            slopes += [(0, len(columns), -by_time), (place, len(columns), by_rise)]
            if self._arrives:
                slopes.append((count - 1, len(columns), -by_time))
            columns.append(column)
        matrix = np.array(columns).T
        matrix = np.vstack([matrix, np.zeros(len(columns))])
        matrix[-1, len(self._level) - 1] = self._weight
        # Normal equations: four columns, and several times as fast as a decomposition.
        square = matrix.T @ matrix
        # A way that lies outside the samples has a column of zeros.
        square[np.diag_indices_from(square)] += 1e-12 * np.trace(square)
        inverse = np.linalg.inv(square)
        sizes = inverse @ (matrix.T @ self._values)
        changed = np.zeros((matrix.shape[0], count))
        for parameter, column_place, slope in slopes:
            changed[: times_s.size, parameter] += slope * sizes[column_place]
        # What level and speeds make good again is no change (Kaufman's variable projection).
        changed -= matrix @ (inverse @ (matrix.T @ changed))
        return self._values - matrix @ sizes, -changed

    def _way(self, since_s: Floats, rise_s: float) -> tuple[Floats, Floats, Floats]:
        """Return a way that begins at 0, and how it changes with time and with its rise."""
        order, u = self._order, since_s / rise_s
        here, next_ = rise(u, order=order), rise(u, order=order + 1)
        scale = rise_s**-order
        return here * (scale * rise_s), next_ * scale, ((1 - order) * here - u * next_) * scale
