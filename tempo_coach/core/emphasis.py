"""Which work is lowering-emphasis work, and which of it is overloaded."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import timedelta
from functools import cache

from tempo_coach.core.facts import SetDone
from tempo_coach.core.maxes import KnownMax, max_for
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.overload import asks_for_clearance
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.strength import LifterRecord
from tempo_coach.core.tempo import Allowances, Phase, Tempo, lower_seconds
from tempo_coach.core.weeks import IsoWeek

SLOW_FROM_MS = 3_000
"""A lower from here on is lowering-emphasis work, where a plan says nothing else. Common practice,
no source."""
OVERLOAD_BREAK_WEEKS = 2
"""Common practice, no source."""


def is_emphasis(tempo: Tempo, shape: RepShape, *, slow_from_ms: int = SLOW_FROM_MS) -> bool:
    """Tell whether reps train the lowering more than ordinary ones do.

    A slow lower does, and so do lowering only, stops on the way down, one side lowering what two
    raised, and more lowered than raised.
    """
    if shape.only is Phase.RAISE:
        return False
    if shape.only or shape.stops or shape.lower_load or shape.lowers_on_one_side:
        return True
    return isinstance(tempo.lower, int) and tempo.lower >= slow_from_ms


def overloads(
    sets: Iterable[SetDone], *, record: LifterRecord, allowances: Allowances
) -> tuple[SetDone, ...]:
    """Return the sets that lowered more than the lifter could raise when they were done.

    Parameters
    ----------
    sets
        The lifter's.
    record
        The lifter's. Where it has no 1RM of an exercise, only what a set says of itself counts.
    allowances
        What stands in for X, V and A.
    """
    known = cache(lambda exercise: [m for m in record.known(exercise) if m.what == "lifted"])
    return tuple(one for one in sets if _was_overload(one, known(one.exercise), allowances))


def _was_overload(done: SetDone, lifted: Sequence[KnownMax], allowances: Allowances) -> bool:
    day, lower_s = done.started_at.date(), lower_seconds(done.tempo, allowances)
    # Where all were tested later, the first is as near as can be told.
    held = max_for([one for one in lifted if one.on <= day] or lifted[:1], lower_s=lower_s)
    lowered = done.lower_load_kg or done.load_kg
    if held is not None and lowered is not None and done.shape.counts(Phase.LOWER):
        return lowered > held.load_kg
    return done.method in set(MethodName) and asks_for_clearance(MethodName(done.method))


def overload_run(weeks: Sequence[IsoWeek], until: IsoWeek) -> int:
    """Return how many weeks overload has gone on without a break of two, up to a week with it."""
    first = until
    for week in sorted({week for week in weeks if week <= until}, reverse=True):
        if (first.monday() - week.monday()) // timedelta(weeks=1) > OVERLOAD_BREAK_WEEKS:
            break
        first = week
    return (until.monday() - first.monday()) // timedelta(weeks=1) + 1
