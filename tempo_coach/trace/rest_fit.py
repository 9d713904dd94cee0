"""The fit of what a rest of the bar should show to the samples around it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto
from itertools import product

import numpy as np

from tempo_coach.core.bar_motion import Floats, rise
from tempo_coach.trace.least_squares import Reckoned, best_near

LEAST_RISE_S = 0.03
"""Nobody gets a loaded bar to its speed, or to rest, any faster. Ours, by choice."""
_STARTS = (0.06, 0.3, 1.3)
"""Rises to begin the fit from, as shares of what there is room for: from a steady pace to a
minimum-jerk movement."""
_RESTS = (1.0, 0.1)
"""Lengths of the rest to begin from, as shares of the rough one, which is too long."""
DRIFT_M_S = 0.0005
"""Standard deviation of the drift of heights, 3 cm a minute. Ours, by choice."""
ERROR_M_S = 0.005
"""The same of what a speed shows at rest, once its mean is taken out. Ours, by choice."""


class Side(Enum):
    """A way beside a rest."""

    ARRIVING = auto()
    LEAVING = auto()


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


@dataclass(frozen=True, slots=True, eq=False)
class Fitted:
    """Parameters, and how well they fit."""

    given: Floats
    cost: float
    """The sum of squares that is left over."""
    sudden: frozenset[Side]
    """The ways that are taken to set off, or to end, suddenly."""


class RestFit:
    """The fit of one rest: its moments and rises; all else follows by linear least squares.

    The parameters are when the bar arrives (or, if only that matters, leaves), how long the fall
    before it takes, how long the rise after it, and how long the rest is; those alone that matter.
    """

    def __init__(
        self, times_s: Floats, values: Floats, rough: Rough, order: int, noise: float
    ) -> None:
        self._times_s, self._order = times_s, order
        self._sudden: frozenset[Side] = frozenset()
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

    def other_sides(self) -> Iterator[frozenset[Side]]:
        """Yield the sides that there are, which may set off suddenly."""
        if self._arrives:
            yield frozenset({Side.ARRIVING})
        if self._leaves:
            yield frozenset({Side.LEAVING})

    @property
    def points(self) -> int:
        """How many samples are fitted."""
        return int(self._times_s.size)

    def from_start(self, start: Floats, sudden: frozenset[Side] = frozenset()) -> Fitted:
        """Return the nearest best parameters, and how much is left over."""
        self._sudden = sudden
        both = self._arrives and self._leaves
        rises_s = [self._before_s] * self._arrives + [self._after_s] * self._leaves
        span_s = self._last_s - self._first_s
        least = [self._first_s, *([LEAST_RISE_S] * len(rises_s)), *([0.0] * both)]
        most = [self._last_s, *(2.5 * one for one in rises_s), *([span_s] * both)]
        given, cost = best_near(start, self._reckoned, least=np.array(least), most=np.array(most))
        return Fitted(given, cost, sudden)

    def rest(self, fitted: Fitted) -> Rest:
        """Return the rest that parameters stand for."""
        found = fitted.given
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
            column, by_time, by_rise = self._way(at_s - times_s, given[place], Side.ARRIVING)
            slopes += [(0, len(columns), by_time), (place, len(columns), by_rise)]
            columns.append(column)
            place += 1
        if self._leaves:
            leaves_s = at_s + given[-1] if self._arrives else at_s
            column, by_time, by_rise = self._way(times_s - leaves_s, given[place], Side.LEAVING)
            slopes += [(0, len(columns), -by_time), (place, len(columns), by_rise)]
            if self._arrives:
                slopes.append((count - 1, len(columns), -by_time))
            columns.append(column)
        matrix = np.zeros((times_s.size + 1, len(columns)))
        for column_place, column in enumerate(columns):
            matrix[:-1, column_place] = column
        matrix[-1, len(self._level) - 1] = self._weight
        # Normal equations: four columns, and several times as fast as a decomposition.
        square = matrix.T @ matrix
        # A way that lies outside the samples has a column of zeros.
        diagonal = square.ravel()[:: len(columns) + 1]
        diagonal += 1e-12 * diagonal.sum()
        inverse = np.linalg.inv(square)
        sizes = inverse @ (matrix.T @ self._values)
        changed = np.zeros((matrix.shape[0], count))
        for parameter, column_place, slope in slopes:
            changed[: times_s.size, parameter] += slope * sizes[column_place]
        # What level and speeds make good again is no change (Kaufman's variable projection).
        changed -= matrix @ (inverse @ (matrix.T @ changed))
        return self._values - matrix @ sizes, -changed

    def _way(self, since_s: Floats, rise_s: float, side: Side) -> tuple[Floats, Floats, Floats]:
        """Return a way that begins at 0, and how it changes with time and with its rise."""
        order, u, is_sudden = self._order, since_s / rise_s, side in self._sudden
        here, next_ = (rise(u, order=one, is_sudden=is_sudden) for one in (order, order + 1))
        scale = rise_s**-order
        return here * (scale * rise_s), next_ * scale, ((1 - order) * here - u * next_) * scale
