"""The command that takes what the log counts to other tools."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from tempo_coach import bootstrap, outputs
from tempo_coach.cli.log_reading import logs_argument, masked, merge_logs, say_reading
from tempo_coach.cli.options import (
    STANDARD_OUTPUT,
    calendar_day,
    exercises_option,
    lifters_option,
    log_option,
    pseudonyms_option,
)
from tempo_coach.cli.planned_lifter import usable_plan
from tempo_coach.cli.progress import progress
from tempo_coach.cli.tables import print_line
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.export_columns import By, Format, explained
from tempo_coach.core.export_season import with_season
from tempo_coach.core.export_tables import Choice, export_table
from tempo_coach.core.legible import quoted

_SHEETS = (By.WEEK, By.EXERCISE, By.SET, By.TEMPO, By.MAX, By.DAY, By.READINESS)
"""Of a workbook, in order."""
_HELP_WIDTH = 76
"""Columns of what stands indented at the end of a help."""


def _columns_help() -> str:
    rows = "\n".join(
        wrapped(
            f"{column.name} [{'/'.join(found)}] {column.meaning}",
            width=_HELP_WIDTH,
            first="  ",
            indent="    ",
        )
        for column, found in explained().items()
    )
    return f"\b\nColumns, and the rows they stand in:\n{rows}"


@click.command("export", epilog=_columns_help())
@logs_argument
@click.option(
    "-o",
    "--output",
    required=True,
    type=click.Path(path_type=Path, allow_dash=True),
    metavar="FILE",
    help="The file to write, .csv, .json or .xlsx; - is standard output, with --format.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice([form.value for form in Format]),
    help="The format [else as the file's name ends].",
)
@click.option(
    "--by",
    type=click.Choice([by.value for by in By]),
    help="A row for each set, each lifter's day or week, each exercise or tempo in a week, each "
    "max, or each criterion of readiness [else week; a workbook has a sheet of each].",
)
@lifters_option
@exercises_option
@click.option(
    "--method",
    "methods",
    metavar="NAME",
    multiple=True,
    help="Only sets of this method, such as slow-lowering; give it again for more. Tested maxes "
    "and readiness are of none.",
)
@click.option(
    "--from", "first", type=calendar_day, metavar="DATE", help="The first day, as 2026-11-30."
)
@click.option("--to", "last", type=calendar_day, metavar="DATE", help="The last day.")
@click.option(
    "--plan",
    "plan_path",
    type=click.Path(path_type=Path),
    metavar="PLAN",
    help="Set each week beside this plan's season: what it is, and its limits; take what readiness "
    "asks for from it.",
)
@pseudonyms_option
@click.option("--replace", is_flag=True, help="Write over a file that is there.")
@log_option
def export_command(
    logs: tuple[Path, ...],
    output: Path,
    form: str | None,
    by: str | None,
    lifters: tuple[str, ...],
    exercises: tuple[str, ...],
    methods: tuple[str, ...],
    first: date | None,
    last: date | None,
    plan_path: Path | None,
    pseudonyms: bool,
    replace: bool,
    log_path: Path | None,
) -> None:
    """Write sets, sums or readiness as a table for other tools.

    The table is CSV, JSON or a workbook. Logs are merged by the ids of their sets; a folder stands
    for every .jsonl file below it. Struck sets are left out, corrections are in, and each name is
    as last written. The file is private to you, and written whole or not at all.

    \b
    tempo-coach export -o weeks.csv
    tempo-coach export logs/ -o club.xlsx --from 2026-09-01
    tempo-coach export logs/ --by set --method slow-lowering -o slow.csv
    tempo-coach export --plan winter.toml -o season.csv
    tempo-coach export --plan winter.toml --by readiness -o ready.csv
    tempo-coach export logs/ --pseudonyms -o study.csv
    tempo-coach export --by set --lifter "Mirela Oude" -o - --format json
    """
    chosen = _format(output, form)
    kinds = _kinds(by, chosen)
    if plan_path is not None and pseudonyms:
        raise click.UsageError("a plan calls lifters by name; give --plan or --pseudonyms")
    if plan_path is not None and not {By.WEEK, By.READINESS} & set(kinds):
        raise click.UsageError(
            "--plan goes with rows of weeks or of readiness; leave --by out, or give one of them"
        )
    today = bootstrap.clock().wall().date()
    plan = None if plan_path is None else usable_plan(plan_path, today=today)
    is_file = output != STANDARD_OUTPUT
    to = outputs.export_file(output if is_file else None)
    to.check(replace=replace)
    reading = merge_logs(logs, log_path)
    choice = Choice(lifters, exercises, first, last, methods)
    codes = None
    if pseudonyms:
        reading, choice, codes = masked(reading, choice)
    tables = [export_table(reading, kind, choice, today=today, plan=plan) for kind in kinds]
    if plan is not None:
        tables = [
            with_season(table, reading, plan, today=today) if table.by is By.WEEK else table
            for table in tables
        ]
    if codes is not None:
        tables = [codes.table(table) for table in tables]
    with progress("writing", sum(table.length for table in tables)) as shown:
        told = [table.told(shown.advance) for table in tables]
        to.write(told, chosen, replace=replace)
    if is_file:
        rows = ", ".join(f"{table.length:,} by {table.by}" for table in tables)
        print_line(f"wrote {to.name}; rows: {rows}")
    say_reading(reading)


def _format(output: Path, form: str | None) -> Format:
    endings = ", ".join(f".{one}" for one in Format)
    if output == STANDARD_OUTPUT:
        if form is None:
            raise click.UsageError("standard output needs a --format: csv, json or xlsx")
        return Format(form)
    ending = output.suffix.lower().removeprefix(".")
    by_name = Format(ending) if ending in set(Format) else None
    if form is None and by_name is None:
        raise click.UsageError(
            f"{quoted(output.name)} does not say what to write; let the name end in {endings}, "
            "or give --format"
        )
    if form is not None and by_name is not None and form != by_name:
        raise click.UsageError(
            f"{quoted(output.name)} and --format {form} don't agree; leave --format out, or let "
            f"the name end in .{form}"
        )
    return Format(form or ending)


def _kinds(by: str | None, form: Format) -> tuple[By, ...]:
    if by is not None:
        return (By(by),)
    return _SHEETS if form is Format.XLSX else (By.WEEK,)
