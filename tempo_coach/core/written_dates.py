"""Dates and moments as they are written by hand, and what to say of those that are none."""

from __future__ import annotations

import re
from calendar import monthrange
from datetime import MAXYEAR, MINYEAR, date, datetime, time

from tempo_coach.core.legible import quoted
from tempo_coach.errors import OutOfRange

EARLIEST_DAY = date(1970, 1, 1)
"""The first day that a plan may speak of."""
LATEST_DAY = date(2999, 12, 31)
"""And the last."""
DAY_RANGE = f"{EARLIEST_DAY.isoformat()} to {LATEST_DAY.isoformat()}"
DAY_FORM = "a date is written year-month-day, such as 2026-11-30"
_MOMENT_FORM = "such are written 2026-11-30T18:04"
# Word processors make dashes of hyphens.
_BETWEEN = "[-./‐‑‒–—−]"
_LIKE_DAY = re.compile(rf"\d{{1,4}}{_BETWEEN}\d{{1,4}}{_BETWEEN}\d", re.ASCII)
_DAY = re.compile(
    rf"(?P<year>\d{{4}}){_BETWEEN}(?P<month>\d{{1,2}}){_BETWEEN}(?P<day>\d{{1,2}})(?=[T ]|$)",
    re.ASCII,
)
_MOMENT = re.compile(r"(?P<day>[^T ]*)[T ](?P<hour>\d\d):(?P<minute>\d\d)", re.ASCII)


def is_like_day(text: str) -> bool:
    """Tell whether a text begins as dates do in any country, such as ``30.11.2026``."""
    return _LIKE_DAY.match(text) is not None


def parse_day(text: str) -> date:
    """Read a date such as ``2026-11-30``.

    Raises
    ------
    OutOfRange
        It is not written so, or the calendar has no such day.
    """
    found = _DAY.match(text)
    if found is None:
        raise OutOfRange(f"{quoted(text)} is no date", hint=DAY_FORM)
    year, month, day = map(int, found.groups())
    try:
        read = date(year, month, day)
    except ValueError:
        raise OutOfRange(f"there is no {found[0]}", hint=_nearest(year, month, day)) from None
    if found[0] != text:
        raise OutOfRange(f"{quoted(text)} is no date alone", hint=f"write {read.isoformat()}")
    if read.isoformat() != text:
        raise OutOfRange(
            f"{quoted(text)} is not how a date is written", hint=f"write {read.isoformat()}"
        )
    return read


def parse_moment(text: str) -> datetime:
    """Read a date and a time of day such as ``2026-11-30T18:04``, of which no offset is known.

    Raises
    ------
    OutOfRange
        It is not written so, or there is no such day or no such time.
    """
    found = _MOMENT.fullmatch(text)
    if found is None:
        raise OutOfRange(f"{quoted(text)} is no date with a time", hint=_MOMENT_FORM)
    day = parse_day(found["day"])
    try:
        return datetime.combine(day, time(int(found["hour"]), int(found["minute"])))
    except ValueError:
        raise OutOfRange(
            f"there is no {found['hour']}:{found['minute']}", hint="a day has 00:00 to 23:59"
        ) from None


def _nearest(year: int, month: int, day: int) -> str:
    """Return what is allowed in place of a day that is not in the calendar."""
    if not MINYEAR <= year <= MAXYEAR:
        return f"years are {MINYEAR:04d} to {MAXYEAR}"
    if not 1 <= month <= 12:
        is_swapped = 1 <= day <= 12 and 1 <= month <= monthrange(year, day)[1]
        nearest = date(year, day, month).isoformat() if is_swapped else "2026-11-30"
        return f"months are 01 to 12, as in {nearest}"
    if day < 1:
        return f"that month begins on {date(year, month, 1).isoformat()}"
    return f"that month ends on {date(year, month, monthrange(year, month)[1]).isoformat()}"
