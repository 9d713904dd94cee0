"""Commands that read the log, check it and add to it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click
from pydantic import ValidationError

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Wishes
from tempo_coach.cli import exit_codes
from tempo_coach.cli.log_reading import logs_argument, merge_logs, say_skipped
from tempo_coach.cli.options import (
    json_option,
    log_option,
    note_text,
    number_from,
    only_lifter_option,
    whole_number_from,
)
from tempo_coach.cli.tables import print_json, print_table
from tempo_coach.core.facts import Changes, SetDone, facts_schema
from tempo_coach.core.history import History
from tempo_coach.core.legible import legible, quoted
from tempo_coach.core.load import LOAD_FORMS, LoadUnit, parse_load
from tempo_coach.core.log_reading import read_logs
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.nearest import nearest_of
from tempo_coach.core.phase_seconds import LONGEST_IN_A_PHASE_S, PhaseSeconds
from tempo_coach.core.tempo import seconds_text
from tempo_coach.errors import OutOfRange


@click.group("log", invoke_without_command=True)
@log_option
@only_lifter_option
@json_option
@click.pass_context
def log_command(
    ctx: click.Context, log_path: Path | None, lifter: str | None, as_json: bool
) -> None:
    """List the sets of the log, or check, correct and strike.

    \b
    tempo-coach log
    tempo-coach log --lifter "Mirela Oude" --json
    """
    if ctx.invoked_subcommand is not None:
        return
    reading = read_logs([bootstrap.log_file(log_path)])
    sets = _sets(reading.history, lifter)
    if as_json:
        print_json([done.model_dump(mode="json", by_alias=True) for done in sets])
        return
    if sets:
        print_table(_HEADINGS, (_row(done) for done in sets), left=5)
    else:
        click.echo("no sets yet")
    say_skipped(reading.skipped)


def _sets(history: History, lifter: str | None) -> tuple[SetDone, ...]:
    if lifter is None or not history.sets:
        return history.sets
    sets = history.of(lifter)
    if not sets:
        raise OutOfRange(
            f"the log knows no lifter {quoted(lifter)}",
            hint=nearest_of(lifter, history.lifters()),
        )
    return sets


_HEADINGS = ("id", "began", "lifter", "exercise", "tempo", "reps", "kg", "lower s", "tension s",
             "effort", "note")  # fmt: skip


def _row(done: SetDone) -> tuple[str, ...]:
    times = done.seconds.times()
    of = "" if done.reps_prescribed is None else f"/{done.reps_prescribed}"
    return (
        done.id[:8],
        f"{done.started_at:%Y-%m-%d %H:%M}",
        done.lifter,
        done.exercise,
        str(done.tempo),
        f"{done.reps_done}{of}",
        _kg_text(done),
        seconds_text(times.lower_ms),
        seconds_text(times.tension_ms),
        "" if done.effort is None else f"{done.effort:g}",
        done.note,
    )


def _kg_text(done: SetDone) -> str:
    raised = done.load_as_written if done.load_kg is None else f"{done.load_kg:g}"
    return raised if done.lower_load_kg is None else f"{raised}, lowered {done.lower_load_kg:g}"


@log_command.command("check")
@logs_argument
@log_option
def check_command(logs: tuple[Path, ...], log_path: Path | None) -> int:
    """Say what is wrong in a log, and where.

    The exit code is 65 if anything is.

    \b
    tempo-coach log check
    tempo-coach log check mirela.jsonl jonne.jsonl
    """
    reading = merge_logs(logs, log_path)
    for one in reading.skipped:
        click.echo(f"{one.file}, line {one.line}: {legible(one.why)}")
    for said in _odd_facts(reading):
        click.echo(said)
    faults = sum(not one.foreign for one in reading.skipped) + len(reading.disagreeing)
    faults += len(reading.maxes.disagreeing) + len(reading.reserve_tests.disagreeing)
    faults += len(reading.soreness.disagreeing)
    maxes = len(reading.maxes.tested)
    and_maxes = f" and {maxes} max{'' if maxes == 1 else 'es'}" if maxes else ""
    click.echo(f"{len(reading.rows)} sets{and_maxes} count, {faults} faults")
    return exit_codes.DATA if faults else exit_codes.OK


def _odd_facts(reading: MergedLogs) -> Iterable[str]:
    for set_id in reading.disagreeing:
        yield f"set {legible(set_id)}: the logs disagree; the one that ended later counts"
    for set_id in reading.orphaned:
        yield f"set {legible(set_id)}: corrected, measured or struck, but not in these logs"
    for max_id in reading.maxes.disagreeing:
        yield f"max {legible(max_id)}: the logs disagree; the one that was tested later counts"
    for max_id in reading.maxes.orphaned:
        yield f"max {legible(max_id)}: struck, but not in these logs"
    for test_id in reading.reserve_tests.disagreeing:
        yield f"reserve test {legible(test_id)}: the logs disagree; the later one counts"
    for test_id in reading.reserve_tests.orphaned:
        yield f"reserve test {legible(test_id)}: attempts, but its beginning is not in these logs"
    for told_id in reading.soreness.disagreeing:
        yield f"soreness answer {legible(told_id)}: the logs disagree; the later one counts"


@log_command.command("schema")
def schema_command() -> None:
    """Print the JSON Schema of a line of the log.

    \b
    tempo-coach log schema > log.schema.json
    """
    print_json(facts_schema())


def _effort(text: str) -> float:
    effort = number_from(1, 10, unit="by halves")(text)
    if effort % 0.5:
        raise click.BadParameter(f"{quoted(text)} is not possible; give 1 to 10 by halves")
    return effort


@log_command.command("correct")
@click.argument("set_id", metavar="ID")
@click.option(
    "--reps",
    type=whole_number_from(0, 1_000),
    metavar="REPS",
    help="Reps done, 0 to 1,000; seconds become reps × tempo.",
)
@click.option("--load", metavar="LOAD", help=f"{LOAD_FORMS}.")
@click.option(
    "--lowered", metavar="LOAD", help="What was lowered where that is more: 130 kg or 285 lb."
)
@click.option("--effort", type=_effort, metavar="EFFORT", help="1 to 10, by halves.")
@click.option(
    "--note",
    type=note_text,
    metavar="TEXT",
    help="A note; it takes the place of the old one.",
)
@click.option(
    "--seconds", metavar="L/P/R/T", help="Seconds lowering, pausing, raising, at the top: 20/5/5/5."
)
@log_option
def correct_command(
    set_id: str,
    reps: int | None,
    load: str | None,
    lowered: str | None,
    effort: float | None,
    note: str | None,
    seconds: str | None,
    log_path: Path | None,
) -> None:
    """Correct a set of the log.

    ID is its id, or the beginning of it.

    \b
    tempo-coach log correct 4f1c --reps 4 --effort 9
    tempo-coach log correct 4f1c --load "82.5 kg" --note "belt"
    tempo-coach log correct 77ab --lowered "130 kg"
    """
    changes: dict[str, Any] = {}
    if reps is not None:
        changes["reps_done"] = reps
    if load is not None:
        changes |= _load_changes(load)
    if lowered is not None:
        changes["lower_load_kg"] = _lowered_kg(lowered)
    if effort is not None:
        changes["effort"] = effort
    if note is not None:
        changes["note"] = note
    if seconds is not None:
        changes["seconds"] = _seconds(seconds)
    if not changes:
        raise click.UsageError(
            "nothing to correct; give --reps, --load, --lowered, --effort, --note or --seconds"
        )
    made = bootstrap.program(Wishes(log_path))
    history = read_logs([made.coach.log]).history
    done = history.find(set_id)
    after = history.corrected.get(done.id)
    corrected, problem = made.coach.correct(done, Changes(**changes), after=after)
    if problem is not None:
        raise problem
    print_table(_HEADINGS, [_row(corrected)], left=5)


@log_command.command("strike")
@click.argument("set_id", metavar="ID")
@click.option(
    "--why", type=note_text, metavar="TEXT", default="", help="The reason, kept in the log."
)
@log_option
def strike_command(set_id: str, why: str, log_path: Path | None) -> None:
    """Strike a set, so that it no longer counts.

    Its line stays in the log. ID is its id, or the beginning of it.

    \b
    tempo-coach log strike 4f1c --why "warm-up"
    """
    made = bootstrap.program(Wishes(log_path))
    done = read_logs([made.coach.log]).history.find(set_id)
    problem = made.coach.strike(done, why=why)
    if problem is not None:
        raise problem
    click.echo(f"struck: {done.id}, {legible(done.exercise)}, {done.started_at:%Y-%m-%d %H:%M}")


def _load_changes(text: str) -> dict[str, Any]:
    load = parse_load(text)
    return {"load_as_written": str(load), "load_kg": load.kg()}


def _lowered_kg(text: str) -> float:
    load = parse_load(text)
    kg = None if load.unit is LoadUnit.PERCENT else load.kg()
    if kg is None:
        raise OutOfRange(
            f"the kilograms of {load} are not known here", hint="give kg or lb, such as 130 kg"
        )
    return kg


def _seconds(text: str) -> PhaseSeconds:
    pieces = text.split("/")
    if len(pieces) != 4 or not all(re.fullmatch(r"[0-9]{1,5}(?:\.[0-9]{1,3})?", p) for p in pieces):
        raise OutOfRange(
            f"{legible(text)!r} are no seconds", hint="lower/pause/raise/top, such as 20/5/5/5"
        )
    lower, pause, raised, top = map(float, pieces)
    try:
        return PhaseSeconds.model_validate(
            {"lower": lower, "pause": pause, "raise": raised, "top": top}
        )
    except ValidationError as fault:
        raise OutOfRange(
            f"the seconds {text} are not possible", hint=f"at most {LONGEST_IN_A_PHASE_S:,} each"
        ) from fault
