"""A set that is known from a trace alone."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from tempo_coach.core.facts import SetDone
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.measured_work import measured_times
from tempo_coach.core.prescribed_set import prescribed_set
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.rep_shape import PLAIN
from tempo_coach.core.work import PhaseTimes, WorkDone

_NOTHING = PhaseTimes()


def traced_set(
    prescription: Prescription,
    reps: Sequence[MeasuredRep],
    *,
    set_id: str,
    lifter: str,
    started_at: datetime,
) -> SetDone:
    """Return the set that a trace holds; a phase that it does not show counts as nothing.

    The parameters are those of `prescribed_set`, with the reps found.

    Raises
    ------
    OutOfRange
        As for `prescribed_set`.
    """
    own = measured_times(reps, paced=_NOTHING, shape=prescription.shape)
    whole = measured_times(reps, paced=_NOTHING, shape=PLAIN)
    return prescribed_set(
        prescription,
        WorkDone(len(reps), own),
        set_id=set_id,
        lifter=lifter,
        started_at=started_at,
        ended_at=started_at + timedelta(milliseconds=whole.tension_ms),
        timing="trace",
    )
