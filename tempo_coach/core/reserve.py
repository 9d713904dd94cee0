"""The strength reserve: how much more is lowered under control than lifted."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

TARGET: Final = (1.10, 1.20)
"""The working target (common practice, no source)."""
QUESTIONED_ABOVE: Final = 1.5
"""Free and machine lifts of men gave 1.27 to 1.49 (Hollander et al. 2007, JSCR 21:34). 2.46 has
been measured too, so more is asked about and not refused."""


class Standing(StrEnum):
    """Where a reserve stands against the target."""

    BELOW = "below"
    WITHIN = "within"
    ABOVE = "above"


@dataclass(frozen=True, slots=True)
class Reserve:
    """The greatest load lowered under control, over the 1RM."""

    lowered_kg: float
    lifted_kg: float
    """The 1RM: what it is divided by, as in Kelly et al. 2015, JSCR 29:1027,
    10.1519/JSC.0000000000000713."""

    @property
    def ratio(self) -> float:
        """Lowered ÷ lifted, without the last digits of a conversion from pounds."""
        return round(self.lowered_kg / self.lifted_kg, 9)

    @property
    def percent(self) -> float:
        """How much more is lowered, in % of the load lifted."""
        return (self.ratio - 1) * 100

    @property
    def kg(self) -> float:
        """How much more is lowered."""
        return self.lowered_kg - self.lifted_kg

    @property
    def target_kg(self) -> tuple[float, float]:
        """The loads lowered between which the target lies."""
        return TARGET[0] * self.lifted_kg, TARGET[1] * self.lifted_kg

    @property
    def standing(self) -> Standing:
        """Where it stands against the target."""
        if self.ratio < TARGET[0]:
            return Standing.BELOW
        return Standing.WITHIN if self.ratio <= TARGET[1] else Standing.ABOVE

    @property
    def gap_kg(self) -> float:
        """What is missing to the target, or below 0 what is beyond it; 0 within it."""
        fewest, most = self.target_kg
        if self.standing is Standing.WITHIN:
            return 0.0
        return (fewest if self.standing is Standing.BELOW else most) - self.lowered_kg

    @property
    def is_questionable(self) -> bool:
        """More than most have been measured to have: one of the two loads may be wrong."""
        return self.ratio > QUESTIONED_ABOVE
