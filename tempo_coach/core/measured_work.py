"""How long the phases of a whole set lasted, where only some of them were measured."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from tempo_coach.core.facts import SetDone
from tempo_coach.core.measured_facts import Means, SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.tempo import Allowances, Phase
from tempo_coach.core.timeline import rep_times
from tempo_coach.core.work import PhaseTimes, added

_NOTHING = PhaseTimes()


def measured_set(
    done: SetDone,
    reps: Sequence[MeasuredRep],
    *,
    by: Means,
    at: datetime,
    allowances: Allowances,
) -> SetMeasured:
    """Return what a set is found to have been.

    Parameters
    ----------
    done
        The set as it counts so far.
    reps
        Those that were found, at least one.
    by
        How they were measured; taps leave what had elapsed of a last rep as it was paced.
    at
        When.
    allowances
        What a phase without a prescribed length was paced with.

    Raises
    ------
    OutOfRange
        The reps take longer than a set can.
    """
    paced = rep_times(done.tempo, allowances, done.shape)
    broken_off = done.seconds.times() - paced.times(done.reps_done)
    times = measured_times(
        reps,
        paced=paced,
        shape=done.shape,
        broken_off=broken_off if by == "tapped" else _NOTHING,
    )
    return SetMeasured.of(done.id, reps, times=times, by=by, at=at)


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
