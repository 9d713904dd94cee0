"""Words broken into lines: between words, and never between a number and its unit."""

from __future__ import annotations

import re

from rich.cells import cell_len

from tempo_coach.core.legible import legible

WIDTH = 80
"""Columns of a page."""
_PIECE = re.compile(r"\S*\d (?:kg|lb|m|cm|mm|d|h|min|s|ms|Hz|%)(?!\w)\S*|\S+")


def wrapped(words: str, *, width: int = WIDTH, first: str = "", indent: str = "") -> str:
    """Return words as legible lines of at most so many columns, longer where none can be broken.

    Parameters
    ----------
    words
        What is said; where all of it has room on one line, it stays as it is.
    width
        Columns of a line. Some letters take two of them.
    first, indent
        What the first line begins with, and what each other does.
    """
    shown = legible(words)
    if cell_len(first + shown) <= width:
        return first + shown
    lines: list[str] = []
    start, line = first, ""
    for piece in _PIECE.findall(shown):
        longer = f"{line} {piece}" if line else piece
        if line and cell_len(start + longer) > width:
            lines.append(start + line)
            start, longer = indent, piece
        line = longer
    return "\n".join([*lines, start + line])


def widest_piece(words: str) -> int:
    """Return how many columns the longest piece takes that can't be broken."""
    return max(map(cell_len, _PIECE.findall(words)), default=0)
