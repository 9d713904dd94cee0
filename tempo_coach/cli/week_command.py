"""The command that adds the weeks up."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import click
import numpy as np

from tempo_coach.cli.log_reading import (
    logs_argument,
    masked,
    merge_logs,
    say_disagreeing,
    say_reading,
)
from tempo_coach.cli.options import (
    json_option,
    log_option,
    only_lifter_option,
    pseudonyms_option,
    whole_number_from,
)
from tempo_coach.cli.tables import is_narrow, print_json, print_table
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.export_tables import Choice, chosen_rows
from tempo_coach.core.legible import legible
from tempo_coach.core.marks import ALLOWED, NO_LOAD
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.reports import skipped_data, weeks_data
from tempo_coach.core.roster import RULE, WEEKS, Roster, RosterLine, roster, roster_data
from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.strength_words import strength_words
from tempo_coach.core.tempo import Phase
from tempo_coach.core.weeks import Totals, Week, weeks_over

_HEADINGS = ("exercise", "sets", "reps", *(f"{phase} s" for phase in Phase), "tension s",
             "lower %", "load kg·s", "tonnage kg")  # fmt: skip


@click.command("week")
@logs_argument
@only_lifter_option
@click.option(
    "--weeks",
    type=whole_number_from(1, 5_000),
    metavar="WEEKS",
    help="Only so many, 1 to 5,000, up to the latest.",
)
@click.option(
    "--roster",
    "as_roster",
    is_flag=True,
    help=f"Lowering seconds of every lifter, side by side [{WEEKS} weeks]. {RULE}",
)
@pseudonyms_option
@json_option
@log_option
def week_command(
    logs: tuple[Path, ...],
    lifter: str | None,
    weeks: int | None,
    as_roster: bool,
    pseudonyms: bool,
    as_json: bool,
    log_path: Path | None,
) -> None:
    """Add up lowering seconds, tension and loads by week.

    Weeks are those of ISO 8601, and each exercise has a row. Several logs are merged by the ids of
    their sets; a folder stands for every .jsonl file below it. 'load kg·s' is load times seconds
    lowering, this tool's own measure.

    \b
    tempo-coach week
    tempo-coach week --lifter "Mirela Oude" --weeks 4
    tempo-coach week mirela.jsonl jonne.jsonl --json
    tempo-coach week logs/ --roster
    """
    reading = merge_logs(logs, log_path)
    choice = Choice(() if lifter is None else (lifter,))
    if pseudonyms:
        reading, choice, _ = masked(reading, choice)
    rows = chosen_rows(reading.rows, choice)
    if as_json:
        say_disagreeing(reading)
    if as_roster:
        _show_roster(roster(rows, weeks=weeks or WEEKS), reading, as_json=as_json)
        return
    added = weeks_over(rows, last=weeks)
    if as_json:
        print_json(weeks_data(added, reading.skipped))
        return
    _print_weeks(added)
    for note in _notes(added, reading.rows.lifters if lifter is None else ()):
        click.echo(wrapped(note))
    for words in _strengths(rows, reading):
        click.echo(wrapped(words))
    say_reading(reading)


def _strengths(rows: SetRows, reading: MergedLogs) -> Iterator[str]:
    """Yield the maxes and reserves of the lifters that have sets."""
    numbers = np.unique(rows.data["lifter"]).tolist() if rows else []
    names = [rows.lifters[number] for number in numbers]
    for name in names:
        who = f"{legible(name)}, " if len(names) > 1 else ""
        for words in strength_words(reading.maxes, lifter=name):
            yield f"{who}{words}"


def _show_roster(found: Roster, reading: MergedLogs, *, as_json: bool) -> None:
    if as_json:
        print_json(roster_data(found) | {"skipped": skipped_data(reading.skipped)})
        return
    if found.lines:
        weeks = (f"W{one.week:02d}" if is_narrow() else str(one) for one in found.weeks)
        headings = ("lifter", *weeks, "change s", "last session")
        print_table(headings, map(_roster_row, found.lines), title="lowering seconds")
        click.echo(f"\n{wrapped(RULE)}")
        if any(time.by_allowance_ms for line in found.lines for time in line.weeks):
            click.echo(ALLOWED)
    else:
        click.echo("no sets yet")
    say_reading(reading)


def _roster_row(line: RosterLine) -> tuple[str, ...]:
    first = " (first)" if line.is_first_week else ""
    return (
        line.lifter,
        *(_approximate(time.lower_ms, time.by_allowance_ms) for time in line.weeks),
        f"{line.lower_change_ms / 1000:+.1f}{first}",
        line.last_session.isoformat(),
    )


def _print_weeks(weeks: tuple[Week, ...]) -> None:
    if not weeks:
        click.echo("no sets yet")
    for week in weeks:
        rows = [(one.exercise, *_cells(one.totals)) for one in week.exercises]
        rows.append(("all", *_cells(week.total)))
        rows += [(f"of these {one.method}", *_cells(one.totals)) for one in week.methods]
        print_table(_HEADINGS, rows, title=_title(week))
        click.echo()


def _title(week: Week) -> str:
    change_ms = week.lower_change_ms
    change = (
        ""
        if change_ms is None
        else f", {round(change_ms / 1000, 1):+g} s lowering on the week before"
    )
    measured = f", {week.total.measured_share:.0%} of the lowering measured"
    return f"{week.week} from {week.week.monday().isoformat()}{change}{measured}"


def _cells(totals: Totals) -> tuple[str, ...]:
    seconds = (
        _approximate(totals.times.of(phase), totals.by_allowance.of(phase)) for phase in Phase
    )
    return (
        str(totals.sets),
        str(totals.reps),
        *seconds,
        _approximate(totals.times.tension_ms, totals.by_allowance.tension_ms),
        f"{totals.lowering_share:.0%}",
        f"{totals.lowering_kg_s:,.0f}{'+' if totals.sets_without_load else ''}",
        f"{totals.tonnage_kg:,.0f}{'+' if totals.sets_without_load else ''}",
    )


def _approximate(length_ms: int, allowed_ms: int) -> str:
    return f"{'≈' if allowed_ms else ''}{length_ms / 1000:.1f}"


def _notes(weeks: tuple[Week, ...], lifters: tuple[str, ...]) -> Iterator[str]:
    if any(week.total.by_allowance.tension_ms for week in weeks):
        yield ALLOWED
    if any(week.total.sets_without_load for week in weeks):
        yield NO_LOAD
    if len(lifters) > 1:
        listed = ", ".join(map(legible, lifters))
        yield f"{len(lifters)} lifters together; --lifter NAME shows one: {listed}."
