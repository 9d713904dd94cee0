"""Tables and JSON on standard output."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Sequence
from typing import Any

import click
from rich.console import Console
from rich.table import Table
from rich.text import Text

from tempo_coach.core.legible import legible

_UNBROKEN = 10_000
"""Columns for a pipe, where no line should be broken."""


def print_table(
    headings: Sequence[str], rows: Iterable[Sequence[str]], *, left: int = 1, title: str = ""
) -> None:
    """Print rows under their headings: the first `left` columns to the left, the rest to the right.

    Text is shown literally, without boxes and colours.
    """
    table = Table(
        box=None, pad_edge=False, padding=(0, 2, 0, 0), title_justify="left", show_header=True
    )
    for index, heading in enumerate(headings):
        table.add_column(
            Text(heading), justify="left" if index < left else "right", overflow="fold"
        )
    for row in rows:
        table.add_row(*(Text(legible(cell)) for cell in row))
    console = Console(
        file=sys.stdout,
        width=None if sys.stdout.isatty() else _UNBROKEN,
        color_system=None,
        highlight=False,
    )
    with console.capture() as printed:
        console.print(table)
    if title:
        click.echo(title)
    for line in printed.get().splitlines():
        click.echo(line.rstrip())


def print_json(data: Any) -> None:
    """Print a value as JSON (RFC 8259), with its own characters in UTF-8."""
    click.echo(json.dumps(data, ensure_ascii=False, allow_nan=False, indent=2))
