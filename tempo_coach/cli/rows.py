"""Labels with their words, wrapped for a page of 80 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

import click

from tempo_coach.core.legible import legible

WIDTH = 80
_LABEL = 17


def print_rows(rows: Iterable[tuple[str, str]]) -> None:
    """Print each label, and beside it its words; a label that was the one before stays away."""
    before = ""
    for label, words in rows:
        shown = "" if label == before else label
        click.echo(wrapped(words, first=f"{shown:<{_LABEL}}", indent=" " * _LABEL))
        before = label


def wrapped(words: str, *, first: str = "", indent: str = "") -> str:
    """Return words as lines of at most 80 columns."""
    return textwrap.fill(
        legible(words),
        width=WIDTH,
        initial_indent=first,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )
