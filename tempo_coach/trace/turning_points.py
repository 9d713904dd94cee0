"""Where the bar turns, and which of its ways up and down are the reps of a set."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from tempo_coach.core.bar_motion import Floats

LEAST_RANGE_M, MOST_RANGE_M = 0.08, 3.0
"""A smaller way is no rep, and a larger one is in another unit. Ours, by choice."""
LEAST_HYSTERESIS_M = 0.02
SMALLEST, LARGEST = 0.65, 1.45
"""How far the ways of one set may differ in range, as shares of their median. Ours, by choice."""
LONGEST_BREAK_S = 25.0
"""Without a rep for longer, another set begins. Ours, by choice."""
_LADDER = 1.4


@dataclass(frozen=True, slots=True)
class Turn:
    """A place where the bar turns, or is held."""

    index: int
    """In the row of heights."""
    height_m: float


@dataclass(frozen=True, slots=True)
class Run:
    """The turns of one set: its beginning, then two for each rep."""

    turns: tuple[Turn, ...]
    range_m: float
    """Median of its ways."""

    @property
    def reps(self) -> int:
        """How many reps it has."""
        return len(self.turns) // 2

    @property
    def way_m(self) -> float:
        """How far the bar went in all."""
        return sum(abs(to.height_m - at.height_m) for at, to in pairwise(self.turns))


def runs_of(
    height_m: Floats, *, rate_hz: float, noise_m: float, begins_high: bool
) -> tuple[Run, ...]:
    """Return the sets found in a row of heights, in the order of time.

    Ways that belong to one set have about the same range and follow one another. How far the bar
    must come back for a turn is not known beforehand, so every size is tried, and the one taken
    that leaves the longest way in reps.

    Parameters
    ----------
    height_m
        float64 ``(n,)``, evenly spaced.
    rate_hz
        Samples a second.
    noise_m
        Standard deviation of a height.
    begins_high
        A rep begins at the top, as in a squat.
    """
    least_m = max(LEAST_HYSTERESIS_M, 6 * noise_m)
    turns = turns_of(height_m, size_m=least_m)
    best: tuple[Run, ...] = ()
    best_m = 0.0
    size_m = least_m
    while len(turns) > 2 and size_m < float(np.ptp(height_m)):
        turns = list(_turns(turns, size_m))
        found = tuple(_runs(turns, rate_hz, begins_high=begins_high, least_m=10 * noise_m))
        # The longest single set decides; of equals the coarser, which small moves can't break up.
        longest_m = max((run.way_m for run in found), default=0.0)
        if found and longest_m >= 0.999 * best_m:
            best, best_m = found, longest_m
        size_m *= _LADDER
    return best


def turns_of(height_m: Floats, *, size_m: float) -> list[Turn]:
    """Return highs and lows in turn, each further than a size from the one before."""
    return list(_turns(_extremes(height_m), size_m))


def _extremes(height_m: Floats) -> list[Turn]:
    signs = np.sign(np.diff(height_m))
    moving = np.flatnonzero(signs)
    turning = moving[1:][signs[moving[1:]] != signs[moving[:-1]]]
    places = np.unique(np.concatenate(([0], turning, [height_m.size - 1])))
    return [Turn(int(at), float(height_m[at])) for at in places]


def _turns(places: Sequence[Turn], size_m: float) -> Iterator[Turn]:
    """Yield highs and lows in turn, each further than a size from the one before."""
    low = high = places[0]
    going = 0
    for place in places:
        if going >= 0 and place.height_m > high.height_m:
            high = place
        if going <= 0 and place.height_m < low.height_m:
            low = place
        if going >= 0 and high.height_m - place.height_m > size_m:
            yield high
            going, low = -1, place
        elif going <= 0 and place.height_m - low.height_m > size_m:
            yield low
            going, high = 1, place
    yield high if going > 0 else low


def _runs(
    turns: Sequence[Turn], rate_hz: float, *, begins_high: bool, least_m: float
) -> Iterator[Run]:
    ways = np.array([to.height_m - at.height_m for at, to in pairwise(turns)])
    first = next((at for at, way in enumerate(ways) if (way < 0) == begins_high), len(ways))
    there, back = np.abs(ways[first::2]), np.abs(ways[first + 1 :: 2])
    there = there[: back.size]
    smaller = np.minimum(there, back)
    if not smaller.size:
        return
    sizes = np.unique(np.quantile(smaller, np.linspace(0, 1, 13)))
    best: list[Run] = []
    for range_m in sizes:
        if not max(LEAST_RANGE_M, least_m) <= range_m <= MOST_RANGE_M:
            continue
        is_rep = (smaller > SMALLEST * range_m) & (np.maximum(there, back) < LARGEST * range_m)
        found = list(_joined(turns, first, is_rep, rate_hz))
        if _longest(found) > _longest(best):
            best = found
    yield from best


def _longest(runs: Sequence[Run]) -> float:
    return max((run.way_m for run in runs), default=0.0)


def _joined(
    turns: Sequence[Turn], first: int, is_rep: Sequence[bool] | np.ndarray, rate_hz: float
) -> Iterator[Run]:
    """Yield the runs of reps that follow one another."""
    run: list[Turn] = []
    for number, so in enumerate(is_rep):
        begins, turns_at, ends = turns[first + 2 * number : first + 2 * number + 3]
        late = run and (turns_at.index - run[-2].index) / rate_hz > LONGEST_BREAK_S * 2
        if run and (not so or late):
            yield _run(run)
            run = []
        if so:
            run += [turns_at, ends] if run else [begins, turns_at, ends]
    if run:
        yield _run(run)


def _run(turns: Sequence[Turn]) -> Run:
    ways = [abs(to.height_m - at.height_m) for at, to in pairwise(turns)]
    return Run(tuple(turns), float(np.median(ways)))
