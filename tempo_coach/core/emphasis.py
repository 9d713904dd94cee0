"""Which work is lowering-emphasis work, and which of it is overloaded."""

from __future__ import annotations

from tempo_coach.core.facts import SetDone
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.overload import asks_for_clearance
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.tempo import Phase, Tempo

SLOW_FROM_MS = 3_000
"""A lower from here on is lowering-emphasis work, where a plan says nothing else. Common practice,
no source."""


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


def was_overload(done: SetDone, *, max_kg: float | None) -> bool:
    """Tell whether a set lowered more than the lifter can raise.

    Parameters
    ----------
    done
        The set.
    max_kg
        The greatest load raised once, where it is known; without it only what the set says of
        itself counts.
    """
    lowered = done.lower_load_kg or done.load_kg
    if max_kg is not None and lowered is not None and done.shape.counts(Phase.LOWER):
        return lowered > max_kg
    return done.method in set(MethodName) and asks_for_clearance(MethodName(done.method))
