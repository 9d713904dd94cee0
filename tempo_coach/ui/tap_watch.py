"""A partner's taps beside the rack: taken while the set runs, read once no more come."""

from __future__ import annotations

from collections.abc import Callable

from tempo_coach.ui.stage import Stage
from tempo_coach.ui.underway import Underway


class TapWatch:
    """Says how many taps there are, and has them read when they are over.

    Parameters
    ----------
    underway
        What takes the taps.
    tell
        Takes what is to be said.
    read
        Reads the taps of the set that has ended.
    """

    def __init__(
        self, underway: Underway, tell: Callable[..., None], read: Callable[[], None]
    ) -> None:
        self._underway = underway
        self._tell = tell
        self._read = read
        self._is_reading = False

    @property
    def is_pending(self) -> bool:
        """There are taps of a set that has ended, not read yet."""
        tapping = self._underway.tapping
        return self._is_reading or (tapping is not None and tapping.done is not None)

    def is_open(self, stage: Stage, now_ms: int) -> bool:
        """Tell whether a tap counts now."""
        tapping = self._underway.tapping
        if tapping is None or self._is_reading:
            return False
        return stage in (Stage.PACING, Stage.ENDING) or tapping.is_open(now_ms)

    def begin(self) -> None:
        """Say from the start that taps are counted, so that the first one moves nothing."""
        if (tapping := self._underway.tapping) is not None:
            self._tell(tapping.words)

    def tap(self, now_ms: int) -> None:
        """Take one tap."""
        if (tapping := self._underway.tapping) is not None:
            tapping.tap(now_ms)
            self._tell(tapping.words)

    def take_back(self) -> None:
        """Forget the last tap."""
        if (tapping := self._underway.tapping) is not None:
            tapping.take_back()
            self._tell(tapping.words)

    def check(self, now_ms: int) -> None:
        """Have the taps of a set that has ended read once no more come."""
        if self.is_pending and not self.is_open(Stage.SAVED, now_ms):
            self.read()

    def read(self) -> None:
        """Have them read now."""
        if not self._is_reading:
            self._is_reading = True
            self._read()

    def end(self) -> None:
        """Take in that they were read; what was said of them is over."""
        if self._is_reading:
            self._is_reading = False
            self._tell()
