"""Answers that somebody types between sets."""

from __future__ import annotations

import select
import sys

import click

from tempo_coach.core.legible import quoted


def ask(question: str, *, without: str) -> str:
    """Ask on standard error and return what is typed, without the spaces around it.

    Parameters
    ----------
    question
        What is asked.
    without
        What to do where nobody is there.

    Raises
    ------
    click.UsageError
        Nobody is there to answer.
    """
    _forget_typed()
    click.echo(f"{question} ", nl=False, err=True)
    line = sys.stdin.readline()
    if not line:
        click.echo(err=True)
        raise click.UsageError(f"nobody is there to answer; {without}")
    return line.strip()


def say_unclear(answer: str, *, allowed: str) -> None:
    """Say that an answer was not understood, and what would be."""
    said = f"{quoted(answer)} is no answer" if answer else "an answer is needed"
    click.echo(f"{said}; {allowed}", err=True)


def enter_within(seconds: float) -> bool:
    """Wait for Enter at a terminal; False where it does not come, or there is no terminal."""
    # Windows can't wait for a terminal by select.
    if sys.platform == "win32" or not sys.stdin.isatty():
        return False
    ready, _, _ = select.select([sys.stdin], [], [], max(seconds, 0))
    if not ready:
        return False
    sys.stdin.readline()
    return True


def _forget_typed() -> None:
    """Drop what was typed at a terminal before it was asked for, such as Enter during a set."""
    if sys.platform == "win32" or not sys.stdin.isatty():
        return
    import termios

    termios.tcflush(sys.stdin, termios.TCIFLUSH)
