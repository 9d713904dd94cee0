"""The set in a bar's path: which of its ways are reps, and what else there is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from tempo_coach.core.marks import counted
from tempo_coach.core.tempo import Phase
from tempo_coach.core.trace import Quantity
from tempo_coach.errors import TraceRefused
from tempo_coach.trace.bar_path import BarPath
from tempo_coach.trace.turning_points import (
    LEAST_RANGE_M,
    MOST_RANGE_M,
    Run,
    Turn,
    runs_of,
    turns_of,
)

_SURE = 4.0
"""Standard errors from which on a drift is one. Ours, by choice."""
_LEAST_DRIFT_M = 0.01
"""Over the set; less makes no difference."""
_MOST_TOLD = 3
_FIDGET = 0.25
"""A smaller part of a rep's range is no way of its own. Ours, by choice."""


@dataclass(frozen=True, slots=True, eq=False)
class FoundSet:
    """The set that a trace is taken to be of."""

    path: BarPath
    """Without drift."""
    turns: tuple[Turn, ...]
    """Its beginning, then two for each rep."""
    before: Turn | None
    """Where a way begins that leads to the set's beginning, as when a bar is picked up first."""
    after: Turn | None
    """Where one ends that leads away from its end."""
    remarks: tuple[str, ...]


def found_set(path: BarPath, *, lead: Phase) -> FoundSet:
    """Find the set with the longest way in reps.

    Raises
    ------
    TraceRefused
        There is none, and why.
    """
    runs = _runs(path, lead)
    if not runs:
        raise _refusal(path, lead)
    run = _longest(runs)
    remarks = []
    slope_m_s = _drift(path, run)
    length_s = float(path.times_s[run.turns[-1].index] - path.times_s[run.turns[0].index])
    if abs(slope_m_s) * length_s > _LEAST_DRIFT_M:
        level = path.levelled(slope_m_s)
        if again := _runs(level, lead):
            path, runs, run = level, again, _longest(again)
            remarks.append(_drift_words(path, slope_m_s))
    remarks += _others(path, runs, run)
    remarks += _uncounted(path, runs, run)
    return FoundSet(path, run.turns, *_around(path, run), tuple(remarks))


def _runs(path: BarPath, lead: Phase) -> tuple[Run, ...]:
    return runs_of(
        path.height_m,
        rate_hz=path.rate_hz,
        noise_m=path.noise_m,
        begins_high=lead is Phase.LOWER,
    )


def _longest(runs: Sequence[Run]) -> Run:
    return max(runs, key=lambda run: run.way_m)


def _drift(path: BarPath, run: Run) -> float:
    """Return by how much highs and lows climb, in m/s; 0 where that is no more than scatter."""
    rows = []
    for side in (run.turns[::2], run.turns[1::2]):
        times_s = np.array([path.times_s[turn.index] for turn in side])
        heights_m = np.array([turn.height_m for turn in side])
        rows.append((times_s - times_s.mean(), heights_m - heights_m.mean()))
    times_s, heights_m = (np.concatenate(parts) for parts in zip(*rows, strict=True))
    # Two means and a slope are taken from them.
    if times_s.size < 6:
        return 0.0
    square = float(times_s @ times_s)
    slope_m_s = float(times_s @ heights_m) / square
    left_over = heights_m - slope_m_s * times_s
    error = float(left_over @ left_over / (times_s.size - 3) / square) ** 0.5
    return slope_m_s if abs(slope_m_s) > _SURE * error else 0.0


def _drift_words(path: BarPath, slope_m_s: float) -> str:
    if path.samples.quantity is Quantity.HEIGHT:
        return f"A drift of {slope_m_s * 6000:.1f} cm a minute was taken out."
    return f"A drift of {slope_m_s:.3f} m/s was taken out of the speed."


