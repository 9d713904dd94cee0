"""How a compared trace gets into the log: beside the set that is there, or as one of its own."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any, TypeAlias, TypeVar

import click

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Wishes
from tempo_coach.cli.options import local_moment
from tempo_coach.coach import Coach
from tempo_coach.core.compared_set import ComparedSet
from tempo_coach.core.facts import SetDone
from tempo_coach.core.history import History
from tempo_coach.core.legible import legible, name_key, quoted
from tempo_coach.core.log_reading import read_logs
from tempo_coach.core.marks import marked_seconds
from tempo_coach.core.prescription import Prescription
from tempo_coach.errors import LogUnwritable, OutOfRange, UnknownSet

LAST = "last"
Command = TypeVar("Command", bound=Callable[..., Any])
_Save: TypeAlias = Callable[[ComparedSet], tuple[SetDone, LogUnwritable | None]]

_set_option = click.option(
    "--set",
    "set_id",
    metavar="ID",
    help="Log it as measured for this set of the log; 'last' is the lifter's last of the exercise.",
)
_new_option = click.option("--log-set", "is_new", is_flag=True, help="Log it as a set of its own.")
_began_option = click.option(
    "--began",
    type=local_moment,
    metavar="TIME",
    help="When that set began, such as 2026-11-25T18:04 [now].",
)


def logging_options(command: Command) -> Command:
    """Add the options that say where in the log a trace belongs."""
    for option in (_began_option, _new_option, _set_option):
        command = option(command)
    return command


def place_in_log(
    prescription: Prescription,
    *,
    set_id: str | None,
    is_new: bool,
    began: datetime | None,
    log_path: Path | None,
    settings: dict[str, Any],
) -> Callable[[ComparedSet], str] | None:
    """Return what logs a compared set and tells of it, once its place is there; None where unasked.

    What is returned raises `LogUnwritable` where the set is not on the disk, and `OutOfRange`
    where its reps take longer than a set can.

    Raises
    ------
    UsageError
        The options don't go together, or nobody is named.
    UnknownSet
        There is no such set, or it is of another exercise.
    OutOfRange
        The time lies ahead.
    LogUnreadable
        The log can't be read.
    """
    if set_id is None and not is_new:
        if began is not None:
            raise click.UsageError("--began goes with --log-set")
        return None
    if set_id is not None and is_new:
        raise click.UsageError("--set and --log-set don't go together")
    if set_id is not None and began is not None:
        raise click.UsageError("--began goes with --log-set; the set of --set has its own time")
    made = bootstrap.program(Wishes(log_path, is_silent=True, settings=settings))
    if set_id is None:
        save, words = _as_new(made.coach, made.lifter, began), "logged as a set"
    else:
        save, words = _beside(made.coach, prescription.exercise, set_id, made.lifter), "measured"

    def log(compared: ComparedSet) -> str:
        done, problem = save(compared)
        if problem is not None:
            raise problem
        of = f"{legible(done.lifter)}, {legible(done.exercise)}, {done.started_at:%Y-%m-%d %H:%M}"
        lower_s = marked_seconds(done.seconds.times().lower_ms)
        return f"{words}: {done.id}, {of}, lowering {lower_s} s"

    return log


def _as_new(coach: Coach, lifter: str | None, began: datetime | None) -> _Save:
    if lifter is None:
        raise click.UsageError("nobody is named; say who lifted with --lifter NAME")
    now = coach.clock.wall()
    # The local offset of that day, which need not be today's.
    started_at = now if began is None else began.astimezone()
    if started_at > now:
        raise OutOfRange(
            f"{began:%Y-%m-%d %H:%M} lies ahead", hint="give when the set began, or leave it out"
        )
    return lambda compared: coach.measurer.log_traced(
        compared.prescription,
        compared.reps,
        lifter=lifter,
        started_at=started_at,
        allowances=coach.settings.allowances,
    )


def _beside(coach: Coach, exercise: str, set_id: str, lifter: str | None) -> _Save:
    history = read_logs([coach.log]).history
    done = _last(history, exercise, lifter) if set_id == LAST else history.find(set_id)
    if name_key(done.exercise) != name_key(exercise):
        raise UnknownSet(
            f"the set {quoted(done.id)} is {quoted(done.exercise)}, and the line says "
            f"{quoted(exercise)}",
            set_id=done.id,
            hint="give the set of this trace, or the line of that set",
        )
    return lambda compared: coach.measurer.measure(
        done,
        compared.reps,
        by="trace",
        allowances=coach.settings.allowances,
        after=history.corrected.get(done.id),
    )


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
