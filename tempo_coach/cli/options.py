"""Options that several commands share."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import Any, TypeVar

import click
from click.core import ParameterSource

from tempo_coach.core.fact_values import LONGEST_NOTE
from tempo_coach.core.legible import quoted
from tempo_coach.core.prescription import check_name, clean_name
from tempo_coach.core.settings import CueSet, parse_cues
from tempo_coach.core.written_dates import (
    DAY_RANGE,
    EARLIEST_DAY,
    LATEST_DAY,
    parse_day,
    parse_moment,
)
from tempo_coach.errors import OutOfRange

STANDARD_OUTPUT = Path("-")
"""How an output is called that is no file."""
_Number = TypeVar("_Number", int, float)


def lifter_name(text: str) -> str:
    """Return a lifter's name with single spaces, as the command line takes it."""
    try:
        return check_name(clean_name(text), what="lifter")
    except OutOfRange as fault:
        raise click.BadParameter(str(fault)) from fault


def number_from(least: float, most: float, *, unit: str = "") -> Callable[[str], float]:
    """Return how the command line takes a number between bounds, which are allowed too."""
    allowed = f"{least:,} to {most:,} {unit}".rstrip()
    return lambda text: _read(text, float, least, most, allowed)


def whole_number_from(least: int, most: int) -> Callable[[str], int]:
    """Return how the command line takes a whole number between bounds, which are allowed too."""
    allowed = f"a whole number from {least:,} to {most:,}"
    return lambda text: _read(text, int, least, most, allowed)


def seconds_from(least: float, most: float) -> Callable[[str], float]:
    """Return how the command line takes seconds between bounds, in whole milliseconds."""
    read = number_from(least, most, unit="seconds")
    return lambda text: round(read(text), 3)


def _read(
    text: str, kind: Callable[[str], _Number], least: float, most: float, allowed: str
) -> _Number:
    try:
        number = kind(text)
    except ValueError:
        number = None
    if number is None or not least <= number <= most:
        raise click.BadParameter(f"{quoted(text)} is not possible; give {allowed}")
    return number


def note_text(text: str) -> str:
    """Return a note that the log can keep, as the command line takes it."""
    if len(text) > LONGEST_NOTE or any("\ud800" <= letter <= "\udfff" for letter in text):
        raise OutOfRange(
            f"the text {quoted(text)} can't be kept",
            hint=f"at most {LONGEST_NOTE} characters of UTF-8",
        )
    return text


def cue_sets(text: str) -> tuple[CueSet, ...]:
    """Return cue sets as the command line takes them."""
    try:
        return parse_cues(text)
    except ValueError as fault:
        raise click.BadParameter(str(fault)) from fault


def calendar_day(text: str) -> date:
    """Return a date as the command line takes it."""
    try:
        return parse_day(text)
    except OutOfRange as fault:
        raise click.BadParameter(str(fault)) from fault


def planned_day(text: str) -> date:
    """Return a date that a plan may speak of, as the command line takes it."""
    day = calendar_day(text)
    _check_day(day)
    return day


def local_moment(text: str) -> datetime:
    """Return a local date with a time of day, as the command line takes it."""
    try:
        moment = parse_moment(text)
    except OutOfRange as fault:
        raise click.BadParameter(str(fault)) from fault
    # Near the ends of the calendar a moment has no offset.
    _check_day(moment.date())
    return moment


def _check_day(day: date) -> None:
    if not EARLIEST_DAY <= day <= LATEST_DAY:
        raise click.BadParameter(f"{day.isoformat()} is not possible; {DAY_RANGE}")


def given_settings(**given: object) -> dict[str, object]:
    """Return those of the settings that the command line gives."""
    return {key: value for key, value in given.items() if value is not None}


def _given_once(ctx: click.Context, param: click.Parameter, value: Any) -> Any:
    """Let an option stand before the command or behind it, but not with two values."""
    outer = ctx.parent
    while outer is not None and param.name not in outer.params:
        outer = outer.parent
    if outer is None:
        return value
    if ctx.get_parameter_source(param.name) is not ParameterSource.COMMANDLINE:
        return outer.params[param.name]
    if outer.get_parameter_source(param.name) is ParameterSource.COMMANDLINE:
        raise click.UsageError(f"{param.opts[0]} is given twice; give it once", ctx)
    return value


def _given_before(ctx: click.Context, param: click.Parameter, value: Any) -> Any:
    """Let the one lifter before the command be the lifters behind it, but not both."""
    root = ctx.find_root()
    if root.get_parameter_source("lifter") is not ParameterSource.COMMANDLINE:
        return value
    if value:
        raise click.UsageError(f"{param.opts[0]} is given before and behind; give it behind", ctx)
    return (root.params["lifter"],)


log_option = click.option(
    "--log",
    "log_path",
    type=click.Path(path_type=Path),
    envvar="TEMPO_COACH_LOG",
    callback=_given_once,
    help="The log to use [env: TEMPO_COACH_LOG; else your own, see 'where'].",
)
lifter_option = click.option(
    "--lifter",
    type=lifter_name,
    metavar="NAME",
    callback=_given_once,
    help="Who lifts [env: TEMPO_COACH_LIFTER; else as set or asked once].",
)
setup_option = click.option(
    "--setup",
    "setup_s",
    type=seconds_from(3, 60),
    metavar="SECONDS",
    callback=_given_once,
    help="Seconds from the start until rep 1 begins, 3 to 60 [else as set, or 10].",
)
cues_option = click.option(
    "--cues",
    type=cue_sets,
    metavar="CUES",
    callback=_given_once,
    help="What is heard: tick, glide, voice, or several joined by + [else as set, or tick].",
)
count_option = click.option(
    "--count",
    type=click.Choice(["up", "down"]),
    callback=_given_once,
    help="Which way the voice counts the seconds of a phase [else as set, or up].",
)
silent_option = click.option(
    "--silent", "is_silent", is_flag=True, callback=_given_once, help="Make no sound."
)
only_lifter_option = click.option(
    "--lifter",
    type=lifter_name,
    metavar="NAME",
    callback=_given_once,
    help="Only this lifter.",
)
day_option = click.option(
    "--on",
    "day",
    type=planned_day,
    metavar="DATE",
    help="As it stands on a day, as 2026-11-30 [else today].",
)
lifters_option = click.option(
    "--lifter",
    "lifters",
    type=lifter_name,
    metavar="NAME",
    multiple=True,
    callback=_given_before,
    help="Only this lifter; give it again for more.",
)
exercises_option = click.option(
    "--exercise",
    "exercises",
    metavar="NAME",
    multiple=True,
    help="Only this exercise; give it again for more.",
)
pseudonyms_option = click.option(
    "--pseudonyms",
    is_flag=True,
    help="Put codes in place of names, the same in every export; leave out notes.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON.")
