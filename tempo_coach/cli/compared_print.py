"""A compared set on standard output: its path, its tables, and what is to be said of it."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from types import MappingProxyType

import click
from rich.console import Console
from rich.text import Text

from tempo_coach.cli.tables import print_table
from tempo_coach.cli.wrapping import WIDTH, wrapped
from tempo_coach.core.compared_set import ComparedSet
from tempo_coach.core.compared_table import (
    PHASE_HEADINGS,
    SPEED_HEADINGS,
    loss_words,
    phase_rows,
    speed_rows,
)
from tempo_coach.core.path_picture import NARROWEST, WIDEST, PathInk, path_picture, path_text
from tempo_coach.core.prescribed_path import paths_of

_COLOURS: Mapping[PathInk, str] = MappingProxyType(
    {PathInk.NONE: "", PathInk.MEASURED: "bold cyan", PathInk.ASKED: "bright_black"}
)


def print_compared(compared: ComparedSet) -> None:
    """Print the path and the tables of a compared set, and what is to be said of it."""
    click.echo(f"{compared.prescription}\n")
    _print_paths(compared)
    print_table(PHASE_HEADINGS, phase_rows(compared))
    click.echo()
    print_table(SPEED_HEADINGS, speed_rows(compared))
    click.echo()
    said = (loss_words(compared), *compared.adherence.sentences(), *compared.remarks())
    for words in filter(None, said):
        click.echo(wrapped(words))


def _print_paths(compared: ComparedSet) -> None:
    """Print the path: in colours on a terminal that has some, else in plain characters."""
    if not sys.stdout.isatty() or not sys.stdout.encoding.lower().startswith("utf"):
        drawn = path_picture(paths_of(compared), width=WIDTH, is_plain=True)
        click.echo(f"{path_text(drawn)}\n{'# measured, . prescribed':>{WIDTH}}\n")
        return
    console = Console(file=sys.stdout, highlight=False, soft_wrap=True)
    width = max(min(console.width, WIDEST), NARROWEST)
    for row in path_picture(paths_of(compared), width=width, is_plain=False):
        console.print(Text.assemble(*((part.text, _COLOURS[part.ink]) for part in row)))
    words = ("measured", _COLOURS[PathInk.MEASURED]), "  ", ("prescribed", _COLOURS[PathInk.ASKED])
    console.print(Text(" " * (width - 20)) + Text.assemble(*words))
    console.print()
