"""A drawing in half rows, two to a terminal row, and what becomes of it in characters."""

from __future__ import annotations

from enum import IntEnum
from functools import lru_cache
from itertools import groupby
from typing import TypeAlias

import numpy as np

from tempo_coach.ui.glyphs import Bitmap


class Ink(IntEnum):
    """What a mark belongs to; colour only helps, so each also has its word and its place."""

    NONE = 0
    RACK = 1
    BARBELL = 2
    PLAIN = 3
    LOWER = 4
    PAUSE = 5
    RAISE = 6
    TOP = 7


Run: TypeAlias = tuple[str, Ink]
Row: TypeAlias = tuple[Run, ...]
Picture: TypeAlias = tuple[Row, ...]

_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


class Canvas:
    """Pixels one column wide and half a row high.

    Parameters
    ----------
    columns
        Width.
    rows
        Height, in whole rows of the terminal.
    """

    def __init__(self, columns: int, rows: int) -> None:
        self._pixels = np.zeros((rows * 2, columns), dtype=np.uint8)
        self._words: dict[int, tuple[int, str, Ink]] = {}

    def paint(self, bitmap: Bitmap, *, left: int, top: int, ink: Ink) -> None:
        """Put ink where the bitmap has some; what lies outside is cut off."""
        room = self._pixels[max(top, 0) :, max(left, 0) :]
        shown = bitmap[max(-top, 0) :, max(-left, 0) :][: room.shape[0], : room.shape[1]]
        room[: shown.shape[0], : shown.shape[1]][shown] = ink

    def write(self, text: str, *, left: int, row: int, ink: Ink) -> None:
        """Write ASCII in the terminal's own size, one text a row, over what is painted there."""
        if 0 <= row < len(self._pixels) // 2:
            self._words[row] = (left, text[: max(self._pixels.shape[1] - left, 0)], ink)

    def picture(self) -> Picture:
        """Return the rows, each as runs of one ink."""
        return tuple(
            _written(_cells(upper.tobytes(), lower.tobytes()), self._words.get(row))
            for row, (upper, lower) in enumerate(
                zip(self._pixels[0::2], self._pixels[1::2], strict=True)
            )
        )


# Most rows are those of the tick before: kept, a picture of 158 × 48 takes 0.4 ms, else 3.3.
@lru_cache(maxsize=512)
def _cells(upper: bytes, lower: bytes) -> Row:
    """Return a row of block characters from the inks of its two half rows."""
    cells = (
        (_HALVES[above > 0, below > 0], max(above, below))
        for above, below in zip(upper, lower, strict=True)
    )
    return tuple(
        ("".join(character for character, _ in run), Ink(ink))
        for ink, run in groupby(cells, key=lambda cell: cell[1])
    )


def _written(row: Row, words: tuple[int, str, Ink] | None) -> Row:
    """Return a row with a text over it."""
    if words is None:
        return row
    left, text, ink = words
    cells = [(character, of) for run, of in row for character in run]
    cells[left : left + len(text)] = [(character, ink) for character in text]
    return tuple(
        ("".join(character for character, _ in run), of)
        for of, run in groupby(cells, key=lambda cell: cell[1])
    )


def plain_text(picture: Picture) -> str:
    """Return the characters of a picture alone, a line a row."""
    return "\n".join("".join(text for text, _ in row).rstrip() for row in picture)
