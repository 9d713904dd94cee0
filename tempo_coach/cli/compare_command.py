"""The command that sets what was really lifted beside the line."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import click

from tempo_coach import outputs
from tempo_coach.cli.options import given_settings, json_option, lifter_option, log_option
from tempo_coach.cli.rows import wrapped
from tempo_coach.cli.tables import print_json, print_table
from tempo_coach.cli.trace_logging import log_compared, logging_options
from tempo_coach.core.compared_set import ComparedSet, compared_data
from tempo_coach.core.compared_table import (
    PHASE_HEADINGS,
    SPEED_HEADINGS,
    loss_words,
    phase_rows,
    speed_rows,
)
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.trace_columns import Wishes
from tempo_coach.storage.trace_file import TraceFile


@click.command("compare")
@click.argument("trace", type=click.Path(path_type=Path), metavar="TRACE")
@click.argument("line", metavar="LINE")
@click.option("--time", metavar="COLUMN", help="Heading or number of the column of times.")
@click.option("--height", metavar="COLUMN", help="The same for the bar's height.")
@click.option("--speed", metavar="COLUMN", help="The same for its vertical speed.")
@click.option("--acceleration", metavar="COLUMN", help="The same for its vertical acceleration.")
@click.option("--unit", metavar="UNIT", help="Its unit, such as cm, in/s or g [else as headed].")
@click.option(
    "--time-unit", metavar="UNIT", help="The unit of the times, s or ms [else as headed]."
)
@click.option(
    "--rate",
    "rate_hz",
    type=click.FloatRange(1, 100_000),
    metavar="HZ",
    help="Samples a second, in place of a column of times.",
)
@click.option("--down-positive", is_flag=True, help="The figures grow on the way down.")
@logging_options
@lifter_option
@log_option
@json_option
def compare_command(
    trace: Path,
    line: str,
    set_id: str | None,
    is_new: bool,
    began: datetime | None,
    lifter: str | None,
    log_path: Path | None,
    as_json: bool,
    **given: object,
) -> None:
    """Set what was really lifted beside the line: a recording of the bar, rep by rep.

    TRACE is a table as text (CSV), with the bar's height, speed or acceleration over time, from
    any device or video. With --set or --log-set the log takes it in, and the set's seconds count as
    measured. Needs the extra 'trace': pip install 'tempo-coach[trace]'.

    \b
    tempo-coach compare trace.csv "front squat 1x5 @ 80 kg 4-1-X-1"
    tempo-coach compare video.csv "deadlift 1x3 3-1-X-0" --height "y" --unit cm --rate 60
    """
    prescription = parse_prescription(line)
    cutter = outputs.trace_cutter()
    read = TraceFile(trace).read(Wishes(**given))  # type: ignore[arg-type] # click made them so
    compared = ComparedSet(prescription, cutter(read, prescription))
    if as_json:
        print_json(compared_data(compared))
    else:
        print_compared(compared)
    logged = log_compared(
        compared,
        set_id=set_id,
        is_new=is_new,
        began=began,
        log_path=log_path,
        settings=given_settings(lifter=lifter),
    )
    if logged is not None:
        click.echo(f"\n{logged}", err=as_json)


def print_compared(compared: ComparedSet) -> None:
    """Print the tables of a compared set, and what is to be said of it."""
    click.echo(f"{compared.prescription}\n")
    print_table(PHASE_HEADINGS, phase_rows(compared))
    click.echo()
    print_table(SPEED_HEADINGS, speed_rows(compared))
    said = (loss_words(compared), *compared.adherence.sentences(), *compared.remarks())
    for words in filter(None, said):
        click.echo(f"\n{wrapped(words)}")
