"""The command that says how tempos were kept."""

from __future__ import annotations

from pathlib import Path

import click

from tempo_coach.cli.log_reading import logs_argument, merge_logs, say_disagreeing, say_reading
from tempo_coach.cli.options import json_option, log_option, only_lifter_option
from tempo_coach.cli.tables import print_json, print_table
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.amounts import NONE, signed
from tempo_coach.core.export_tables import Choice, chosen_rows
from tempo_coach.core.kept_tempos import KeptTempo, kept_data, kept_tempos
from tempo_coach.core.reports import skipped_data

_HEADINGS = (
    "lifter", "exercise", "tempo", "week", "sets", "lowers", "within 6%", "within 0.5 s",
    "off s", "off %", "drift s/rep",
)  # fmt: skip
_EXPLAINED = (
    "Off: measured less prescribed, on the mean of the lowers. Drift: how much longer the lower "
    "gets from rep to rep. A band of 6% is what lifters paced by a metronome scatter by (mean "
    "velocity, CV 4.0 to 6.4%, bench press metronome study, 2009); half a second is common "
    "practice. A lower tapped by hand is good to about 0.15 s."
)
NOTHING = (
    "no lower was measured yet: 'tempo-coach compare TRACE LINE' reads a trace of the bar, and the "
    "setting 'taps' lets a partner tap"
)


@click.command("adherence")
@logs_argument
@only_lifter_option
@click.option("--exercise", metavar="NAME", help="Only this exercise.")
@json_option
@log_option
def adherence_command(
    logs: tuple[Path, ...],
    lifter: str | None,
    exercise: str | None,
    as_json: bool,
    log_path: Path | None,
) -> None:
    """Say how tempos were kept week by week, where measured.

    What counts are lowers measured by taps or by a trace. Logs are merged; a folder stands for
    every .jsonl file below it.

    \b
    tempo-coach adherence
    tempo-coach adherence logs/ --exercise "front squat"
    """
    reading = merge_logs(logs, log_path)
    choice = Choice(() if lifter is None else (lifter,), () if exercise is None else (exercise,))
    kept = kept_tempos(reading, chosen_rows(reading.rows, choice))
    if as_json:
        say_disagreeing(reading)
        print_json({"tempos": kept_data(kept), "skipped": skipped_data(reading.skipped)})
        return
    if kept:
        print_table(_HEADINGS, map(_row, kept), left=4)
        click.echo(f"\n{wrapped(_EXPLAINED)}")
    else:
        click.echo(wrapped(NOTHING))
    say_reading(reading)


def _row(one: KeptTempo) -> tuple[str, ...]:
    off_share, drift_ms = one.mean_off_share, one.drift_ms
    return (
        one.lifter,
        one.exercise,
        str(one.tempo),
        str(one.week),
        str(one.sets),
        str(one.lowers),
        str(one.within_share),
        str(one.within_time),
        signed(one.mean_off_ms / 1000, digits=2),
        NONE if off_share is None else signed(off_share * 100),
        NONE if drift_ms is None else signed(drift_ms / 1000, digits=2),
    )
