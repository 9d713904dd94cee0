"""One way of the bar from rest to rest: speed rises, stays, and falls again.

The rise is the first half of a minimum-jerk movement (Flash & Hogan 1985, J Neurosci 5:1688), and
the fall its second half. With nothing between them the whole is a minimum-jerk movement; with short
ones it is a steady pace.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Floats: TypeAlias = npt.NDArray[np.float64]

RISE_SHARE = 8 / 15
"""How far a rise gets, as a share of the way at full speed: the integral of `rise`, order 1."""


def rise(u: Floats, *, order: int, is_sudden: bool = False) -> Floats:
    """Return a rise from rest to speed 1, in units of its own length.

    Parameters
    ----------
    u
        float64 ``(n,)``; the time since it began, 1 where full speed is reached. Before 0 there is
        rest, after 1 full speed.
    order
        0 for the way, 1 for the speed, 2 for the acceleration.
    is_sudden
        Sets off with a jolt, as a harmonic swing does, in place of a minimum-jerk movement.
    """
    inside: Floats = np.minimum(np.maximum(u, 0.0), 1.0)
    if order == 0:
        beyond: Floats = np.maximum(u - 1.0, 0.0)
        way = inside**2 * (1 - inside / 3)
        return beyond + (way if is_sudden else inside**3 * (4 / 3 - inside + inside**2 / 5))
    bent: Floats = inside * (2 - inside)
    if order == 1:
        return bent if is_sudden else bent * bent
    return np.where(u > 0, 2 - 2 * inside, 0.0) if is_sudden else 4 * bent * (1 - inside)


@dataclass(frozen=True, slots=True)
class Move:
    """One way of the bar, between two rests."""

    begins_s: float
    lasts_s: float
    from_m: float
    to_m: float
    rise_s: float
    """How long the speed rises."""
    fall_s: float
    """How long it falls; with `rise_s`, at most `lasts_s`."""

    @property
    def ends_s(self) -> float:
        """When the bar is at rest again."""
        return self.begins_s + self.lasts_s

    @property
    def peak_m_s(self) -> float:
        """The full speed, as a magnitude; 1.875 × the mean in a minimum-jerk movement."""
        lost_s = (self.rise_s + self.fall_s) * (1 - RISE_SHARE)
        return abs(self.to_m - self.from_m) / (self.lasts_s - lost_s)

    def at(self, times_s: Floats, *, order: int) -> Floats:
        """Return what this way adds to the height, the speed or the acceleration.

        Parameters
        ----------
        times_s
            float64 ``(n,)``, in any order.
        order
            0 for metres above `from_m`, 1 for m/s, 2 for m/s²; all upwards.
        """
        full = np.copysign(self.peak_m_s, self.to_m - self.from_m)
        begun = rise((times_s - self.begins_s) / self.rise_s, order=order)
        lost = _lost((times_s - self.ends_s) / self.fall_s + 1, order=order)
        units = self.rise_s ** (1 - order), self.fall_s ** (1 - order)
        return np.asarray(full * (begun * units[0] - lost * units[1]), dtype=np.float64)


def _lost(u: Floats, *, order: int) -> Floats:
    """Return what a fall from speed 1 to rest takes from going on at that speed."""
    left = 1 - u
    if order == 0:
        return u - RISE_SHARE + rise(left, order=0)
    return 1 - rise(left, order=1) if order == 1 else rise(left, order=2)
