"""The command that says what goes on the bar."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from decimal import Decimal

import click
from rich.console import Console
from rich.text import Text

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Wishes
from tempo_coach.cli.options import json_option
from tempo_coach.cli.tables import print_json
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.bar_answer import (
    BarAnswer,
    answer_data,
    bar_answer,
    lowered_bars,
)
from tempo_coach.core.bar_picture import (
    ASCII_INKS,
    BLOCK_INKS,
    NARROWEST_PICTURE,
    WIDEST_PICTURE,
    bar_picture,
    picture_text,
)
from tempo_coach.core.bar_words import (
    change_words,
    difference_words,
    kg_words,
    pile_words,
    side_words,
)
from tempo_coach.core.cautions import OVERLOAD
from tempo_coach.core.disc_piles import mass_kg
from tempo_coach.core.discs import DiscSet, parse_discs
from tempo_coach.core.legible import quoted
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.loading import BarChange, LoadedBar, Lowering, Rack
from tempo_coach.core.rack_values import read_bar, read_collars, read_releaser
from tempo_coach.core.settings import Settings
from tempo_coach.core.typed_load import read_typed_load
from tempo_coach.errors import OutOfRange

_NEGATIVE = re.compile(r"-[0-9.]")


class _LoadCommand(click.Command):
    """Says of a number below 0 what it is, where click would look for an option of that name."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        for one in args:
            if _NEGATIVE.match(one):
                raise OutOfRange(
                    f"{quoted(one)} is below 0", hint="loads are above 0, such as 80 kg"
                )
        return super().parse_args(ctx, args)


@click.command("load", cls=_LoadCommand)
@click.argument("load", metavar="LOAD")
@click.option("--bar", metavar="MASS", help="The empty bar [else as set, or 20 kg].")
@click.option("--collars", metavar="MASS", help="Both collars together [else as set, or 0].")
@click.option(
    "--discs",
    type=parse_discs,
    metavar="DISCS",
    help="iwf, powerlifting, pounds, or how many there are of each size, such as "
    '"20x4 10x4 2.5x2" [else as set, or powerlifting].',
)
@click.option("--from", "before", metavar="LOAD", help="What is on the bar now.")
@click.option("--lower", metavar="LOAD", help="What is lowered, where that is more than is raised.")
@click.option("--releaser", metavar="MASS", help="One of two releasers [else as set, or 0].")
@json_option
def load_command(
    load: str,
    bar: str | None,
    collars: str | None,
    discs: DiscSet | None,
    before: str | None,
    lower: str | None,
    releaser: str | None,
    as_json: bool,
) -> None:
    """Say what goes on the bar for a load, or what is nearest to it.

    A number alone is in the unit of the settings. Discs are counted one by one, and loaded in
    pairs.

    \b
    tempo-coach load 87.5
    tempo-coach load "185 lb" --bar "45 lb" --discs pounds
    tempo-coach load 110 --from 80 --collars 5
    tempo-coach load 100 --lower 130
    """
    made = bootstrap.program(Wishes(is_silent=True))
    settings = made.coach.settings
    unit = LoadUnit(settings.unit)
    answer = bar_answer(
        Rack(
            settings.bar if bar is None else read_bar(bar, unit=unit),
            settings.collars if collars is None else read_collars(collars, unit=unit),
            settings.discs if discs is None else discs,
        ),
        _load(load, settings),
        before=None if before is None else _load(before, settings),
        lower=None if lower is None else _load(lower, settings),
        releaser=settings.releaser if releaser is None else read_releaser(releaser, unit=unit),
    )
    for notice in made.notices:
        click.echo(f"tempo-coach: {notice}", err=True)
    if as_json:
        print_json(answer_data(answer))
    else:
        _print_answer(answer)


def _load(text: str, settings: Settings) -> Load:
    return read_typed_load(text, before=None, unit=LoadUnit(settings.unit))


