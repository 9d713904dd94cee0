"""Numbers as the cells of a trace hold them, in any country's way of writing."""

from __future__ import annotations

import csv
import math
import re
from datetime import datetime

MISSING = frozenset({"", "nan", "na", "n/a", "null", "none", "-", "--", "#n/a", "inf", "-inf"})
"""Cells that stand for no value, in small letters."""
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?", re.ASCII)
_GROUPED = {
    ".": re.compile(r"[+-]?[1-9]\d{0,2}(?:,\d{3})+(?:\.\d*)?", re.ASCII),
    ",": re.compile(r"[+-]?[1-9]\d{0,2}(?:\.\d{3})+(?:,\d*)?", re.ASCII),
}
_CLOCK = re.compile(r"(?:(\d{1,3}):)?(\d{1,2}):(\d{1,2}(?:\.\d+)?)", re.ASCII)
_DAY = re.compile(r"\d{4}-\d\d-\d\d[T ]\d\d:\d\d", re.ASCII)
_THIN = str.maketrans(
    {" ": "", "\u00a0": "", "\u202f": "", "\u2009": "", "'": "", "’": "", "−": "-"}
)


def cells_of(line: str, separator: str) -> list[str]:
    """Return the cells of a line; an empty separator stands for any white space."""
    if '"' in line:
        sign = separator or " "
        cells = next(csv.reader([line], delimiter=sign, skipinitialspace=True), [])
        return [cell.strip() for cell in cells if separator or cell.strip()]
    return [cell.strip() for cell in line.split(separator)] if separator else line.split()


def number(cell: str, *, decimal: str) -> float | None:
    """Return a cell's number, NaN where it holds none on purpose, or None where it is a text.

    Parameters
    ----------
    cell
        Without white space around it.
    decimal
        ``.`` or ``,``; the other sign parts thousands.
    """
    if cell.lower() in MISSING:
        return math.nan
    plain = cell.translate(_THIN)
    if _GROUPED[decimal].fullmatch(plain):
        plain = plain.replace("," if decimal == "." else ".", "")
    elif decimal == "," and "." in plain:
        return None
    plain = plain.replace(",", ".") if decimal == "," else plain
    return float(plain) if _NUMBER.fullmatch(plain) else None


def is_grouped(cell: str, *, decimal: str) -> bool:
    """Tell whether a cell's number would have signs between its thousands."""
    return _GROUPED[decimal].fullmatch(cell) is not None


def moment(cell: str, *, decimal: str) -> float | None:
    """Return a cell's time as a number: also a clock's, such as ``0:01:02.50``, then in seconds.

    As for `number` otherwise.
    """
    if (found := number(cell, decimal=decimal)) is not None:
        return found
    plain = cell.replace(",", ".") if decimal == "," else cell
    if clock := _CLOCK.fullmatch(plain):
        hours, minutes, seconds = clock.groups()
        return int(hours or 0) * 3600 + int(minutes) * 60 + float(seconds)
    if _DAY.match(plain):
        try:
            day = datetime.fromisoformat(plain)
        except ValueError:
            return None
        # Without an offset every cell lacks the same one, and only differences count.
        since = day - datetime(2000, 1, 1, tzinfo=day.tzinfo)
        return since.total_seconds()
    return None


def is_clock(cell: str) -> bool:
    """Tell whether a cell shows a time of day or of a stopwatch, which is in seconds."""
    return ":" in cell
