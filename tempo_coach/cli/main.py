"""The command, and the one place where a refusal becomes a line and an exit code."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path
from typing import NoReturn

import click

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Wishes
from tempo_coach.cli import exit_codes
from tempo_coach.cli.adherence_command import adherence_command
from tempo_coach.cli.advice_commands import next_command, ready_command
from tempo_coach.cli.compare_command import compare_command
from tempo_coach.cli.completion_command import completion_command
from tempo_coach.cli.export_command import export_command
from tempo_coach.cli.load_command import load_command
from tempo_coach.cli.log_commands import log_command
from tempo_coach.cli.max_commands import max_command
from tempo_coach.cli.method_commands import methods_command, prescribe_command
from tempo_coach.cli.open_command import CommandOrPlan
from tempo_coach.cli.options import (
    count_option,
    cues_option,
    given_settings,
    json_option,
    lifter_option,
    log_option,
    setup_option,
    silent_option,
)
from tempo_coach.cli.plan_commands import plan_command
from tempo_coach.cli.report_command import report_command
from tempo_coach.cli.reserve_command import reserve_command
from tempo_coach.cli.season_commands import season_command
from tempo_coach.cli.set_commands import (
    demo_command,
    run_app,
    set_command,
    sounds_command,
    track_command,
)
from tempo_coach.cli.simulate_command import simulate_command
from tempo_coach.cli.soreness_command import soreness_command
from tempo_coach.cli.tables import print_json, print_table
from tempo_coach.cli.week_command import week_command
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.cautions import LONG
from tempo_coach.core.legible import legible
from tempo_coach.errors import TempoCoachError


@click.group("tempo-coach", cls=CommandOrPlan, invoke_without_command=True)
@click.version_option(version("tempo-coach"), message="%(prog)s %(version)s")
@log_option
@lifter_option
@cues_option
@count_option
@setup_option
@silent_option
@click.pass_context
def command(
    ctx: click.Context, /, log_path: Path | None, is_silent: bool, **given: object
) -> int | None:
    """Pace strength sets aloud by a four-phase tempo, and count the lowering seconds.

    Without a command the app opens: type what is on the board, and go. With a plan's file, and
    then without one too, it opens on today's work.

    \b
    tempo-coach
    tempo-coach winter.toml
    tempo-coach set "front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00"
    """
    if ctx.invoked_subcommand is not None:
        return None
    return run_app(Wishes(log_path, is_silent, given_settings(**given)))


@command.command("where")
@log_option
def where_command(log_path: Path | None) -> None:
    """Print where the log is.

    \b
    tempo-coach where
    """
    click.echo(bootstrap.log_file(log_path).name)


@command.command("settings")
@json_option
def settings_command(as_json: bool) -> int:
    """Print the settings that hold, and where each comes from.

    The command line goes over the environment (TEMPO_COACH_CUES and so on), that over the
    settings file, that over the defaults.

    \b
    tempo-coach settings
    TEMPO_COACH_CUES=glide+voice tempo-coach settings
    """
    made = bootstrap.program(Wishes())
    values = made.effective.settings.model_dump(mode="json")
    sources = {key: made.effective.sources.get(key, "default") for key in values}
    if as_json:
        print_json({key: {"value": values[key], "from": sources[key]} for key in values})
    else:
        rows = [(key, _setting_text(value), sources[key]) for key, value in values.items()]
        print_table(("setting", "value", "from"), rows, left=3)
    for notice in made.notices:
        click.echo(f"tempo-coach: {notice}", err=True)
    return exit_codes.CONFIG if made.notices else exit_codes.OK


def _setting_text(value: object) -> str:
    if value is None:
        return "-"
    return str(value).lower() if isinstance(value, bool) else f"{value}"


@command.command("cautions")
def cautions_command() -> None:
    """Print what everyone should know before lowering heavy loads.

    \b
    tempo-coach cautions
    """
    for heading, paragraphs in LONG:
        click.echo(f"{heading}\n")
        for paragraph in paragraphs:
            click.echo(f"{wrapped(paragraph)}\n")


for _command in (
    set_command,
    track_command,
    week_command,
    export_command,
    report_command,
    log_command,
    max_command,
    plan_command,
    load_command,
    methods_command,
    prescribe_command,
    reserve_command,
    compare_command,
    adherence_command,
    simulate_command,
    season_command,
    ready_command,
    next_command,
    soreness_command,
    sounds_command,
    demo_command,
    completion_command,
):
    command.add_command(_command)


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run the command and leave with its exit code."""
    if os.environ.get("NO_COLOR") == "":
        # The standard counts only a value that is not empty; some libraries count any.
        del os.environ["NO_COLOR"]
    sys.exit(_run(arguments))


def _run(arguments: Sequence[str] | None) -> int:
    try:
        code = command.main(
            None if arguments is None else list(arguments),
            prog_name="tempo-coach",
            standalone_mode=False,
        )
    except TempoCoachError as fault:
        return _refuse(str(fault), exit_codes.exit_code(fault))
    except click.UsageError as fault:
        where = f" ({fault.ctx.command_path} --help)" if fault.ctx else ""
        # What is missing is followed by its choices, a line each.
        message = " ".join(fault.format_message().split())
        return _refuse(message + where, exit_codes.USAGE)
    except click.ClickException as fault:
        return _refuse(fault.format_message(), exit_codes.NO_INPUT)
    except (click.Abort, KeyboardInterrupt):
        return _refuse("interrupted", exit_codes.INTERRUPTED)
    except SystemExit:
        # Raised by click, in this mode, only when whoever read the output has had enough.
        return exit_codes.OK
    return code if isinstance(code, int) else exit_codes.OK


def _refuse(message: str, code: int) -> int:
    click.echo(f"tempo-coach: {legible(message)}", err=True)
    return code
