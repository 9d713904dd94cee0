"""The taps of one set, from its start until no more come."""

from __future__ import annotations

from tempo_coach.core.facts import SetDone
from tempo_coach.core.marks import counted
from tempo_coach.core.running_set import RunningSet
from tempo_coach.core.tap_pieces import TapPoints
from tempo_coach.core.tap_reading import TapReading, read_taps

_QUIET_MS = 3_000
"""The last turning points are tapped after the track has ended, by a lifter who is late."""


class Tapping:
    """Takes the taps of a set.

    Parameters
    ----------
    running
        The set.
    points
        Where its partner was to tap.
    """

    def __init__(self, running: RunningSet, points: TapPoints) -> None:
        self._running = running
        self._points = points
        self._taps_ms: list[int] = []
        self._last_ms = 0
        self.done: SetDone | None = None
        """The set once it has ended; None before, and where nothing was lifted."""

    @property
    def words(self) -> str:
        """How many taps there are, and how the last one is taken back."""
        count = counted(len(self._taps_ms), "tap")
        return f"{count}. Backspace takes the last one back." if self._taps_ms else f"{count} yet."

    def tap(self, now_ms: int) -> None:
        """Take one tap."""
        self._taps_ms.append(self._running.position_ms(now_ms))
        self._last_ms = now_ms

    def take_back(self) -> None:
        """Forget the last tap."""
        if self._taps_ms:
            del self._taps_ms[-1]

    def end(self, done: SetDone | None, now_ms: int) -> None:
        """Take in what became of the set; the last taps may still come."""
        self.done = done
        self._last_ms = now_ms

    def is_open(self, now_ms: int) -> bool:
        """Tell whether taps still count: there were some, and the last was not long ago."""
        return bool(self._taps_ms) and now_ms - self._last_ms < _QUIET_MS

    def reading(self, done: SetDone) -> TapReading | None:
        """Return what the taps say; None where there are none."""
        if not self._taps_ms:
            return None
        return read_taps(
            self._taps_ms,
            timeline=self._running.timeline,
            points=self._points,
            reps=done.reps_done,
        )
