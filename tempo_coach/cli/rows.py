"""Labels with their words, on a page of 80 columns."""

from __future__ import annotations

from collections.abc import Iterable

import click

from tempo_coach.cli.wrapping import wrapped

_LABEL = 17


def print_rows(rows: Iterable[tuple[str, str]]) -> None:
    """Print each label, and beside it its words; a label that was the one before stays away."""
    before = ""
    for label, words in rows:
        shown = "" if label == before else label
        click.echo(wrapped(words, first=f"{shown:<{_LABEL}}", indent=" " * _LABEL))
        before = label
