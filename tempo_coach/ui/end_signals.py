"""A hang-up or a termination leaves the app in good order, so that a running set is logged."""

from __future__ import annotations

import asyncio
import signal
from collections.abc import Callable
from contextlib import suppress

_NUMBERS = tuple(getattr(signal, name) for name in ("SIGHUP", "SIGTERM") if hasattr(signal, name))


def leave_on_signals(leave: Callable[[int], None]) -> None:
    """Have `leave` called with 128 and the signal's number, as shells count, when one comes."""
    loop = asyncio.get_running_loop()
    for number in _NUMBERS:
        # Only a Unix program's main thread can be told of signals.
        with suppress(NotImplementedError, RuntimeError, ValueError):
            loop.add_signal_handler(number, leave, 128 + number)
