"""Lines of a proposal, and what becomes of the work that they follow from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from tempo_coach.core.plan import WEEKDAYS, Weekday
from tempo_coach.core.plan_values import OFF
from tempo_coach.core.prescription import Prescription


class Step(StrEnum):
    """What becomes of a line."""

    ADD = "add"
    KEEP = "keep"
    CUT = "cut"
    CHANGE = "change"


@dataclass(frozen=True, slots=True)
class ProposedLine:
    """One line of next week's work."""

    step: Step
    line: Prescription | None
    """As it would stand in the plan; None where the work is left out."""
    was: Prescription
    """What was done."""
    day: date
    """The day of last week on which it was done."""
    reason: str

    @property
    def words(self) -> str:
        """The line as it would stand in a plan."""
        return OFF if self.line is None else str(self.line)

    @property
    def weekday(self) -> Weekday:
        """The day of the week that it is for."""
        return WEEKDAYS[self.day.weekday()]