def _print_answer(answer: BarAnswer) -> None:
    unit, first = answer.load.unit, answer.ways[0].bar
    if answer.is_exact:
        click.echo(f"{answer.load}: {side_words(first)}")
    else:
        click.echo(f"{answer.load} can't be loaded with these discs. The nearest:")
        for way in answer.ways:
            click.echo(f"{_total_words(way.bar.kg, answer.kg, unit)}: {side_words(way.bar)}")
    click.echo(_sum_words(first, unit))
    click.echo()
    _print_picture(first)
    parts = (_from_words(answer), _lowering_words(answer))
    for part in filter(None, map(tuple, parts)):
        click.echo()
        for words in part:
            click.echo(wrapped(words))


def _total_words(kg: Decimal, asked_kg: Decimal, unit: LoadUnit) -> str:
    return f"{kg_words(kg, unit)}, {difference_words(kg - asked_kg, unit)}"


def _sum_words(bar: LoadedBar, unit: LoadUnit) -> str:
    parts = [f"bar {bar.rack.bar}"]
    if bar.rack.collars.amount:
        parts.append(f"collars {bar.rack.collars}")
    if bar.side:
        parts.append(f"discs 2 x {kg_words(mass_kg(bar.side), bar.side[0].unit)}")
    return f"{' + '.join(parts)} = {kg_words(bar.kg, unit)}"


def _print_picture(bar: LoadedBar) -> None:
    """Print a bar: in colours on a terminal that has some, else in plain characters."""
    if not sys.stdout.isatty() or not sys.stdout.encoding.lower().startswith("utf"):
        click.echo(picture_text(bar_picture(bar, inks=ASCII_INKS)))
        return
    # Without colours where NO_COLOR or the terminal says so.
    console = Console(file=sys.stdout, highlight=False, soft_wrap=True)
    width = max(min(console.width, WIDEST_PICTURE), NARROWEST_PICTURE)
    for row in bar_picture(bar, width=width, inks=BLOCK_INKS):
        console.print(Text.assemble(*((part.text, part.colour or "") for part in row)))


def _from_words(answer: BarAnswer) -> Iterator[str]:
    if answer.before is None:
        return
    unit = answer.load.unit
    yield f"From {kg_words(answer.before.kg, unit)}, {side_words(answer.before)}:"
    for way in answer.ways:
        if way.change is not None:
            to = "" if answer.is_exact else f"to {kg_words(way.bar.kg, unit)}: "
            yield f"{to}{change_words(way.change)}; {_moves_words(way.change)}"


def _moves_words(change: BarChange) -> str:
    return f"{change.moves} disc{'' if change.moves == 1 else 's'} moved on each"


def _lowering_words(answer: BarAnswer) -> Iterator[str]:
    found = answer.lowering
    if found is None or answer.by_hand is None:
        return
    unit, raised = answer.load.unit, kg_words(answer.ways[0].bar.kg, answer.load.unit)
    yield f"Raise {raised}, lower {kg_words(found.kg, unit)}. On each of two releasers:"
    yield from _lowered_words(found, unit)
    releaser = f"A releaser counts as {lowered_bars(found)[0].releaser}."
    if answer.by_hand == found:
        yield (
            f"{releaser} Without releasers, the same goes outermost on each side, and two "
            "helpers take it off at the bottom."
        )
    else:
        yield (
            f"{releaser} Without releasers, outermost on each side, for two helpers to take off "
            "at the bottom:"
        )
        yield from _lowered_words(answer.by_hand, unit)
    yield OVERLOAD


def _lowered_words(found: Lowering, unit: LoadUnit) -> Iterator[str]:
    bars = lowered_bars(found)
    if found.exact is None:
        yield f"{kg_words(found.kg, unit)} can't be had. The nearest:"
    for bar in bars:
        total = kg_words(bar.kg, unit)
        if found.exact is None:
            total = _total_words(bar.kg, found.kg, unit)
        yield f"{total}: {pile_words(bar.hung)}"
