"""How lowering comes down before a meet, day by day."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from tempo_coach.errors import OutOfRange

LONGEST_DAYS = 42


class TaperShape(StrEnum):
    """How a taper runs (Mujika & Padilla 2003, MSSE 35:1182, name these forms)."""

    STEP = "step"
    """All at once, and then level."""
    LINEAR = "linear"
    """By the same amount every day, from all of it on the first day."""
    EXPONENTIAL = "exponential"
    """By the same share every day, from all of it on the first day: e^(-t/τ)."""


@dataclass(frozen=True, slots=True)
class Taper:
    """The days before a meet, with less and less lowering.

    What is cut is the sum over all of these days, beside as many days without a taper. That is how
    "volume down 41-60 %" (Bosquet et al. 2007, MSSE 39:1358, 10.1249/mss.0b013e31806010e0) is read
    here: an exponential one over two weeks with τ 8 days cuts 49.8 %, and 54.6 % with its last
    three days free; τ 4 days cuts 68.7 %.

    Raises
    ------
    OutOfRange
        A value is outside what it can be.
    """

    shape: TaperShape = TaperShape.EXPONENTIAL
    days: int = 14
    """How many days before the meet; the meet's own day has no lowering."""
    tau_days: float = 8.0
    """For the exponential one."""
    cut: float = 0.5
    """For the other two: the share of the sum that is left out, 0 to 1, before the last days."""
    last_days: int = 4
    """How many days before the meet the last lowering is: 3.7 ± 1.6 d in Pritchard et al. 2016,
    JSCR 30:1796, 10.1519/jsc.0000000000001292."""

    def __post_init__(self) -> None:
        if not 0 <= self.days <= LONGEST_DAYS:
            raise OutOfRange(
                f"a taper of {self.days} days is not possible", hint=f"0 to {LONGEST_DAYS}"
            )
        if not 0 < self.tau_days <= LONGEST_DAYS:
            raise OutOfRange(
                f"a τ of {self.tau_days:g} days is not possible",
                hint=f"above 0 and at most {LONGEST_DAYS}",
            )
        # A linear taper that leaves out more than half would go below nothing.
        most = 0.5 if self.shape is TaperShape.LINEAR else 1.0
        if not 0 <= self.cut <= most:
            raise OutOfRange(
                f"a {self.shape} taper can't leave out {self.cut:.0%}", hint=f"0 to {most:.0%}"
            )
        if not 0 <= self.last_days <= LONGEST_DAYS:
            raise OutOfRange(
                f"the last lowering {self.last_days} days before is not possible",
                hint=f"0 to {LONGEST_DAYS}",
            )

    def share(self, days_before: int) -> float:
        """Return what is left of a day's lowering, 0 to 1.

        Parameters
        ----------
        days_before
            How many days the meet is away; 0 is the meet's own day.
        """
        if days_before < max(self.last_days, 1):
            return 0.0
        return self.course(self.days - days_before)

    def course(self, day: int) -> float:
        """Return what is left on a day of the taper, before its last days are left out.

        Parameters
        ----------
        day
            Counted from 0, the first; earlier days have all of it.
        """
        if day < 0:
            return 1.0
        match self.shape:
            case TaperShape.STEP:
                return 1.0 - self.cut
            case TaperShape.LINEAR if self.days > 1:
                return 1.0 - 2.0 * self.cut * day / (self.days - 1)
            case TaperShape.LINEAR:
                return 1.0 - self.cut
            case TaperShape.EXPONENTIAL:
                return math.exp(-day / self.tau_days)

    @property
    def mean(self) -> float:
        """What is left of the sum over the days, 0 to 1."""
        if not self.days:
            return 1.0
        return math.fsum(self.share(day) for day in range(1, self.days + 1)) / self.days
