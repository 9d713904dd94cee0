"""The command that sets what was really lifted beside the line."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from tempo_coach import bootstrap, outputs
from tempo_coach.cli.compared_print import print_compared
from tempo_coach.cli.options import (
    given_settings,
    json_option,
    lifter_option,
    log_option,
    number_from,
)
from tempo_coach.cli.tables import print_json
from tempo_coach.cli.trace_logging import logging_options, place_in_log
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.compared_set import ComparedSet, compared_data
from tempo_coach.core.legible import quoted
from tempo_coach.core.prescribed_path import PICTURE_FORMATS, paths_of
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.trace_columns import Wishes


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
    type=number_from(1, 100_000, unit="samples a second"),
    metavar="HZ",
    help="Samples a second, 1 to 100,000, in place of a column of times.",
)
@click.option("--down-positive", is_flag=True, help="The figures grow on the way down.")
@click.option("--from", "from_s", type=float, metavar="S", help="Leave out what is before.")
@click.option("--to", "to_s", type=float, metavar="S", help="Leave out what is after.")
@click.option(
    "--picture",
    "picture_path",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Also draw it into a file, .svg, .png or .pdf; needs the extra 'report'.",
)
@click.option("--replace", is_flag=True, help="Write over a picture that is there.")
@logging_options
@lifter_option
@log_option
@json_option
def compare_command(
    trace: Path,
    line: str,
    from_s: float | None,
    to_s: float | None,
    picture_path: Path | None,
    replace: bool,
    set_id: str | None,
    is_new: bool,
    began: datetime | None,
    lifter: str | None,
    log_path: Path | None,
    as_json: bool,
    **given: Any,
) -> None:
    """Set a recording of the bar beside the line, rep by rep.

    TRACE is a table as text (CSV), with the bar's height, speed or acceleration over time, from
    any device or video. How long each phase took is found in it, and what was done with the data
    is said. With --set or --log-set the log takes it in, and the set's seconds count as measured.
    Needs the extra 'trace': pip install 'tempo-coach[trace]'.

    \b
    tempo-coach compare trace.csv "front squat 1x5 @ 80 kg 4-1-X-1"
    tempo-coach compare video.csv "deadlift 1x3 3-1-X-0" --height y --rate 60
    """
    prescription = parse_prescription(line)
    cut = outputs.trace_cutter()
    draw = None if picture_path is None else _picture(picture_path, replace=replace)
    log = place_in_log(
        prescription,
        set_id=set_id,
        is_new=is_new,
        began=began,
        log_path=log_path,
        settings=given_settings(lifter=lifter),
    )
    read = bootstrap.trace_file(trace).read(Wishes(**given)).between(from_s, to_s)
    compared = ComparedSet(prescription, cut(read, prescription))
    if as_json:
        print_json(compared_data(compared))
    else:
        print_compared(compared)
    if draw is not None:
        draw(compared)
    if log is not None:
        click.echo(f"\n{wrapped(log(compared))}", err=as_json)


def _picture(path: Path, *, replace: bool) -> Callable[[ComparedSet], None]:
    """Return what draws a compared set into a file, once all that it needs is there."""
    form = path.suffix.lower().removeprefix(".")
    if form not in PICTURE_FORMATS:
        endings = ", ".join(f".{one}" for one in PICTURE_FORMATS)
        raise click.UsageError(
            f"{quoted(path.name)} does not say what to draw; let the name end in {endings}"
        )
    draw, to = outputs.path_drawer(), outputs.picture_file(path)
    to.check(replace=replace)

    def drawn(compared: ComparedSet) -> None:
        paths, title = paths_of(compared), str(compared.prescription)
        to.write(lambda file: draw(paths, file, form=form, title=title), replace=replace)
        click.echo(f"drew {to.name}", err=True)

    return drawn
