"""Where daily loads are going: smoothed means, monotony and strain; no prediction of anything."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

SHORT_DAYS = 7
LONG_DAYS = 28
SETTLED_DAYS = 56
"""From here on the first day, which both means begin with, weighs less than 2 % in the longer."""
WHY_NO_SAFE_ZONE = (
    "These figures describe what was done and in which direction it goes. They name no safe zone "
    "and predict no injury: ratios that were said to do so are disputed."
)


def ewma(loads: Sequence[float], *, span: int) -> tuple[float, ...]:
    """Return the exponentially weighted mean after each day; the first day is its own mean.

    today = λ·load + (1 - λ)·yesterday, λ = 2 / (N + 1) (Williams et al. 2017, Br J Sports Med,
    10.1136/bjsports-2016-096589).

    Parameters
    ----------
    loads
        One for each day, days without work as 0.
    span
        N, in days.

    Returns
    -------
    tuple of float
        As many as there are loads.
    """
    weight = 2 / (span + 1)
    means: list[float] = []
    for load in loads:
        means.append(load if not means else weight * load + (1 - weight) * means[-1])
    return tuple(means)


@dataclass(frozen=True, slots=True)
class WeekVariety:
    """How alike the days of one week were (Foster 1998)."""

    load: float
    """The sum over the days."""
    monotony: float | None
    """Mean daily load over its standard deviation, that of a population (divided by n); None where
    all days are alike."""

    @property
    def strain(self) -> float | None:
        """The week's load × monotony."""
        return None if self.monotony is None else self.load * self.monotony

    @classmethod
    def of(cls, loads: Sequence[float]) -> WeekVariety:
        """Return the variety of the days of a week, days without work as 0."""
        mean = math.fsum(loads) / len(loads)
        deviation = math.sqrt(math.fsum((load - mean) ** 2 for load in loads) / len(loads))
        # Days that differ by rounding alone are alike.
        is_alike = deviation <= 1e-9 * max(mean, 1.0)
        return cls(math.fsum(loads), None if is_alike else mean / deviation)
