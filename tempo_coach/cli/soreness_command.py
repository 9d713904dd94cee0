"""The command that records how sore a lifter is, and lists what was told."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Program, Wishes
from tempo_coach.cli.options import given_settings, lifter_option, log_option
from tempo_coach.cli.tables import print_table
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.coach import Coach
from tempo_coach.core.history import History
from tempo_coach.core.legible import legible, quoted
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.recorded_soreness import asks_for_soreness
from tempo_coach.core.set_notes import soreness_notes
from tempo_coach.core.soreness_facts import MOST_SORE
from tempo_coach.errors import OutOfRange

_QUESTION = f"How sore are you today, 0 to {MOST_SORE}? Enter goes on without a number:"
_ALLOWED = f"a whole number from 0, not at all, to {MOST_SORE}"


def _read(text: str) -> int:
    """Return a soreness as it is typed.

    Raises
    ------
    OutOfRange
        It is none.
    """
    typed = text.strip()
    if not (typed.isascii() and typed.isdigit() and int(typed) <= MOST_SORE):
        raise OutOfRange(f"{quoted(typed)} is no soreness", hint=_ALLOWED)
    return int(typed)


@click.command("soreness")
@click.argument("soreness", metavar="[0-10]", required=False)
@lifter_option
@log_option
def soreness_command(soreness: str | None, log_path: Path | None, **given: object) -> None:
    """Record how sore a lifter is today, 0 to 10, or list it.

    0 is not at all; without a number what was told is listed. The latest answer of a day counts.
    Where it is above soreness_most of the plan that was opened last (5 without one), that is said
    before a set; it blocks nothing and diagnoses nothing.

    \b
    tempo-coach soreness 6
    tempo-coach soreness 3 --lifter "Mirela Oude"
    tempo-coach soreness
    """
    made = bootstrap.program(Wishes(log_path, is_silent=True, settings=given_settings(**given)))
    if soreness is None:
        _list(made)
        return
    level = _read(soreness)
    if made.lifter is None:
        raise click.UsageError("nobody is named; say who it is with --lifter NAME")
    told, problem = made.coach.tell_soreness(made.lifter, level)
    if problem is not None:
        raise problem
    day = told.at.date().isoformat()
    click.echo(f"recorded: {legible(told.lifter)}, soreness {level} of {MOST_SORE}, {day}")
    _say_notes(made, made.lifter, level)


def ask_soreness(coach: Coach, history: History, *, lifter: str) -> None:
    """Ask at a terminal how sore a lifter is before the first set of a day, and log the answer.

    Parameters
    ----------
    coach
        Whose settings say whether to ask, and whose log takes the answer.
    history
        What the log holds.
    lifter
        Who is about to lift.
    """
    day = coach.clock.wall().date()
    asks = coach.settings.soreness_check and sys.stdin.isatty()
    if not asks or not asks_for_soreness(history.sets, history.soreness, lifter=lifter, day=day):
        return
    while True:
        click.echo(f"{_QUESTION} ", nl=False, err=True)
        answer = sys.stdin.readline().strip()
        if not answer:
            return
        try:
            # What the disk does not take is saved with the first set, or told at the end.
            coach.tell_soreness(lifter, _read(answer))
        except OutOfRange as fault:
            click.echo(f"{fault}", err=True)
        else:
            return


def _say_notes(made: Program, lifter: str, level: int) -> None:
    plan = bootstrap.last_plan(made)
    rules = plan.rules_of(lifter) if plan is not None and plan.has(lifter) else DosingRules()
    for note in soreness_notes(level, rules=rules):
        click.echo(wrapped(note), err=True)


def _list(made: Program) -> None:
    soreness = made.coach.history().soreness
    told = soreness.told if made.lifter is None else soreness.of(made.lifter)
    rows = [(one.at.date().isoformat(), one.lifter, str(one.soreness)) for one in told]
    if rows:
        print_table(("day", "lifter", f"of {MOST_SORE}"), rows, left=2)
    else:
        click.echo("nobody has told it yet; 'tempo-coach soreness 6' does")
