"""What is known of how much a lifter lifts and lowers, for one line of work."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from tempo_coach.core.facts import What
from tempo_coach.core.legible import name_key
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.maxes import KnownMax, known_maxes, max_for
from tempo_coach.core.plan import Lifter
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.tempo import Allowances, lower_seconds


@dataclass(frozen=True, slots=True)
class Best:
    """A max that was tested."""

    load: Load
    """In kg or lb."""
    words: str
    """Which one it is, such as ``the plan's max, lowered in 2 s, tested 2026-11-12``."""

    @property
    def kg(self) -> float:
        """The load in kg."""
        return self.load.kg() or 0.0

    def __str__(self) -> str:
        return f"{self.load} ({self.words})" if self.words else str(self.load)


@dataclass(frozen=True, slots=True)
class Strength:
    """How much a lifter lifts and lowers of one exercise, and the coach's word on overload."""

    lifted: Best | None = None
    """The 1RM that holds for the line's lower."""
    lowered: Best | None = None
    """The greatest load that was lowered under control."""
    is_cleared: bool | None = None
    """For lowering more than can be lifted; None where the coach has not said."""

    def share(self, load: Load | None) -> float | None:
        """Return a load in % of the 1RM; None where that can't be said."""
        if load is None or load.on_body:
            return None
        if load.unit is LoadUnit.PERCENT:
            return float(load.amount)
        kg = load.kg()
        return None if self.lifted is None or kg is None else kg / self.lifted.kg * 100

    def kg(self, load: Load | None) -> float | None:
        """Return a load in kg; None where that can't be said."""
        if load is None:
            return None
        return load.kg(max_kg=None if self.lifted is None else self.lifted.kg)


UNKNOWN = Strength()
"""Of whom nothing is known."""


@dataclass(frozen=True, slots=True)
class LifterRecord:
    """Where what is known of a lifter stands: the plan and the log."""

    name: str
    planned: Lifter | None = None
    """As the plan has them; None where it does not."""
    recorded: RecordedMaxes = field(default_factory=RecordedMaxes)
    """The maxes of the log, of all lifters."""

    def tested(self) -> tuple[tuple[date, str], ...]:
        """Return the day and the exercise of each max in plan and log."""
        planned = () if self.planned is None else self.planned.maxes
        own = (one for one in self.recorded.tested if name_key(one.lifter) == name_key(self.name))
        return (
            *((one.on, one.exercise) for one in planned),
            *((one.at.date(), one.exercise) for one in own),
        )

    def strength_for(self, prescription: Prescription, allowances: Allowances) -> Strength:
        """Return what is known for a line."""
        lower_s = lower_seconds(prescription.tempo, allowances)
        exercise = prescription.exercise
        return Strength(
            lifted=self.best(exercise, lower_s=lower_s),
            lowered=self.best(exercise, lower_s=lower_s, what="lowered"),
            is_cleared=None if self.planned is None else self.planned.overload,
        )

    def best(self, exercise: str, *, lower_s: float, what: What = "lifted") -> Best | None:
        """Return the max that holds for a lower of so many seconds; None where none is known."""
        found = max_for(self.known(exercise), lower_s=lower_s, what=what)
        return None if found is None else Best(found.load, found.words)

    def known(self, exercise: str) -> tuple[KnownMax, ...]:
        """Return the maxes of an exercise, in order of their dates."""
        return known_maxes(
            self.recorded.of(self.name, exercise),
            planned=() if self.planned is None else self.planned.maxes,
            exercise=exercise,
        )
