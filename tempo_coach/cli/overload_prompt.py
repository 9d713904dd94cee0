"""What is said and asked before a line is begun that leaves its range."""

from __future__ import annotations

import sys

import click

from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.method_flags import flags
from tempo_coach.core.overload import READY, OverloadQuestion, overload_question
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.strength import Strength
from tempo_coach.core.tempo import Allowances
from tempo_coach.errors import OutOfRange


def ask_overload(
    prescription: Prescription,
    strength: Strength,
    typed: str | None,
    *,
    allowances: Allowances,
    asks: bool,
) -> None:
    """Say where a line leaves its range, and have the load typed where that must be.

    Parameters
    ----------
    prescription
        The line.
    strength
        What is known for it.
    typed
        The load as the command line gives it; None where it does not.
    allowances
        What counts for X, V and A.
    asks
        Somebody is there to be asked.

    Raises
    ------
    OutOfRange
        What the command line gives is not the load.
    click.UsageError
        The load has to be typed, and nobody is there to type it.
    """
    for flag in flags(prescription, strength, allowances=allowances):
        click.echo(wrapped(f"remark: {flag}", indent="    "), err=True)
    question = overload_question(prescription, strength)
    if question is None:
        return
    click.echo(wrapped(question.why), err=True)
    click.echo(wrapped(READY), err=True)
    if typed is not None:
        question.read(typed)
    elif asks:
        _ask(question)
    else:
        raise click.UsageError(
            f"--yes does not answer this; --lowering '{question.load}' says that it is meant"
        )


def _ask(question: OverloadQuestion) -> None:
    while True:
        click.echo(f"Type {question.load} to go on: ", nl=False, err=True)
        answer = sys.stdin.readline()
        if not answer:
            raise click.UsageError(
                f"nobody is there to type the load; --lowering '{question.load}' does"
            )
        try:
            question.read(answer)
        except OutOfRange as fault:
            click.echo(f"{fault}", err=True)
        else:
            return
