"""A barbell in a rack, drawn at the height where the bar should be."""

from __future__ import annotations

import numpy as np

from tempo_coach.ui.canvas import Canvas, Ink
from tempo_coach.ui.glyphs import Bitmap

_ENDS = (1, 5, 9)
"""Heights of sleeve, small and large disc, from the outside in; odd, so that the shaft is amid."""


def barbell(width: int) -> Bitmap:
    """Draw the barbell from the front; its discs grow with its width."""
    scale = max(width // 12, 1)
    drawn = np.zeros((_ENDS[-1] * scale, width), dtype=np.bool_)
    for place, height in enumerate(_ENDS):
        margin = (_ENDS[-1] - height) // 2 * scale
        column = slice(place * scale, (place + 1) * scale)
        drawn[margin : margin + height * scale, column] = True
    middle = len(drawn) // 2
    thick = max(scale // 2, 0)
    drawn[middle - thick : middle - thick + scale, :] = True
    return drawn | drawn[:, ::-1]


def bar_top(height: float, *, bar_pixels: int, room_pixels: int) -> int:
    """Return the first half row of the barbell, from 0 at the top of its room."""
    return round((1.0 - height) * max(room_pixels - bar_pixels, 0))


def draw_rack(canvas: Canvas, *, left: int, width: int, pixels: int, height: float) -> None:
    """Draw uprights, floor and barbell into columns of a canvas, over its full height.

    Parameters
    ----------
    canvas
        What is drawn into.
    left
        First column.
    width
        Columns.
    pixels
        Half rows.
    height
        Where the bar should be, 0 at the bottom to 1 at the top.
    """
    rack = np.zeros((pixels, width), dtype=np.bool_)
    inset = width // 3
    # Dotted, so that without colour the uprights are still no part of the barbell.
    rack[::2, [inset, -inset - 1]] = True
    rack[-1, :] = True
    canvas.paint(rack, left=left, top=0, ink=Ink.RACK)
    bar = barbell(width)
    top = bar_top(height, bar_pixels=len(bar), room_pixels=pixels - 1)
    canvas.paint(bar, left=left, top=top, ink=Ink.BARBELL)
