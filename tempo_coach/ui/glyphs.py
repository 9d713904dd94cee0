"""Letters and digits of 5 × 7 pixels, to be enlarged by whole factors."""

from __future__ import annotations

from typing import Final, TypeAlias

import numpy as np
import numpy.typing as npt

Bitmap: TypeAlias = npt.NDArray[np.bool_]
"""Shape ``(height, width)``, True where there is ink."""

GLYPH_HEIGHT: Final = 7
_GLYPH_WIDTH = 5
_GAP = 1

_SHEETS = (
    (
        "0123456789",
        """
        .###. ..#.. .###. .###. ...#. ##### ..##. ##### .###. .###.
        #...# .##.. #...# #...# ..##. #.... .#... ....# #...# #...#
        #...# ..#.. ....# ....# .#.#. ####. #.... ...#. #...# #...#
        #...# ..#.. ...#. ..##. #..#. ....# ####. ..#.. .###. .####
        #...# ..#.. ..#.. ....# ##### ....# #...# ..#.. #...# ....#
        #...# ..#.. .#... #...# ...#. #...# #...# ..#.. #...# ...#.
        .###. .###. ##### .###. ...#. .###. .###. ..#.. .###. .##..
        """,
    ),
    (
        "ABCDEFGHIJ",
        """
        .###. ####. .###. ####. ##### ##### .###. #...# .###. ..###
        #...# #...# #...# #...# #.... #.... #...# #...# ..#.. ...#.
        #...# #...# #.... #...# #.... #.... #.... #...# ..#.. ...#.
        ##### ####. #.... #...# ####. ####. #.### ##### ..#.. ...#.
        #...# #...# #.... #...# #.... #.... #...# #...# ..#.. ...#.
        #...# #...# #...# #...# #.... #.... #...# #...# ..#.. #..#.
        #...# ####. .###. ####. ##### #.... .###. #...# .###. .##..
        """,
    ),
    (
        "KLMNOPQRST",
        """
        #...# #.... #...# #...# .###. ####. .###. ####. .#### #####
        #..#. #.... ##.## ##..# #...# #...# #...# #...# #.... ..#..
        #.#.. #.... #.#.# #.#.# #...# #...# #...# #...# #.... ..#..
        ##... #.... #.#.# #.#.# #...# ####. #...# ####. .###. ..#..
        #.#.. #.... #...# #.#.# #...# #.... #.#.# #.#.. ....# ..#..
        #..#. #.... #...# #..## #...# #.... #..#. #..#. ....# ..#..
        #...# ##### #...# #...# .###. #.... .##.# #...# ####. ..#..
        """,
    ),
    (
        "UVWXYZ:/.?",
        """
        #...# #...# #...# #...# #...# ##### ..... ...#. ..... .###.
        #...# #...# #...# #...# #...# ....# ..#.. ...#. ..... #...#
        #...# #...# #.#.# .#.#. .#.#. ...#. ..#.. ..#.. ..... ....#
        #...# #...# #.#.# ..#.. ..#.. ..#.. ..... ..#.. ..... ...#.
        #...# #...# #.#.# .#.#. ..#.. .#... ..#.. ..#.. ..... ..#..
        #...# .#.#. ##.## #...# ..#.. #.... ..#.. .#... .##.. .....
        .###. ..#.. #...# #...# ..#.. ##### ..... .#... .##.. ..#..
        """,
    ),
)


def _cut(names: str, sheet: str) -> dict[str, Bitmap]:
    rows = [row.split() for row in sheet.split("\n") if row.strip()]
    return {
        name: np.array([[pixel == "#" for pixel in row[index]] for row in rows])
        for index, name in enumerate(names)
    }


def _narrowed(name: str, glyph: Bitmap) -> Bitmap:
    # Digits keep one width, so that a number does not shift while it is counted.
    if name.isdigit():
        return glyph
    inked = np.flatnonzero(glyph.any(axis=0))
    return glyph[:, inked[0] : inked[-1] + 1]


_GLYPHS: dict[str, Bitmap] = {
    name: _narrowed(name, glyph)
    for names, sheet in _SHEETS
    for name, glyph in _cut(names, sheet).items()
} | {" ": np.zeros((GLYPH_HEIGHT, _GLYPH_WIDTH - 2), dtype=np.bool_)}


def text_width(text: str) -> int:
    """Return the width of a text in pixels, before it is enlarged."""
    return sum(int(_GLYPHS[name].shape[1]) for name in text) + _GAP * max(len(text) - 1, 0)


def big_text(text: str, *, across: int, down: int) -> Bitmap:
    """Draw a text, each pixel enlarged by whole factors.

    Parameters
    ----------
    text
        Of the characters 0-9, A-Z, ``:``, ``/``, ``.``, ``?`` and space.
    across
        Columns a pixel; at least 1.
    down
        Half rows a pixel; at least 1.

    Returns
    -------
    Bitmap
        Shape ``(7 × down, width × across)``.

    Raises
    ------
    KeyError
        A character has no glyph.
    """
    gap = np.zeros((GLYPH_HEIGHT, _GAP), dtype=np.bool_)
    parts: list[Bitmap] = []
    for name in text:
        parts += [_GLYPHS[name], gap]
    if not parts:
        return np.zeros((GLYPH_HEIGHT * down, 0), dtype=np.bool_)
    small = np.hstack(parts[:-1])
    return np.kron(small, np.ones((down, across), dtype=np.bool_))
