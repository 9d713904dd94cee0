"""The bar's height over time in characters, with what was prescribed behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from tempo_coach.core.bar_motion import Floats
from tempo_coach.core.prescribed_path import Paths

ROWS = 12
NARROWEST, WIDEST = 40, 160
_LABEL = 7
"""Columns of the heights on the left."""
_BRAILLE = 0x2800
# Bits of the eight dots of a cell, by row and column (ISO/IEC 10646, block 2800).
_DOTS = np.array([[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]])

_Mask: TypeAlias = npt.NDArray[np.bool_]


class PathInk(StrEnum):
    """What a mark belongs to."""

    NONE = "none"
    MEASURED = "measured"
    ASKED = "asked"


@dataclass(frozen=True, slots=True)
class PathPart:
    """Characters of one ink."""

    text: str
    ink: PathInk


PathPicture: TypeAlias = tuple[tuple[PathPart, ...], ...]


def path_picture(paths: Paths, *, width: int, is_plain: bool) -> PathPicture:
    """Draw the path that was measured over the one that was asked for.

    Parameters
    ----------
    paths
        What is drawn.
    width
        Columns, labels included.
    is_plain
        ASCII alone: ``#`` for what was measured, ``.`` for what was asked.
    """
    columns = width - _LABEL
    fine = (1, 1) if is_plain else _DOTS.shape
    sheet = _Sheet(paths, ROWS * fine[0], columns * fine[1])
    measured = sheet.drawn(paths.times_s, paths.height_m)
    asked = np.zeros_like(measured)
    for corners in filter(None, paths.asked):
        asked |= sheet.drawn(*(np.array(one) for one in zip(*corners, strict=True)))
    draw = _plain_row if is_plain else _braille_row
    high = f"{sheet.high_m:.2f} m"
    rows = []
    for row in range(ROWS):
        label = high if row == 0 else "0.00 m" if row == ROWS - 1 else ""
        inside = slice(row * fine[0], (row + 1) * fine[0])
        cells = draw(measured[inside], asked[inside])
        rows.append((PathPart(f"{label:>{_LABEL - 1}} ", PathInk.NONE), *_runs(cells)))
    rows.append((PathPart(" " * _LABEL + _seconds(paths, columns), PathInk.NONE),))
    return tuple(rows)


def path_text(picture: PathPicture) -> str:
    """Return the characters of a picture alone, a line a row."""
    return "\n".join("".join(part.text for part in row).rstrip() for row in picture)


class _Sheet:
    """Turns seconds and metres into places."""

    def __init__(self, paths: Paths, rows: int, columns: int) -> None:
        self._shape = (rows, columns)
        self._begins_s, self._ends_s = (float(one) for one in paths.times_s[[0, -1]])
        self.high_m = max(float(paths.height_m.max()), 0.01)
        self._low_m = min(float(paths.height_m.min()), 0.0)

    def drawn(self, times_s: Floats, height_m: Floats) -> _Mask:
        """Return where a line between points leaves ink."""
        rows, columns = self._shape
        mask = np.zeros(self._shape, dtype=np.bool_)
        # Every column, and a steep line also every row that it passes.
        steps = self._begins_s + (np.arange(columns * 4) + 0.5) / (columns * 4) * (
            self._ends_s - self._begins_s
        )
        heights = np.interp(steps, times_s, height_m, left=np.nan, right=np.nan)
        share = (heights - self._low_m) / (self.high_m - self._low_m)
        places = (1 - np.clip(share, 0, 1)) * (rows - 1)
        before: int | None = None
        for step, place in enumerate(places):
            if np.isnan(place):
                before = None
                continue
            here = round(float(place))
            above, below = sorted((here, here if before is None else before))
            mask[above : below + 1, step // 4] = True
            before = here
        return mask


def _plain_row(measured: _Mask, asked: _Mask) -> Iterator[tuple[str, PathInk]]:
    for is_measured, is_asked in zip(measured[0], asked[0], strict=True):
        if is_measured:
            yield "#", PathInk.MEASURED
        else:
            yield (".", PathInk.ASKED) if is_asked else (" ", PathInk.NONE)


def _braille_row(measured: _Mask, asked: _Mask) -> Iterator[tuple[str, PathInk]]:
    for left in range(0, measured.shape[1], 2):
        cell = slice(left, left + 2)
        for mask, ink in ((measured, PathInk.MEASURED), (asked, PathInk.ASKED)):
            if bits := int((_DOTS * mask[:, cell]).sum()):
                yield chr(_BRAILLE + bits), ink
                break
        else:
            yield " ", PathInk.NONE


def _runs(cells: Iterator[tuple[str, PathInk]]) -> Iterator[PathPart]:
    for ink, run in groupby(cells, key=lambda cell: cell[1]):
        yield PathPart("".join(character for character, _ in run), ink)


def _seconds(paths: Paths, columns: int) -> str:
    """Return the line beneath: when it begins and ends, and where the reps begin."""
    begins_s, ends_s = (float(one) for one in paths.times_s[[0, -1]])
    line = [" "] * columns
    ends = (f"{begins_s:.0f} s", f"{ends_s:.0f} s")
    for number, corners in enumerate(paths.asked, start=1):
        if corners:
            at = round((corners[0][0] - begins_s) / (ends_s - begins_s) * columns)
            _put(line, f"rep {number}" if columns > 12 * len(paths.asked) else str(number), at)
    _put(line, ends[0], 0)
    _put(line, ends[1], columns - len(ends[1]))
    return "".join(line).rstrip()


def _put(line: list[str], text: str, at: int) -> None:
    room = line[max(at - 1, 0) : at + len(text) + 1]
    if at + len(text) <= len(line) and all(one == " " for one in room):
        line[at : at + len(text)] = text
