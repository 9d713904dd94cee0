"""What planned work adds up to, before any of it is done."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from tempo_coach.core.prescription import Prescription
from tempo_coach.core.tempo import Allowances, Speed
from tempo_coach.core.timeline import rep_times
from tempo_coach.core.work import PhaseTimes


@dataclass(frozen=True, slots=True)
class PlannedTotals:
    """What some lines add up to."""

    sets: int = 0
    reps: int = 0
    times: PhaseTimes = field(default_factory=PhaseTimes)
    by_allowance: PhaseTimes = field(default_factory=PhaseTimes)
    """The part of `times` that stands in for X, V and A."""
    open_sets: int = 0
    """Sets that run until they are stopped; they add nothing to reps and times."""

    @classmethod
    def of(cls, lines: Iterable[Prescription], *, allowances: Allowances) -> PlannedTotals:
        """Add up all sets of some lines."""
        return sum((_line(line, line.sets, allowances) for line in lines), cls())

    @classmethod
    def of_one_set(cls, line: Prescription, *, allowances: Allowances) -> PlannedTotals:
        """Return what one set of a line comes to."""
        return _line(line, 1, allowances)

    def __add__(self, other: PlannedTotals) -> PlannedTotals:
        return PlannedTotals(
            self.sets + other.sets,
            self.reps + other.reps,
            self.times + other.times,
            self.by_allowance + other.by_allowance,
            self.open_sets + other.open_sets,
        )


def _line(line: Prescription, sets: int, allowances: Allowances) -> PlannedTotals:
    reps = sets * (line.reps or 0)
    rep = rep_times(line.tempo, allowances, line.shape)
    allowed = PhaseTimes(
        **{
            f"{phase}_ms": rep.of(phase) if isinstance(slot, Speed) else 0
            for phase, slot in line.tempo.slots().items()
        }
    )
    return PlannedTotals(
        sets, reps, rep.times(reps), allowed.times(reps), sets if line.reps is None else 0
    )
