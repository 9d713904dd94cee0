"""Commands that record maxes, list them and estimate them."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Final

import click
from click.shell_completion import CompletionItem

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Wishes
from tempo_coach.cli.log_reading import (
    logs_argument,
    merge_logs,
    say_disagreeing,
    say_reading,
)
from tempo_coach.cli.max_tables import print_equations, print_maxes
from tempo_coach.cli.options import (
    calendar_day,
    exercises_option,
    given_settings,
    json_option,
    lifter_option,
    lifters_option,
    log_option,
    note_text,
    seconds_from,
)
from tempo_coach.cli.planned_lifter import usable_plan
from tempo_coach.cli.tables import print_json
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.cautions import MAX_TEST
from tempo_coach.core.export_tables import Choice, chosen_maxes, chosen_rows
from tempo_coach.core.legible import legible, name_key
from tempo_coach.core.log_reading import read_logs
from tempo_coach.core.max_entry import load_of_test, moment_of_test
from tempo_coach.core.max_estimates import telling_rows, tempo_records
from tempo_coach.core.max_overview import estimate_data, max_overview, overview_data
from tempo_coach.core.prescription import check_name, clean_name
from tempo_coach.core.rep_equations import band
from tempo_coach.core.reports import skipped_data
from tempo_coach.core.tempo import LONGEST_PHASE_MS, Allowances

_LISTING: Final = "list"
_lower_s = seconds_from(0, LONGEST_PHASE_MS // 1000)


class _ListsByItself(click.Group):
    """A group that lists where the first word names none of its commands."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Put the listing in front of what are its logs and options."""
        names_one = bool(args) and (args[0] in self.commands or args[0] in ctx.help_option_names)
        is_completed = not args and ctx.resilient_parsing
        if not (names_one or is_completed):
            args = [_LISTING, *args]
        return super().parse_args(ctx, args)

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        """Return the commands that begin so, or else what the listing takes."""
        if incomplete.startswith("-"):
            listing = self.commands[_LISTING]
            return listing.shell_complete(click.Context(listing, parent=ctx), incomplete)
        found = super().shell_complete(ctx, incomplete)
        return found or [CompletionItem(incomplete, type="file")]


@click.group("max", cls=_ListsByItself)
def max_command() -> None:
    """List maxes, record them, or estimate them from reps.

    Without a command it lists, and takes the options of 'max list'.

    \b
    tempo-coach max
    tempo-coach max --exercise "front squat"
    tempo-coach max add "front squat" "90 kg" --lower-s 2
    tempo-coach max estimate "80 kg" 5
    """


@max_command.command(_LISTING)
@logs_argument
@lifters_option
@exercises_option
@click.option(
    "--plan",
    "plan_path",
    type=click.Path(path_type=Path),
    metavar="PLAN",
    help="Take the maxes of this plan too.",
)
@json_option
@log_option
def list_command(
    logs: tuple[Path, ...],
    lifters: tuple[str, ...],
    exercises: tuple[str, ...],
    plan_path: Path | None,
    as_json: bool,
    log_path: Path | None,
) -> None:
    """List tested maxes, the reserve, and what sets let estimate.

    There is an estimate for each tempo. It rests on sets of effort 7 or more, 10 reps or fewer, and
    no more than 12 to failure; an effort of 10 leaves no rep, 9 one, and so on. It is a band, from
    the least to the greatest that the published equations say, for that tempo alone. A day counts
    by its best set. Logs are merged; a folder stands for every .jsonl file below it.

    \b
    tempo-coach max list
    tempo-coach max list logs/ --exercise "front squat" --json
    tempo-coach max list --plan winter.toml
    """
    choice = Choice(lifters, exercises)
    plan = None if plan_path is None else usable_plan(plan_path)
    reading = merge_logs(logs, log_path)
    rows = chosen_rows(reading.rows, choice, maxes=reading.maxes)
    wanted = {name_key(name) for name in lifters}
    found = max_overview(
        chosen_maxes(reading.maxes, choice),
        tempo_records(reading.sets(telling_rows(rows))),
        planned=[
            one
            for one in (() if plan is None else plan.lifters)
            if not wanted or name_key(one.name) in wanted
        ],
        allowances=_allowances(),
    )
    if exercises:
        keys = {name_key(name) for name in exercises}
        found = tuple(one for one in found if name_key(one.exercise) in keys)
    if as_json:
        say_disagreeing(reading)
        print_json({"maxes": overview_data(found), "skipped": skipped_data(reading.skipped)})
        return
    print_maxes(found)
    say_reading(reading)


def _allowances() -> Allowances:
    return bootstrap.program(Wishes(is_silent=True)).coach.settings.allowances


