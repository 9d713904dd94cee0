"""The machine's clocks."""

from __future__ import annotations

import time
from datetime import datetime


class SystemClock:
    """Monotonic for pacing, wall clock for the log; implements `core.ports.Clock`."""

    def now_ms(self) -> int:
        """Return the monotonic moment in whole milliseconds."""
        return time.monotonic_ns() // 1_000_000

    def wall(self) -> datetime:
        """Return the local time with its offset, to the millisecond."""
        now = datetime.now().astimezone()
        return now.replace(microsecond=now.microsecond // 1000 * 1000)

    def sleep_until_ms(self, moment_ms: int) -> None:
        """Return once the monotonic clock has reached the moment."""
        while (left_ms := moment_ms - self.now_ms()) > 0:
            time.sleep(left_ms / 1000)
