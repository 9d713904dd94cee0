"""How the tempo of one set was kept, whoever measured it."""

from __future__ import annotations

from tempo_coach.core.adherence import Adherence, Band, adherence
from tempo_coach.core.facts import SetDone
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep


def set_adherence(done: SetDone, measured: SetMeasured | None, *, band: Band) -> Adherence | None:
    """Return how a set was kept; None where nobody measured it.

    Parameters
    ----------
    done
        The set. One that was measured as a whole has the mean of its lowers for each of them.
    measured
        How its reps were measured; None where nothing is told beyond the set itself.
    band
        What is on tempo.
    """
    if measured is not None:
        reps = measured.measured_reps()
    elif done.timing != "paced":
        mean_ms = round(done.seconds.lower * 1000 / max(done.reps_done, 1))
        reps = (MeasuredRep(mean_ms, None, None, None),) * done.reps_done
    else:
        return None
    return adherence(reps, tempo=done.tempo, shape=done.shape, band=band)
