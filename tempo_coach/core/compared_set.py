"""A set as it was lifted beside the line that asked for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tempo_coach.core.adherence import Adherence, adherence
from tempo_coach.core.cut_set import CutSet, Stretch
from tempo_coach.core.marks import counted
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.tempo import Phase, Speed


@dataclass(frozen=True, slots=True)
class SpeedLoss:
    """How much slower the last raise was than the fastest of the set, by their mean speeds."""

    best_rep: int
    """Counted from 1."""
    best_m_s: float
    last_rep: int
    last_m_s: float

    @property
    def share(self) -> float:
        """What was lost, as a share of the best: 0 where the last is the fastest."""
        return 1 - self.last_m_s / self.best_m_s


@dataclass(frozen=True, slots=True, eq=False)
class ComparedSet:
    """What a trace says of a set, and what the line says."""

    prescription: Prescription
    cut: CutSet

    @property
    def reps(self) -> tuple[MeasuredRep, ...]:
        """The reps found."""
        return tuple(rep.measured for rep in self.cut.reps)

    @property
    def adherence(self) -> Adherence:
        """How the phases were kept."""
        return adherence(self.reps, tempo=self.prescription.tempo, shape=self.prescription.shape)

    def prescribed(self, phase: Phase) -> int | Speed | None:
        """Return what the line asks for, in milliseconds or as a speed.

        Stops on the way down are pauses; None where the phase is no work of the lifter's.
        """
        shape = self.prescription.shape
        if not shape.counts(phase):
            return None
        slot = self.prescription.tempo.slots()[phase]
        if phase is Phase.PAUSE and shape.stops is not None and isinstance(slot, int):
            return slot + shape.stops.each_ms * len(shape.stops.at)
        return slot

    def difference_ms(self, rep: MeasuredRep, phase: Phase) -> int | None:
        """Return measured less prescribed; None where one of them has no length."""
        asked, measured = self.prescribed(phase), rep.of(phase)
        if measured is None or asked is None or isinstance(asked, Speed):
            return None
        return measured - asked

    def sum_ms(self, phase: Phase) -> int:
        """Return the measured time of a phase over all reps."""
        return sum(rep.of(phase) or 0 for rep in self.reps)

    def is_whole(self, phase: Phase) -> bool:
        """Tell whether a phase was measured in every rep, but for what follows the last way."""
        *but_last, last = (rep.of(phase) for rep in self.reps)
        ends = Phase.TOP if self.prescription.lead is Phase.LOWER else Phase.PAUSE
        return None not in but_last and (last is not None or phase is ends)

    @property
    def speed_loss(self) -> SpeedLoss | None:
        """Over the raises; None below two, or where they are not the lifter's work."""
        if not self.prescription.shape.counts(Phase.RAISE):
            return None
        means = [
            (number, rep.motion.raise_mean_m_s)
            for number, rep in enumerate(self.reps, start=1)
            if rep.motion is not None and rep.motion.raise_mean_m_s
        ]
        if len(means) < 2:
            return None
        best = max(means, key=lambda one: one[1])
        return SpeedLoss(*best, *means[-1])

    def remarks(self) -> tuple[str, ...]:
        """Return what was done with the data, and where line and trace don't agree."""
        found, asked = len(self.cut.reps), self.prescription.reps
        said = []
        if asked is not None and asked != found:
            said.append(f"{counted(found, 'rep')} found, {asked} prescribed.")
        return (*said, *self.cut.remarks)


def compared_data(compared: ComparedSet) -> dict[str, Any]:
    """Return a compared set as JSON, as the README documents it."""
    loss = compared.speed_loss
    line, cut = compared.prescription, compared.cut
    return {
        "line": str(line),
        "lead": line.lead.value,
        "reps_prescribed": line.reps,
        "reps_found": len(cut.reps),
        "prescribed_s": {phase.value: _asked(compared.prescribed(phase)) for phase in Phase},
        "sum_s": {phase.value: compared.sum_ms(phase) / 1000 for phase in Phase},
        "reps": [
            {
                "rep": number,
                "seconds": {phase.value: _seconds(rep.measured.of(phase)) for phase in Phase},
                "difference_s": {
                    phase.value: _seconds(compared.difference_ms(rep.measured, phase))
                    for phase in Phase
                },
                **_motion(rep.measured),
                "parts": [_part(one) for one in rep.stretches],
            }
            for number, rep in enumerate(cut.reps, start=1)
        ],
        "speed_loss": None
        if loss is None
        else {
            "best_rep": loss.best_rep,
            "best_m_s": round(loss.best_m_s, 4),
            "last_rep": loss.last_rep,
            "last_m_s": round(loss.last_m_s, 4),
            "share": round(loss.share, 4),
        },
        "trace": {
            "quantity": cut.quantity.value,
            "rate_hz": round(cut.rate_hz, 3),
            "noise": round(cut.noise, 6),
        },
        "remarks": list(compared.remarks()),
    }


def _asked(slot: int | Speed | None) -> float | str | None:
    return slot.value if isinstance(slot, Speed) else _seconds(slot)


def _seconds(length_ms: int | None) -> float | None:
    return None if length_ms is None else length_ms / 1000


_FIGURES = ("range_m", "lower_mean_m_s", "lower_peak_m_s", "raise_mean_m_s", "raise_peak_m_s")


def _motion(rep: MeasuredRep) -> dict[str, float | None]:
    values = {name: getattr(rep.motion, name, None) for name in _FIGURES}
    return {name: None if value is None else round(value, 4) for name, value in values.items()}


def _part(stretch: Stretch) -> dict[str, str | float | None]:
    begins_s, ends_s = stretch.begins_s, stretch.ends_s
    return {
        "phase": stretch.phase.value,
        "begins_s": None if begins_s is None else round(begins_s, 3),
        "ends_s": None if ends_s is None else round(ends_s, 3),
    }
