"""A drawing in half rows, two to a terminal row, and what becomes of it in characters."""

from __future__ import annotations

from enum import IntEnum
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
        uppers, lowers = self._pixels[0::2].tolist(), self._pixels[1::2].tolist()
        return tuple(
            self._row(row, upper, lower)
            for row, (upper, lower) in enumerate(zip(uppers, lowers, strict=True))
        )

    def _row(self, row: int, upper: list[int], lower: list[int]) -> Row:
        cells = [
            (_HALVES[above > 0, below > 0], max(above, below))
            for above, below in zip(upper, lower, strict=True)
        ]
        if row in self._words:
            left, text, ink = self._words[row]
            cells[left : left + len(text)] = [(character, int(ink)) for character in text]
        return tuple(
            ("".join(character for character, _ in run), Ink(ink))
            for ink, run in groupby(cells, key=lambda cell: cell[1])
        )


def plain_text(picture: Picture) -> str:
    """Return the characters of a picture alone, a line a row."""
    return "\n".join("".join(text for text, _ in row).rstrip() for row in picture)