@max_command.command("add", epilog=MAX_TEST)
@click.argument("exercise")
@click.argument("load", metavar="LOAD")
@click.option(
    "--lowered", is_flag=True, help="It is the most lowered under control [else lifted: a 1RM]."
)
@click.option(
    "--lower-s",
    type=_lower_s,
    metavar="SECONDS",
    help="Seconds of the lower in the test; a lowered max needs them.",
)
@click.option(
    "--on",
    type=calendar_day,
    metavar="DATE",
    help="The day of the test, as 2026-11-20 [else today].",
)
@click.option("--note", type=note_text, metavar="TEXT", default="", help="A note.")
@lifter_option
@log_option
def add_command(
    exercise: str,
    load: str,
    lowered: bool,
    lower_s: float | None,
    on: date | None,
    note: str,
    log_path: Path | None,
    **given: object,
) -> None:
    """Record a max that was tested, in kg or lb.

    Where it does not fit what is known already, it is recorded all the same, and that is said.

    \b
    tempo-coach max add "front squat" "90 kg" --lower-s 2
    tempo-coach max add "front squat" "102.5 kg" --lowered --lower-s 3
    """
    if lowered and not lower_s:
        raise click.UsageError("a lowered max belongs to its lower; give --lower-s, such as 3")
    made = bootstrap.program(Wishes(log_path, is_silent=True, settings=given_settings(**given)))
    if made.lifter is None:
        raise click.UsageError("nobody is named; say who was tested with --lifter NAME")
    name = check_name(clean_name(exercise), what="exercise")
    weight, kg = load_of_test(load)
    at = moment_of_test(on, now=made.coach.clock.wall())
    tested, problem = made.coach.record_max(
        at=at,
        lifter=made.lifter,
        exercise=name,
        what="lowered" if lowered else "lifted",
        load_kg=kg,
        load_as_written=str(weight),
        lower_s=lower_s,
        note=note,
    )
    if problem is not None:
        raise problem
    of = f"{legible(tested.lifter)}, {legible(name)}"
    click.echo(f"recorded: {tested.id}, {of}, {tested.what} {weight}, {at.date().isoformat()}")
    for doubt in _doubts(made.lifter, name, log_path):
        click.echo(f"tempo-coach: {legible(doubt)}", err=True)
    click.echo(wrapped(MAX_TEST))


def _doubts(lifter: str, exercise: str, log_path: Path | None) -> tuple[str, ...]:
    """Return where the log's maxes don't fit one another or its sets."""
    reading = merge_logs((), log_path)
    maxes = reading.maxes.of(lifter, exercise)
    choice = Choice((lifter,), (exercise,))
    rows = chosen_rows(reading.rows, choice, maxes=reading.maxes)
    records = tempo_records(reading.sets(telling_rows(rows)))
    found = max_overview(maxes, records, allowances=_allowances())
    return tuple(doubt for one in found for doubt in one.doubts)


@max_command.command("strike")
@click.argument("max_id", metavar="ID")
@click.option(
    "--why", type=note_text, metavar="TEXT", default="", help="The reason, kept in the log."
)
@log_option
def strike_command(max_id: str, why: str, log_path: Path | None) -> None:
    """Strike a max, so that it no longer counts.

    Its line stays in the log. ID is its id, or the beginning of it.

    \b
    tempo-coach max strike 7d20 --why "the pins took it"
    """
    made = bootstrap.program(Wishes(log_path, is_silent=True))
    tested = read_logs([made.coach.log]).history.maxes.find(max_id)
    problem = made.coach.strike_max(tested, why=why)
    if problem is not None:
        raise problem
    click.echo(
        f"struck: {tested.id}, {legible(tested.exercise)}, {legible(tested.load_as_written)}, "
        f"{tested.at.date().isoformat()}"
    )


@max_command.command("estimate")
@click.argument("load", metavar="LOAD")
@click.argument("reps", type=int)
@click.option(
    "--lower-s",
    type=_lower_s,
    metavar="SECONDS",
    help="Seconds of a rep's lower, since the equations don't hold for slow ones.",
)
@click.option(
    "--exercise", default="", metavar="NAME", help="Counts the equation made for it alone, too."
)
@json_option
def estimate_command(
    load: str, reps: int, lower_s: float | None, exercise: str, as_json: bool
) -> None:
    """Estimate a 1RM from the reps of one set, by each equation.

    The reps are to failure. All equations together make a band.

    \b
    tempo-coach max estimate "80 kg" 5
    tempo-coach max estimate "175 lb" 8 --lower-s 4 --json
    """
    weight, kg = load_of_test(load)
    said = band(kg, reps=reps, lower_s=lower_s, exercise=exercise)
    if as_json:
        print_json(estimate_data(kg, reps=reps, lower_s=lower_s, exercise=exercise))
        return
    print_equations(weight, kg, reps=reps, said=said, exercise=exercise)
