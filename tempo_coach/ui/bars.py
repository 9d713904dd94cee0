"""Horizontal bars of block characters, an eighth of a cell fine."""

from __future__ import annotations

import re

_FULL = "█"
_EIGHTHS = ("", "▏", "▎", "▍", "▌", "▋", "▊", "▉")
BAR = re.compile(f"[{_FULL}{''.join(_EIGHTHS)}]+")
"""Finds a bar in a row."""


def bar(value: float, *, most: float, cells: int) -> str:
    """Return a bar of the length that a value has of the most, padded to so many cells.

    Whatever is above 0 shows at least an eighth, so that it is told from nothing.
    """
    eighths = round(value / most * cells * 8) if most > 0 else 0
    if value > 0:
        eighths = max(eighths, 1)
    whole, part = divmod(min(eighths, cells * 8), 8)
    return (_FULL * whole + _EIGHTHS[part]).ljust(cells)
