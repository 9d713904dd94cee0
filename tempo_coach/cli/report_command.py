"""The command that writes a page for each lifter, to be printed or sent."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import click

from tempo_coach import bootstrap, outputs
from tempo_coach.bootstrap import Wishes
from tempo_coach.cli.log_reading import logs_argument, masked, merge_logs, say_reading
from tempo_coach.cli.options import (
    STANDARD_OUTPUT,
    lifters_option,
    log_option,
    pseudonyms_option,
    whole_number_from,
)
from tempo_coach.cli.planned_lifter import usable_plan
from tempo_coach.cli.progress import progress
from tempo_coach.core.export_tables import Choice, chosen_rows
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import quoted
from tempo_coach.core.marks import counted
from tempo_coach.core.report_pages import (
    MOST_WEEKS,
    WEEKS,
    PageFormat,
    Scope,
    report_of,
    reported_week,
)
from tempo_coach.core.weeks import IsoWeek

_WEEK = re.compile(r"(\d{4})-W(\d\d)", re.ASCII | re.IGNORECASE)


def _iso_week(text: str) -> IsoWeek:
    """Return a week as the command line takes it."""
    if found := _WEEK.fullmatch(text):
        week = IsoWeek(int(found[1]), int(found[2]))
        try:
            week.monday()
        except ValueError:
            pass
        else:
            return week
    raise click.BadParameter(f"{quoted(text)} is no week of ISO 8601; give one such as 2026-W48")


@click.command("report")
@logs_argument
@click.option(
    "-o",
    "--output",
    required=True,
    type=click.Path(path_type=Path, allow_dash=True),
    metavar="FILE",
    help="The file to write, .html or .pdf; - is standard output, with HTML.",
)
@click.option(
    "--week",
    type=_iso_week,
    metavar="WEEK",
    help="The week to report, as 2026-W48 [else the latest that has sets].",
)
@click.option(
    "--weeks",
    type=whole_number_from(2, MOST_WEEKS),
    default=WEEKS,
    metavar="WEEKS",
    help=f"How many weeks stand side by side, up to that one, 2 to {MOST_WEEKS} [{WEEKS}].",
)
@click.option(
    "--plan",
    "plan_path",
    type=click.Path(path_type=Path),
    metavar="PLAN",
    help="Hold the week against this plan, and say what is ahead.",
)
@lifters_option
@pseudonyms_option
@click.option("--replace", is_flag=True, help="Write over a file that is there.")
@log_option
def report_command(
    logs: tuple[Path, ...],
    output: Path,
    week: IsoWeek | None,
    weeks: int,
    plan_path: Path | None,
    lifters: tuple[str, ...],
    pseudonyms: bool,
    replace: bool,
    log_path: Path | None,
) -> None:
    """Write a week as a page for each lifter, HTML or PDF.

    The page, to print or to send, holds this week's sums against the last ones, charts by exercise,
    and each set as prescribed and as done; before several lifters stands the roster. With a plan it
    also says who is ready for more or not yet, and proposes next week, which changes nothing. It is
    one file that needs nothing else, prints on one sheet of A4 a lifter, and is private to you.
    Needs the extra 'report': pip install 'tempo-coach[report]'.

    \b
    tempo-coach report -o week.html
    tempo-coach report logs/ -o club.pdf --week 2026-W48
    tempo-coach report --lifter "Mirela Oude" --plan winter.toml -o mirela.html
    """
    form = _format(output)
    if pseudonyms and plan_path is not None:
        raise click.UsageError("a plan calls lifters by name; give --plan or --pseudonyms")
    is_file = output != STANDARD_OUTPUT
    to = outputs.report_file(output if is_file else None)
    to.check(replace=replace)
    writer = outputs.report_writer(form)
    plan = None if plan_path is None else usable_plan(plan_path)
    reading, choice = merge_logs(logs, log_path), Choice(lifters)
    shown: Callable[[SetDone], SetDone] = _whole
    if pseudonyms:
        reading, choice, codes = masked(reading, choice)
        shown = codes.done
    rows = chosen_rows(reading.rows, choice)
    allowances = bootstrap.program(Wishes(is_silent=True)).coach.settings.allowances
    scope = Scope(reported_week(rows, asked=week), weeks, allowances, plan)
    report = report_of(reading, rows, scope, shown=shown)
    with progress("writing", report.length) as bar:
        told = report.told(bar.advance)
        to.write(lambda file: writer.write(told, file), replace=replace)
    if is_file:
        click.echo(f"wrote {to.name}: {scope.week}, {counted(report.length, 'lifter')}")
    say_reading(reading)


def _whole(done: SetDone) -> SetDone:
    return done


def _format(output: Path) -> PageFormat:
    if output == STANDARD_OUTPUT:
        return PageFormat.HTML
    ending = output.suffix.lower().removeprefix(".")
    if ending not in set(PageFormat):
        endings = ", ".join(f".{one}" for one in PageFormat)
        raise click.UsageError(
            f"{quoted(output.name)} does not say what to write; let the name end in {endings}"
        )
    return PageFormat(ending)