def _around(path: BarPath, run: Run) -> tuple[Turn | None, Turn | None]:
    """Return the turns before and after a run, where the ways between are no mere fidgets."""
    size_m = run.range_m * _FIDGET
    turns = turns_of(path.height_m, size_m=size_m)
    first, last = (sum(turn.index for turn in ends) / 2 for ends in (run.turns[:2], run.turns[-2:]))
    begins = [turn for turn in turns if turn.index <= first][-2::-1]
    ends = [turn for turn in turns if turn.index >= last][1:]
    before, after = (
        next((turn for turn in side[:1] if abs(turn.height_m - to.height_m) > size_m), None)
        for side, to in ((begins, run.turns[0]), (ends, run.turns[-1]))
    )
    # Of a flat top either end may be the turn.
    return (
        before if before and before.index < run.turns[0].index else None,
        after if after and after.index > run.turns[-1].index else None,
    )


def _others(path: BarPath, runs: Sequence[Run], run: Run) -> Iterator[str]:
    others = [one for one in runs if one is not run]
    if others:
        places = ", ".join(
            f"{counted(one.reps, 'rep')} at {path.times_s[one.turns[0].index]:.0f} s"
            for one in others[:_MOST_TOLD]
        )
        more = " and more" if len(others) > _MOST_TOLD else ""
        begins_s = float(path.times_s[run.turns[0].index])
        yield (
            f"The set at {begins_s:.0f} s is compared, and {counted(len(others), 'other')} left "
            f"out ({places}{more}): --from and --to choose."
        )


def _uncounted(path: BarPath, runs: Sequence[Run], run: Run) -> Iterator[str]:
    """Say which ways about as long as a rep's belong to no rep."""
    size_m = run.range_m / 2
    spans = [(one.turns[0].index, one.turns[-1].index) for one in runs]
    ways = [
        (float(path.times_s[at.index]), to.height_m - at.height_m)
        for at, to in pairwise(turns_of(path.height_m, size_m=size_m))
        if not any(begins <= (at.index + to.index) / 2 <= ends for begins, ends in spans)
    ]
    for at_s, way_m in ways[:_MOST_TOLD]:
        word = "up" if way_m > 0 else "down"
        yield f"A way of {abs(way_m):.2f} m {word} at {at_s:.0f} s is part of no rep."
    if len(ways) > _MOST_TOLD:
        yield f"So are {len(ways) - _MOST_TOLD} more ways."


def _refusal(path: BarPath, lead: Phase) -> TraceRefused:
    """Say why there is no set."""
    reach_m = float(np.ptp(path.height_m))
    if reach_m < LEAST_RANGE_M:
        return TraceRefused(
            f"no rep was found: the bar moves by no more than {reach_m:.3f} m",
            hint=f"a rep is at least {LEAST_RANGE_M} m; is the unit another? --unit cm",
        )
    other = Phase.RAISE if lead is Phase.LOWER else Phase.LOWER
    if found := _runs(path, other):
        reps = counted(_longest(found).reps, "rep")
        return TraceRefused(
            f"no rep that begins with the {lead} was found",
            hint=f"with 'lead {other}' on the line, or with --down-positive, {reps} can be found",
        )
    if path.samples.recorded is Quantity.ACCELERATION:
        return TraceRefused(
            "no rep was found in the heights that these accelerations add up to",
            hint="slow ways can't be told from the device's own error, nor fast ones at few "
            "samples a second: record at 100 or more, or record heights or speeds",
        )
    if reach_m > 2 * MOST_RANGE_M:
        return TraceRefused(
            f"no rep was found: the bar moves by {reach_m:.4g} m",
            hint=f"a rep is at most {MOST_RANGE_M:g} m; is the unit another? --unit cm",
        )
    return TraceRefused(
        f"no rep was found: the bar moves by {reach_m:.2f} m, but not there and back in alike "
        "ways, or no further than noise lets tell",
        hint="give the part with the set (--from, --to), or another column",
    )
