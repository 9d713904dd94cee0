"""Commands that write, check, show and import a plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

import click

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Wishes
from tempo_coach.cli import exit_codes
from tempo_coach.cli.options import (
    calendar_day,
    json_option,
    lifter_option,
    log_option,
    only_lifter_option,
    whole_number_from,
)
from tempo_coach.cli.plan_board import print_boards
from tempo_coach.cli.tables import print_json, print_line
from tempo_coach.coach import Coach
from tempo_coach.core.board import Board, board_data, board_of
from tempo_coach.core.legible import legible, name_key
from tempo_coach.core.marks import counted
from tempo_coach.core.plan import MOST_WEEKS, Plan, plan_schema
from tempo_coach.core.plan_days import days_of
from tempo_coach.core.plan_remarks import remarks_of
from tempo_coach.core.plan_starter import starter
from tempo_coach.core.plan_table import TableReading, columns_found, imported_text, read_table
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.settings import Settings
from tempo_coach.core.weeks import next_monday
from tempo_coach.errors import LogUnreadable, OutOfRange

_plan_argument = click.argument("path", metavar="FILE", type=click.Path(path_type=Path))
_replace_option = click.option("--replace", is_flag=True, help="Write over a file that is there.")


@click.group("plan", invoke_without_command=True)
@click.pass_context
def plan_command(ctx: click.Context) -> None:
    """Write a plan in a file, check it, and show a week of it.

    A plan is weeks of work for one lifter or several.

    \b
    tempo-coach plan new -o winter.toml
    tempo-coach plan show winter.toml
    """
    if ctx.invoked_subcommand is None:
        click.echo(ctx.get_help())


@plan_command.command("new")
@click.option("-o", "--output", type=click.Path(path_type=Path), help="The file to write.")
@_replace_option
def new_command(output: Path | None, replace: bool) -> None:
    """Write a plan to begin from, with a word on every key.

    Without -o it is printed.

    \b
    tempo-coach plan new -o winter.toml
    """
    text = starter(_today())
    if output is None:
        click.echo(text, nl=False)
        return
    file = bootstrap.plan_file(output)
    file.write(text, replace=replace)
    click.echo(f"wrote {file.name}; open it in any editor, then 'tempo-coach plan check' it")


@plan_command.command("check")
@_plan_argument
def check_command(path: Path) -> int:
    """Say everything that is wrong in a plan, and where.

    The exit code is 65 if anything is. Remarks tell where a line leaves the range of its method,
    with the reason, and a span the season. They are no faults, and know the maxes of the file
    alone; 'plan show' knows those of the log too.

    \b
    tempo-coach plan check winter.toml
    """
    file = bootstrap.plan_file(path)
    reading = file.read(today=_today())
    for fault in reading.faults:
        click.echo(f"{file.name}, {legible(str(fault))}")
    remarks = remarks_of(reading, allowances=_settings().allowances)
    for remark in remarks:
        click.echo(f"{file.name}, remark on {legible(str(remark))}")
    if reading.plan is not None:
        print_line(_summary(reading.plan))
    said = f", {counted(len(remarks), 'remark')}" if remarks else ""
    click.echo(f"{counted(len(reading.faults), 'fault')}{said}")
    return exit_codes.DATA if reading.faults else exit_codes.OK


def _summary(plan: Plan) -> str:
    names = ", ".join(lifter.name for lifter in plan.lifters)
    days = sum(len(days_of(plan, lifter.name)) for lifter in plan.lifters)
    return (
        f"{plan.name}: {counted(plan.weeks, 'week')} from "
        f"{plan.iso_week(1).monday().isoformat()}, {counted(days, 'day')} of work for {names}"
    )


@plan_command.command("show")
@_plan_argument
@click.option(
    "--week",
    type=whole_number_from(1, MOST_WEEKS),
    metavar="WEEK",
    help="Which week of the plan, such as 3 [else the week of today].",
)
@only_lifter_option
@json_option
@log_option
def show_command(
    path: Path, week: int | None, lifter: str | None, as_json: bool, log_path: Path | None
) -> None:
    """Show a week of a plan as it would stand on the board.

    Loads are worked out, and what goes on the bar. They and the remarks go by the maxes of the
    plan and of the log, as on the day.

    \b
    tempo-coach plan show winter.toml
    tempo-coach plan show winter.toml --week 3 --lifter "Mirela Oude"
    """
    file = bootstrap.plan_file(path)
    today = _today()
    plan = file.read(today=today).usable(file.name)
    current = plan.week_on(today)
    shown = _week(plan, week, current)
    names = [one.name for one in plan.lifters] if lifter is None else [lifter]
    coach = bootstrap.program(Wishes(log_path, is_silent=True)).coach
    settings, recorded = coach.settings, _maxes(coach)
    boards = [
        board_of(plan, lifter=one, week=shown, allowances=settings.allowances, recorded=recorded)
        for one in names
    ]
    rack = settings.rack if settings.show_discs else None
    from_log = _count_of(recorded, boards)
    if as_json:
        lifters = [board_data(board, rack=rack) for board in boards]
        print_json({**_show_data(plan, shown), "log_maxes": from_log, "lifters": lifters})
        return
    begins = plan.iso_week(shown).monday().isoformat()
    click.echo(
        f"{legible(plan.name)}, week {shown} of {plan.weeks}: {plan.iso_week(shown)} from {begins}"
    )
    if week is None and current is None:
        click.echo("Today is in no week of the plan, so this is week 1; --week N shows another.")
    if from_log:
        maxes = f"{from_log} max{'' if from_log == 1 else 'es'}"
        print_line(f"Loads and remarks go by {maxes} of the log, too: {coach.log.name}")
    print_boards(boards, rack=rack)


def _maxes(coach: Coach) -> RecordedMaxes:
    try:
        return coach.history().maxes
    except LogUnreadable as fault:
        click.echo(f"tempo-coach: without the maxes of the log: {fault}", err=True)
        return RecordedMaxes()


def _count_of(recorded: RecordedMaxes, boards: Sequence[Board]) -> int:
    names = {name_key(board.lifter.name) for board in boards}
    return sum(name_key(one.lifter) in names for one in recorded.tested)


def _week(plan: Plan, asked: int | None, current: int | None) -> int:
    if asked is not None and asked > plan.weeks:
        raise OutOfRange(f"the plan has no week {asked}", hint=f"the last is week {plan.weeks}")
    return asked or current or 1


def _show_data(plan: Plan, week: int) -> dict[str, object]:
    return {
        "plan": plan.name,
        "week": week,
        "weeks": plan.weeks,
        "iso_week": str(plan.iso_week(week)),
        "from": plan.iso_week(week).monday().isoformat(),
    }


@plan_command.command("schema")
def schema_command() -> None:
    """Print the JSON Schema of a plan.

    \b
    tempo-coach plan schema > plan.schema.json
    """
    print_json(plan_schema())


@plan_command.command("import")
@click.argument("table", metavar="TABLE", type=click.Path(path_type=Path))
@click.option(
    "-o", "--output", required=True, type=click.Path(path_type=Path), help="The plan to write."
)
@click.option(
    "--start",
    type=calendar_day,
    metavar="DATE",
    help="A day of week 1, as 2026-11-30 [else next Monday].",
)
@lifter_option
@_replace_option
def import_command(
    table: Path, output: Path, start: date | None, lifter: str | None, replace: bool
) -> None:
    """Make a plan of a coach's table, .csv or .xlsx.

    What was understood is said row by row.

    \b
    tempo-coach plan import winter.xlsx -o winter.toml --start 2026-11-30
    """
    source, today = bootstrap.table_file(table), _today()
    sheets, letters = source.read()
    reading = read_table(
        sheets,
        name=legible(table.stem),
        start=start or next_monday(today),
        lifter=lifter or bootstrap.program(Wishes(is_silent=True)).lifter or "Lifter",
    )
    text, missing = imported_text(reading, source=source.name, today=today)
    file = bootstrap.plan_file(output)
    file.write(text, replace=replace)
    click.echo(f"{source.name}: {legible(reading.sheet)}, {letters}")
    for said in _import_words(reading):
        click.echo(legible(said))
    print_line(f"wrote {file.name}: {_summary(reading.plan)}")
    for fault in missing:
        click.echo(f"still missing: {legible(fault)}")


def _import_words(reading: TableReading) -> Iterator[str]:
    headings = reading.headings
    columns = ", ".join(f"{one.column} = {one.text}" for one in columns_found(headings))
    yield f"row {headings.row + 1}: the headings: {columns}"
    if headings.left_out:
        yield f"left out: the columns {', '.join(headings.left_out)}"
    for row in reading.rows:
        remarks = "; ".join(row.remarks)
        if row.line is None:
            yield f"row {row.row}: not understood: {remarks}"
            continue
        last = f" to {row.weeks[-1]}" if len(row.weeks) > 1 else ""
        line = f"row {row.row}: week {row.weeks[0]}{last}, {row.day}: {row.line}"
        yield f"{line} ({remarks})" if remarks else line
    understood = sum(row.line is not None for row in reading.rows)
    yield f"{understood} of {len(reading.rows)} rows understood"


def _settings() -> Settings:
    return bootstrap.program(Wishes(is_silent=True)).coach.settings


def _today() -> date:
    return bootstrap.clock().wall().date()
