"""How a compared trace gets into the log: beside the set that is there, or as one of its own."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any, TypeVar

import click

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Wishes
from tempo_coach.coach import Coach
from tempo_coach.core.compared_set import ComparedSet
from tempo_coach.core.facts import SetDone
from tempo_coach.core.history import History
from tempo_coach.core.legible import legible, name_key, quoted
from tempo_coach.core.log_reading import read_logs
from tempo_coach.core.marks import marked_seconds
from tempo_coach.errors import OutOfRange, UnknownSet

LAST = "last"
Command = TypeVar("Command", bound=Callable[..., Any])

_set_option = click.option(
    "--set",
    "set_id",
    metavar="ID",
    help="Log it as measured for this set of the log; 'last' is the lifter's last of the exercise.",
)
_new_option = click.option("--log-set", "is_new", is_flag=True, help="Log it as a set of its own.")
_began_option = click.option(
    "--began",
    type=click.DateTime(["%Y-%m-%dT%H:%M", "%Y-%m-%d %H:%M"]),
    metavar="TIME",
    help="When that set began, such as 2026-11-25T18:04 [now].",
)


def logging_options(command: Command) -> Command:
    """Add the options that say where in the log a trace belongs."""
    for option in (_began_option, _new_option, _set_option):
        command = option(command)
    return command


def log_compared(
    compared: ComparedSet,
    *,
    set_id: str | None,
    is_new: bool,
    began: datetime | None,
    log_path: Path | None,
    settings: dict[str, Any],
) -> str | None:
    """Log a compared trace as asked for; returns what to say of it, or None where nothing is asked.

    Raises
    ------
    UnknownSet
        There is no such set, or it is of another exercise.
    OutOfRange
        No rep was found, or the time lies ahead.
    LogUnwritable
        It is not on the disk.
    """
    if set_id is None and not is_new:
        if began is not None:
            raise click.UsageError("--began goes with --log-set")
        return None
    if set_id is not None and is_new:
        raise click.UsageError("--set and --log-set don't go together")
    if set_id is not None and began is not None:
        raise click.UsageError("--began goes with --log-set; the set of --set has its own time")
    if not compared.reps:
        raise OutOfRange("no rep was found, so there is nothing to log")
    made = bootstrap.program(Wishes(log_path, is_silent=True, settings=settings))
    if set_id is None:
        done, words = _log_new(compared, made.coach, made.lifter, began), "logged as a set"
    else:
        history = read_logs([made.coach.log]).history
        done, words = _log_beside(compared, made.coach, history, set_id, made.lifter), "measured"
    of = f"{legible(done.lifter)}, {legible(done.exercise)}, {done.started_at:%Y-%m-%d %H:%M}"
    lower_s = marked_seconds(done.seconds.times().lower_ms)
    return f"{words}: {done.id}, {of}, lowering {lower_s} s"


def _log_new(
    compared: ComparedSet, coach: Coach, lifter: str | None, began: datetime | None
) -> SetDone:
    if lifter is None:
        raise click.UsageError("nobody is named; say who lifted with --lifter NAME")
    now = coach.clock.wall()
    # The local offset of that day, which need not be today's.
    started_at = now if began is None else began.astimezone()
    if started_at > now:
        raise OutOfRange(
            f"{began:%Y-%m-%d %H:%M} lies ahead", hint="give when the set began, or leave it out"
        )
    done, problem = coach.measurer.log_traced(
        compared.prescription,
        compared.reps,
        lifter=lifter,
        started_at=started_at,
        allowances=coach.settings.allowances,
    )
    if problem is not None:
        raise problem
    return done


def _log_beside(
    compared: ComparedSet, coach: Coach, history: History, set_id: str, lifter: str | None
) -> SetDone:
    exercise = compared.prescription.exercise
    done = _last(history, exercise, lifter) if set_id == LAST else history.find(set_id)
    if name_key(done.exercise) != name_key(exercise):
        raise UnknownSet(
            f"the set {quoted(done.id)} is {quoted(done.exercise)}, and the line says "
            f"{quoted(exercise)}",
            set_id=done.id,
            hint="give the set of this trace, or the line of that set",
        )
    measured, problem = coach.measurer.measure(
        done,
        compared.reps,
        by="trace",
        allowances=coach.settings.allowances,
        after=history.corrected.get(done.id),
    )
    if problem is not None:
        raise problem
    return measured


def _last(history: History, exercise: str, lifter: str | None) -> SetDone:
    if lifter is None:
        raise click.UsageError("nobody is named; say whose last set it is with --lifter NAME")
    own = [done for done in history.of(lifter) if name_key(done.exercise) == name_key(exercise)]
    if not own:
        raise UnknownSet(
            f"{quoted(lifter)} has no set of {quoted(exercise)} in the log",
            set_id=LAST,
            hint="'tempo-coach log' lists the sets; --log-set logs the trace as one of its own",
        )
    return own[-1]
