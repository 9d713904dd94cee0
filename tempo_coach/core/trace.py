"""What a device or a video tool recorded of the bar: one figure at each moment."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from tempo_coach.core.bar_motion import Floats


class Quantity(StrEnum):
    """What was recorded."""

    HEIGHT = "height"
    SPEED = "speed"
    ACCELERATION = "acceleration"

    @property
    def order(self) -> int:
        """How many times height is to be derived to get it."""
        return list(Quantity).index(self)

    @property
    def unit(self) -> str:
        """Its unit in the SI."""
        return ("m", "m/s", "m/s²")[self.order]


@dataclass(frozen=True, slots=True, eq=False)
class Trace:
    """A recording of the bar, in SI units, upwards positive."""

    times_s: Floats
    """float64 ``(n,)``, each greater than the one before."""
    values: Floats
    """float64 ``(n,)``; NaN where there was none."""
    quantity: Quantity
    remarks: tuple[str, ...] = ()
    """What was taken to be so, and what was left out, a sentence each."""

    def between(self, from_s: float | None, to_s: float | None) -> Trace:
        """Return the part between two moments; None leaves that end as it is."""
        is_inside = np.ones(self.times_s.size, dtype=np.bool_)
        if from_s is not None:
            is_inside &= self.times_s >= from_s
        if to_s is not None:
            is_inside &= self.times_s <= to_s
        return replace(self, times_s=self.times_s[is_inside], values=self.values[is_inside])

    @property
    def length_s(self) -> float:
        """From the first sample to the last."""
        return float(self.times_s[-1] - self.times_s[0])
