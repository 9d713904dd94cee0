"""How a sign fills the room it has: the word above, the figure below, the rack at the side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tempo_coach.ui.barbell import draw_rack
from tempo_coach.ui.canvas import Canvas, Ink, Picture
from tempo_coach.ui.glyphs import GLYPH_HEIGHT, big_text, text_width
from tempo_coach.ui.sign import WIDEST_WORD, Sign

_WORD_SHARE = 0.36
_ASIDE_SHARE = 0.45
_LEAST_RACK = 9
_MOST_RACK = 42


@dataclass(frozen=True, slots=True)
class _Box:
    """Room in columns and half rows."""

    left: int
    top: int
    width: int
    height: int

    def below(self, height: int) -> _Box:
        return _Box(self.left, self.top + height, self.width, max(self.height - height, 0))

    def narrowed(self, width: int) -> _Box:
        return _Box(self.left, self.top, max(self.width - width, 0), self.height)


@dataclass(frozen=True, slots=True)
class _Place:
    """Where in its box a drawing stands: 0 at the left or top, 1 at the right or bottom."""

    across: float
    down: float


@dataclass(frozen=True, slots=True)
class _Scale:
    """Columns and half rows a pixel; none where even the smallest glyphs do not fit."""

    across: int
    down: int


def picture(sign: Sign, *, columns: int, rows: int) -> Picture:
    """Draw a sign as large as whole factors allow.

    Parameters
    ----------
    sign
        What it says.
    columns, rows
        The room, in cells of the terminal.
    """
    canvas = Canvas(columns, rows)
    box = _Box(0, 0, columns, rows * 2)
    gap = max(rows // 10, 1)
    if sign.height is not None:
        rack = min(max(columns // 6, _LEAST_RACK), _MOST_RACK, columns)
        draw_rack(canvas, left=columns - rack, width=rack, pixels=rows * 2, height=sign.height)
        box = box.narrowed(rack + gap)
    if sign.word:
        box = _draw_word(canvas, sign, box, gap)
    if sign.aside:
        box = _draw_aside(canvas, sign, box, gap)
    if sign.figure:
        _draw_figure(canvas, sign, box, gap)
    return canvas.picture()


def _draw_word(canvas: Canvas, sign: Sign, box: _Box, gap: int) -> _Box:
    """Draw the phase at the top, or amid its box where it stands alone; return what is left."""
    room = box.height
    if sign.figure:
        room = max(int(room * _WORD_SHARE), min(GLYPH_HEIGHT, (room - gap) // 2))
    scale = _scale((WIDEST_WORD,), box.width, room, gap)
    place = _Place(0, 0) if sign.figure else _Place(0.5, 0.5)
    height = _draw(canvas, (sign.word,), scale, box, place, gap, sign.ink)
    return box.below(height + gap)


def _draw_aside(canvas: Canvas, sign: Sign, box: _Box, gap: int) -> _Box:
    """Draw which rep it is at the bottom right; return what is left beside it."""
    lines = len(sign.aside_room)
    scale = _scale(sign.aside_room, int(box.width * _ASIDE_SHARE), box.height, 1)
    spare = box.height - GLYPH_HEIGHT * scale.down * lines
    line_gap = max(min(spare // max(lines - 1, 1), gap), 1)
    _draw(canvas, sign.aside, scale, box, _Place(1, 1), line_gap, Ink.PLAIN)
    return box.narrowed(_width(sign.aside_room, scale) + gap + 1)


def _draw_figure(canvas: Canvas, sign: Sign, box: _Box, gap: int) -> None:
    """Draw what is counted, or the speed in one line or two, whichever is larger."""
    if sign.figure_room:
        lines: Sequence[str] = (sign.figure,)
        scale = _scale((sign.figure_room,), box.width, box.height, gap)
    else:
        lines, scale = max(
            (
                (lines, _stretched(lines, _scale(lines, box.width, box.height, gap), box, gap))
                for lines in ((sign.figure,), tuple(sign.figure.split()))
            ),
            key=lambda choice: (choice[1].across, choice[1].down),
        )
    place = _Place(0, 0.5) if sign.word else _Place(0.5, 0.5)
    _draw(canvas, lines, scale, box, place, gap, sign.ink)


def _scale(lines: Sequence[str], width: int, height: int, gap: int) -> _Scale:
    """Return the largest scale at which lines fit, one above the other."""
    widest = max(text_width(line) for line in lines)
    high = (height - gap * (len(lines) - 1)) // (GLYPH_HEIGHT * len(lines))
    scale = max(min(width // widest, high), 0)
    return _Scale(scale, scale)


def _stretched(lines: Sequence[str], scale: _Scale, box: _Box, gap: int) -> _Scale:
    """Return the scale made up to twice as tall, where there is height but no width left."""
    down = (box.height - gap * (len(lines) - 1)) // (GLYPH_HEIGHT * len(lines))
    return _Scale(scale.across, min(down, scale.across * 2))


def _width(lines: Sequence[str], scale: _Scale) -> int:
    if not scale.across:
        return max(len(line) for line in lines)
    return max(text_width(line) for line in lines) * scale.across


def _draw(
    canvas: Canvas,
    lines: Sequence[str],
    scale: _Scale,
    box: _Box,
    place: _Place,
    gap: int,
    ink: Ink,
) -> int:
    """Draw lines one above the other and return their height in half rows."""
    step = GLYPH_HEIGHT * scale.down + gap if scale.across else 2
    height = step * len(lines) - (gap if scale.across else 0)
    top = box.top + int((box.height - height) * place.down)
    for line in lines:
        left = box.left + int((box.width - _width((line,), scale)) * place.across)
        if scale.across:
            drawn = big_text(line, across=scale.across, down=scale.down)
            canvas.paint(drawn, left=left, top=top, ink=ink)
        else:
            canvas.write(line, left=max(left, 0), row=top // 2, ink=ink)
        top += step
    return height
