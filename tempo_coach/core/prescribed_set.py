"""A set that was done of a prescription, as the log holds it at first."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from tempo_coach.core.fact_values import VERSION
from tempo_coach.core.facts import SHAPED_VERSION, SetDone
from tempo_coach.core.phase_seconds import PhaseSeconds
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.work import WorkDone


def prescribed_set(
    prescription: Prescription,
    done: WorkDone,
    *,
    set_id: str,
    lifter: str,
    started_at: datetime,
    ended_at: datetime,
    timing: Literal["paced", "trace"],
    load_kg: float | None = None,
) -> SetDone:
    """Return a set with what is not asked for yet left empty.

    Parameters
    ----------
    prescription
        What was to be done.
    done
        What was done of it.
    set_id
        The id it gets.
    lifter
        Who did it.
    started_at, ended_at
        When rep 1 began, and when the last phase ended.
    timing
        Where the times come from.
    load_kg
        The load in kg where the prescription alone does not say it.

    Raises
    ------
    OutOfRange
        The phases take longer than they can.
    """
    load, shape = prescription.load, prescription.shape
    lowered = shape.lower_load
    return SetDone(
        v=SHAPED_VERSION if shape else VERSION,
        id=set_id,
        lifter=lifter,
        started_at=started_at,
        ended_at=ended_at,
        exercise=prescription.exercise,
        lead="raise" if prescription.lead == "raise" else "lower",
        tempo=prescription.tempo,
        load_kg=load_kg or (None if load is None else load.kg()),
        load_as_written="" if load is None else str(load),
        reps_prescribed=prescription.reps,
        shape=shape,
        lower_load_kg=None if lowered is None else lowered.load.kg(),
        reps_done=done.reps,
        seconds=PhaseSeconds.of(done.times),
        timing=timing,
        method=prescription.method,
        effort=None,
        note="",
    )
