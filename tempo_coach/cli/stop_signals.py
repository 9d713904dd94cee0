"""Ctrl-C, a hang-up and a termination stop a set only where it waits, never while it is saved."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

_SIGNALS = tuple(
    getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)
)


class Stopped(Exception):
    """A signal asked to stop."""


class StopSignals:
    """Holds signals back until the program waits."""

    def __init__(self) -> None:
        self.received: int | None = None
        """The number of the first signal."""
        self._is_waiting = False

    @contextmanager
    def held(self) -> Iterator[StopSignals]:
        """Take the signals over for a while."""
        before = {number: signal.signal(number, self._take) for number in _SIGNALS}
        try:
            yield self
        finally:
            for number, handler in before.items():
                signal.signal(number, handler)

    @contextmanager
    def waiting(self) -> Iterator[None]:
        """Let a signal interrupt what is done here.

        Raises
        ------
        Stopped
            A signal has come, before or now.
        """
        self._is_waiting = True
        try:
            if self.received is not None:
                raise Stopped
            yield
        finally:
            self._is_waiting = False

    @property
    def exit_code(self) -> int:
        """What a program that was stopped so returns: 128 and the signal's number."""
        return 128 + (self.received or 0)

    def _take(self, number: int, frame: FrameType | None) -> None:
        del frame
        if self.received is None:
            self.received = number
        if self._is_waiting:
            raise Stopped
