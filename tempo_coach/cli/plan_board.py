"""A week of a plan on standard output, as it would stand on a board."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import click

from tempo_coach.cli.tables import print_table
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.bar_words import set_words
from tempo_coach.core.board import Board, BoardDay, BoardLine, bar_of
from tempo_coach.core.legible import legible
from tempo_coach.core.loading import Rack
from tempo_coach.core.marks import counted
from tempo_coach.core.plan import WEEKDAYS
from tempo_coach.core.plan_sums import PlannedTotals
from tempo_coach.core.tempo import seconds_text


def print_boards(boards: Sequence[Board], *, rack: Rack | None) -> None:
    """Print the boards of several lifters, and what their marks mean.

    Parameters
    ----------
    boards
        What is printed.
    rack
        What loads are to be loaded with; None leaves it out.
    """
    for board in boards:
        _print_board(board, rack)
    for note in _notes([board.total for board in boards]):
        click.echo(note)


def _print_board(board: Board, rack: Rack | None) -> None:
    click.echo(f"\n{legible(board.lifter.name)}")
    if not board.days:
        click.echo("nothing this week")
    for day in board.days:
        _print_day(day, rack)
    if len(board.days) > 1:
        click.echo(f"\nweek: {_total_words(board.total)}")


def _print_day(day: BoardDay, rack: Rack | None) -> None:
    click.echo()
    rows = [
        (
            str(line.work.item),
            str(line.resolved.prescription),
            _seconds(line.one_set),
            _seconds(line.all_sets),
        )
        for line in day.lines
    ]
    title = f"{WEEKDAYS[day.day.date.weekday()]} {day.day.date.isoformat()}"
    print_table(("", "work", "a set", "all sets"), rows, left=2, title=title)
    for line in day.lines:
        note = " ".join(line.work.note.split())
        remarks = [f"remark: {flag}" for flag in line.flags]
        for said in filter(None, (line.resolved.words, _bar_words(line, rack), note, *remarks)):
            click.echo(wrapped(f"{line.work.item}: {said}", indent="   "))
    click.echo(f"day: {_total_words(day.total)}")


def _bar_words(line: BoardLine, rack: Rack | None) -> str:
    found = bar_of(line, rack)
    return "" if found is None else f"on the bar: {set_words(found)}"


def _seconds(totals: PlannedTotals) -> str:
    """Return ``20 of ≈35``: seconds of lowering, of seconds under tension."""
    if totals.open_sets:
        return "open"
    lower, tension = _marked(totals)
    return f"{lower} of {tension}"


def _total_words(totals: PlannedTotals) -> str:
    lower, tension = _marked(totals)
    more = "+" if totals.open_sets else ""
    return (
        f"{counted(totals.sets, 'set')}, {totals.reps}{more} reps, "
        f"lowering {lower}{more} s of {tension}{more} s under tension"
    )


def _marked(totals: PlannedTotals) -> tuple[str, str]:
    lower = "≈" if totals.by_allowance.lower_ms else ""
    tension = "≈" if totals.by_allowance.tension_ms else ""
    return (
        lower + seconds_text(totals.times.lower_ms),
        tension + seconds_text(totals.times.tension_ms),
    )


def _notes(totals: Sequence[PlannedTotals]) -> Iterator[str]:
    yield "\n'20 of 35': 20 seconds of lowering, of 35 under tension."
    if any(one.by_allowance.tension_ms for one in totals):
        yield "≈ rests in part on what planning counts for X, V and A."
    if any(one.open_sets for one in totals):
        yield "+ leaves out sets that run until they are stopped."
