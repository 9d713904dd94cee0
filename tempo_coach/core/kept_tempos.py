"""How tempos were kept week by week, as far as lowers were measured."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from statistics import fmean
from typing import Any

import numpy as np

from tempo_coach.core.adherence import USUAL_BAND, PhaseKept, adherence
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.tempo import Tempo
from tempo_coach.core.weeks import IsoWeek, week_of


@dataclass(frozen=True, slots=True)
class KeptTempo:
    """One tempo of one exercise in one lifter's week."""

    lifter: str
    week: IsoWeek
    exercise: str
    tempo: Tempo
    prescribed_ms: int
    """The lower."""
    kept: tuple[PhaseKept, ...]
    """The lower of each measured set."""

    @property
    def sets(self) -> int:
        """Sets of which at least one lower was measured."""
        return len(self.kept)

    @property
    def lowers(self) -> int:
        """Measured lowers."""
        return sum(one.measured for one in self.kept)

    @property
    def within_share(self) -> int:
        """Lowers within the share of the band."""
        return self._within(round(USUAL_BAND.share * self.prescribed_ms))

    @property
    def within_time(self) -> int:
        """Lowers within the time of the band."""
        return self._within(USUAL_BAND.least_ms)

    @property
    def mean_off_ms(self) -> float:
        """Measured less prescribed, on the mean of all lowers."""
        return fmean(off for one in self.kept for off in one.off_ms if off is not None)

    @property
    def mean_off_share(self) -> float | None:
        """`mean_off_ms` as a share of what was prescribed; None where that is 0."""
        return self.mean_off_ms / self.prescribed_ms if self.prescribed_ms else None

    @property
    def drift_ms(self) -> float | None:
        """How much longer the lower gets from rep to rep, on the mean of the sets that tell."""
        drifts = [one.drift_ms for one in self.kept if one.drift_ms is not None]
        return fmean(drifts) if drifts else None

    def _within(self, off_ms: int) -> int:
        return sum(one.within(off_ms) for one in self.kept)


def measured_rows(rows: SetRows) -> SetRows:
    """Return the sets that have some measured lowering."""
    is_measured: np.ndarray[Any, np.dtype[np.bool_]] = rows.data["lower_measured_ms"] > 0
    return rows.where(is_measured)


def kept_tempos(logs: MergedLogs, rows: SetRows) -> tuple[KeptTempo, ...]:
    """Return how tempos were kept in some sets of a log, as `kept_in` does."""
    return kept_in(logs.measured_sets(measured_rows(rows)))


def kept_in(sets: Iterable[tuple[SetDone, SetMeasured | None]]) -> tuple[KeptTempo, ...]:
    """Return how tempos were kept, by lifter, exercise, tempo and week.

    Lowers without a prescribed length are left out, and so are sets that were measured as a whole.
    """
    found = []
    for done, measured in sets:
        if measured is None:
            continue
        reps = measured.measured_reps()
        lower = adherence(reps, tempo=done.tempo, shape=done.shape).lower
        if lower is not None:
            found.append((done, lower))
    kept = []
    for _, group in groupby(sorted(found, key=lambda one: _key(one[0])), lambda one: _key(one[0])):
        several = list(group)
        latest = max((done for done, _ in several), key=lambda done: done.started_at)
        kept.append(
            KeptTempo(
                lifter=latest.lifter,
                week=week_of(latest),
                exercise=latest.exercise,
                tempo=latest.tempo,
                prescribed_ms=several[0][1].prescribed_ms,
                kept=tuple(lower for _, lower in several),
            )
        )
    return tuple(kept)


def _key(done: SetDone) -> tuple[str, str, str, IsoWeek]:
    return name_key(done.lifter), name_key(done.exercise), str(done.tempo), week_of(done)


def kept_cells(kept: KeptTempo) -> dict[str, str | int | float | None]:
    """Return how one tempo was kept, with units in the names."""
    off_share, drift_ms = kept.mean_off_share, kept.drift_ms
    return {
        "tempo": str(kept.tempo),
        "sets_measured": kept.sets,
        "lowers": kept.lowers,
        "lowers_within_6_percent": kept.within_share,
        "lowers_within_half_second": kept.within_time,
        "lower_prescribed_s": kept.prescribed_ms / 1000,
        "lower_off_s": round(kept.mean_off_ms / 1000, 3),
        "lower_off_share": None if off_share is None else round(off_share, 4),
        "lower_drift_s": None if drift_ms is None else round(drift_ms / 1000, 3),
    }


def kept_data(kept: Iterable[KeptTempo]) -> list[dict[str, Any]]:
    """Return how tempos were kept as plain data."""
    return [
        {
            "lifter": one.lifter,
            "week": str(one.week),
            "exercise": one.exercise,
            **kept_cells(one),
        }
        for one in kept
    ]
