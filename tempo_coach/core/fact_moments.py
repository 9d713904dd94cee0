"""The moments that facts are dated with."""

from __future__ import annotations

from datetime import datetime, timedelta

_LATER = timedelta(milliseconds=1)


def dated(now: datetime, *, after: datetime | None) -> datetime:
    """Return now, or just after another moment where a clock that was set back would be earlier."""
    return now if after is None else max(now, after + _LATER)
