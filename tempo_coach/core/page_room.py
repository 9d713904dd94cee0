"""How high text is on a printed page: estimates on the safe side, in millimetres.

They go with the sizes in the style sheet for print, and with the widest of the usual fonts.
"""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from itertools import accumulate

from tempo_coach.core.page_parts import Chart, Column, Row, Table

PAGE_MM = 277.0
"""What an A4 page holds between its margins of 10 mm."""
WIDTH_MM = 190.0
_LINE_PT = 1.25
"""The height of a line, in sizes of its letters."""
_PT_MM = 25.4 / 72
_TABLE_PT = 7.5
_RULED_MM = 1.0
"""What a row takes beside its lines."""
_CAPTION_MM = 6.0
_PANELS_MM = 18.0
"""A heading, small charts in one row without their names, and the gaps."""
PANEL_MM = 29.0
"""The width of a small chart."""
_PADDING_MM = 1.6
_SPACE = 0.35
_LETTER = 0.56
"""The width of most letters, in sizes."""
_DIGIT = 0.65
_CAPITAL = 1.1
_PICTURE = 1.4
"""Of an ideograph or a picture."""
_BOLD = 1.12
"""How much wider letters are in a row that stands out."""


def lines_of(text: str, *, size_pt: float, width_mm: float) -> int:
    """Return how many lines a text takes."""
    line = width_mm / (size_pt * _PT_MM)
    lines, taken = 1, 0.0
    for word in text.split(" "):
        width = sum(map(_width, word))
        if taken and taken + _SPACE + width > line:
            lines, taken = lines + 1, 0.0
        elif taken:
            taken += _SPACE
        # A word that is longer than a line goes on in the next.
        more = max(math.ceil(width / line) - 1, 0)
        lines, taken = lines + more, taken + width - more * line
    return lines


def _width(letter: str) -> float:
    if unicodedata.east_asian_width(letter) in "WF":
        return _PICTURE
    if letter.isdecimal():
        return _DIGIT
    return _CAPITAL if letter.isupper() or letter in "mw%" else _LETTER


def cut(text: str, *, size_pt: float, width_mm: float, most_lines: int) -> str:
    """Return a text, shortened where it takes more lines than it may."""
    if lines_of(text, size_pt=size_pt, width_mm=width_mm) <= most_lines:
        return text
    kept = text
    while lines_of(f"{kept}…", size_pt=size_pt, width_mm=width_mm) > most_lines:
        kept = kept[:-1]
    return f"{kept.rstrip()}…"


def fitted(table: Table, *, width_mm: float = WIDTH_MM) -> Table:
    """Return a table whose text is cut to the lines that its columns allow."""
    widths = _widths_of(table.columns, width_mm)
    cutters = [
        partial(cut, size_pt=_TABLE_PT * _BOLD, width_mm=width, most_lines=column.most_lines)
        if column.is_text
        else None
        for column, width in zip(table.columns, widths, strict=True)
    ]
    return replace(table, rows=tuple(_fitted(row, cutters) for row in table.rows))


def _fitted(row: Row, cutters: Sequence[Callable[[str], str] | None]) -> Row:
    heading, *cells = (
        text if cutter is None else cutter(text)
        for text, cutter in zip((row.heading, *row.cells), cutters, strict=True)
    )
    return replace(row, heading=heading, cells=tuple(cells))


def _widths_of(columns: Sequence[Column], width_mm: float) -> list[float]:
    sharing = sum(column.width_mm is None for column in columns)
    left_mm = width_mm - sum(column.width_mm or 0 for column in columns)
    return [(column.width_mm or left_mm / sharing) - _PADDING_MM for column in columns]


def text_mm(text: str, *, size_pt: float) -> float:
    """Return the height of a text as wide as the page."""
    lines = lines_of(text, size_pt=size_pt, width_mm=WIDTH_MM)
    return lines * size_pt * _LINE_PT * _PT_MM


def table_mm(table: Table, *, width_mm: float = WIDTH_MM) -> float:
    """Return the height of a table."""
    rows_mm = (_row_mm(row, table.columns, width_mm=width_mm) for row in table.rows)
    return heads_mm(table.columns, width_mm=width_mm) + sum(rows_mm)


def heads_mm(columns: Sequence[Column], *, width_mm: float = WIDTH_MM) -> float:
    """Return the height of a table without its rows."""
    first, *rest = (column.heading for column in columns)
    return _CAPTION_MM + _row_mm(Row(first, tuple(rest)), columns, width_mm=width_mm)


def _row_mm(row: Row, columns: Sequence[Column], *, width_mm: float) -> float:
    size_pt = _TABLE_PT * _BOLD if row.is_strong else _TABLE_PT
    widths = _widths_of(columns, width_mm)
    lines = max(
        lines_of(text, size_pt=size_pt, width_mm=width)
        for text, width in zip((row.heading, *row.cells), widths, strict=True)
    )
    return _RULED_MM + lines * _TABLE_PT * _LINE_PT * _PT_MM


def rows_within(table: Table, room_mm: float) -> int:
    """Return how many rows of a table as wide as the page there is room for."""
    heights = accumulate(_row_mm(row, table.columns, width_mm=WIDTH_MM) for row in table.rows)
    return sum(height <= room_mm for height in heights)


def chart_mm(chart: Chart) -> float:
    """Return the height of a chart with its figures."""
    names = (lines_of(panel.name, size_pt=_TABLE_PT, width_mm=PANEL_MM) for panel in chart.panels)
    return _PANELS_MM + max(names) * _TABLE_PT * _LINE_PT * _PT_MM + table_mm(chart.figures)
