"""How long the phases of a whole set lasted, where only some of them were measured."""

from __future__ import annotations

from collections.abc import Sequence

from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.tempo import Phase
from tempo_coach.core.work import PhaseTimes, added

_NOTHING = PhaseTimes()


def measured_times(
    reps: Sequence[MeasuredRep],
    *,
    paced: PhaseTimes,
    shape: RepShape,
    broken_off: PhaseTimes = _NOTHING,
) -> PhaseTimes:
    """Add up the lifter's own work over the reps of a set.

    Parameters
    ----------
    reps
        As they were measured.
    paced
        One rep as it was paced, which counts where nothing was measured.
    shape
        What spotters and pins do of a rep is no work of the lifter's, measured or not.
    broken_off
        What had elapsed of a rep that was not completed.
    """
    return added((*(_times(rep, paced, shape) for rep in reps), broken_off))


def _times(rep: MeasuredRep, paced: PhaseTimes, shape: RepShape) -> PhaseTimes:
    def spent_ms(phase: Phase) -> int:
        measured_ms = rep.of(phase)
        if measured_ms is None:
            return paced.of(phase)
        return measured_ms if shape.counts(phase) else 0

    return PhaseTimes(**{f"{phase}_ms": spent_ms(phase) for phase in Phase})
