"""Tables and JSON on standard output."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Sequence
from typing import Any

import click
from rich.cells import cell_len
from rich.console import Console, JustifyMethod
from rich.table import Table
from rich.text import Text

from tempo_coach.cli.wrapping import widest_piece, wrapped
from tempo_coach.core.legible import legible

_UNBROKEN = 10_000
"""Columns for a pipe, where no line should be broken."""
_WIDE = 100
"""From so many columns on a table needs no shortening."""
_GAPS = (2, 1)
"""Columns between two columns of a table, the wider where there is room."""


def is_narrow() -> bool:
    """Tell whether standard output is a terminal that does not show wide tables."""
    return sys.stdout.isatty() and _console().width < _WIDE


def print_table(
    headings: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    left: int = 1,
    whole: int = 0,
    title: str = "",
) -> None:
    """Print rows under their headings, without boxes and colours.

    On a terminal that is too narrow, headings and the columns to the left are broken between words;
    where that does not do, each row has its cells one after the other. No number and no word is
    ever broken, and no number stands on another line than its unit.

    Parameters
    ----------
    headings
        One for each column.
    rows
        Their cells, shown literally.
    left
        So many columns stand to the left, the rest to the right.
    whole
        So many of them are never broken.
    title
        What stands above.
    """
    console = _console()
    shown = [tuple(map(legible, row)) for row in rows]
    if title:
        print_line(title)
    table = _table(headings, shown, left=left, whole=whole, width=console.width)
    if table is None:
        for row in shown:
            click.echo(_record(headings, row, width=console.width))
        return
    with console.capture() as printed:
        console.print(table)
    for line in printed.get().splitlines():
        click.echo(line.rstrip())


def print_line(words: str) -> None:
    """Print words, broken where the terminal ends; in a pipe they stay on one line."""
    click.echo(wrapped(words, width=_console().width))


def _console() -> Console:
    width = None if sys.stdout.isatty() else _UNBROKEN
    return Console(file=sys.stdout, width=width, color_system=None, highlight=False)


def _table(
    headings: Sequence[str],
    rows: Sequence[Sequence[str]],
    *,
    left: int,
    whole: int,
    width: int,
) -> Table | None:
    """Return a table that is no wider, or None."""
    columns = [[heading, *cells] for heading, *cells in zip(headings, *rows, strict=True)]
    full = [max(map(cell_len, cells)) for cells in columns]
    tight = [
        max(map(widest_piece, cells))
        if whole <= place < left
        else max(widest_piece(cells[0]), *map(cell_len, cells[1:]), 0)
        for place, cells in enumerate(columns)
    ]
    for least, gap in ((full, _GAPS[0]), *((tight, gap) for gap in _GAPS)):
        room = width - sum(least) - gap * len(columns)
        if room >= 0:
            break
    else:
        return None
    widths = _widened(least[:left], full, room) + least[left:]
    table = Table(box=None, pad_edge=False, padding=(0, gap, 0, 0), show_header=True)
    for place, wide in enumerate(widths):
        justify: JustifyMethod = "left" if place < left else "right"
        heading = Text(wrapped(headings[place], width=wide))
        table.add_column(heading, justify=justify, width=wide)
    for row in rows:
        cells = zip(row, widths, strict=True)
        table.add_row(*(Text(wrapped(cell, width=wide)) for cell, wide in cells))
    return table


def _widened(least: Sequence[int], full: Sequence[int], room: int) -> list[int]:
    """Return the widths of columns, the room given to those that are broken into most lines."""
    widths = list(least)
    for _ in range(min(room, sum(full[: len(widths)]) - sum(widths))):
        lines = [enough / max(wide, 1) for enough, wide in zip(full, widths, strict=False)]
        widths[lines.index(max(lines))] += 1
    return widths


def _record(headings: Sequence[str], row: Sequence[str], *, width: int) -> str:
    """Return a row as words: what it is, and beneath it each cell behind its heading."""
    named = zip(headings[1:], row[1:], strict=True)
    cells = ", ".join(f"{heading} {cell}".strip() for heading, cell in named if cell)
    shown = wrapped(cells, width=width, first="  ", indent="  ") if cells else ""
    return "\n".join(filter(None, (wrapped(row[0], width=width), shown)))


def print_json(data: Any) -> None:
    """Print a value as JSON (RFC 8259), with its own characters in UTF-8."""
    click.echo(json.dumps(data, ensure_ascii=False, allow_nan=False, indent=2))
