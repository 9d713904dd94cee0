"""The command that leads through a reserve test, or prints the result of the last one."""

from __future__ import annotations

from pathlib import Path

import click

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Program, Wishes
from tempo_coach.cli import exit_codes
from tempo_coach.cli.answers import ask
from tempo_coach.cli.options import (
    count_option,
    cues_option,
    given_settings,
    json_option,
    lifter_option,
    log_option,
    seconds_from,
    setup_option,
    silent_option,
)
from tempo_coach.cli.plain_reserve_test import PlainReserveTest
from tempo_coach.cli.planned_lifter import max_load, person_of, usable_plan
from tempo_coach.cli.rows import print_rows
from tempo_coach.cli.set_commands import rescue
from tempo_coach.cli.tables import print_json
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.coach import Coach
from tempo_coach.core.cautions import RESERVE_CHECK, SHORT
from tempo_coach.core.history import History
from tempo_coach.core.legible import legible, quoted
from tempo_coach.core.load import Load, parse_load
from tempo_coach.core.load_span import (
    USUAL_CEILING,
    USUAL_LOWER_S,
    USUAL_STEP,
    span_of,
)
from tempo_coach.core.overload import NOT_SAID
from tempo_coach.core.plan import Lifter
from tempo_coach.core.prescription import check_name, clean_name
from tempo_coach.core.reserve_facts import LONGEST_LOWER_S, SHORTEST_LOWER_S
from tempo_coach.core.reserve_result import result_data, result_rows
from tempo_coach.core.reserve_start import (
    USUAL_REST,
    check_cleared,
    going_on,
    going_on_words,
    loads_words,
    max_to_test,
    read_rest,
)
from tempo_coach.core.reserve_test import ReserveTest, unanswered
from tempo_coach.core.strength import LifterRecord
from tempo_coach.errors import OutOfRange, TempoCoachError

_OWN = ("tested", "step", "lower_s", "ceiling")
"""Options that a test which goes on has already."""


def _load(text: str) -> Load:
    try:
        return parse_load(text)
    except OutOfRange as fault:
        raise click.BadParameter(str(fault)) from fault


def _rest(text: str) -> int:
    try:
        return read_rest(text)
    except OutOfRange as fault:
        raise click.BadParameter(str(fault)) from fault


@click.command("reserve", epilog=SHORT[1])
@click.argument("exercise")
@click.option(
    "--max",
    "tested",
    type=max_load,
    metavar="LOAD",
    help="The 1RM, such as '120 kg' [else from the log or the plan].",
)
@click.option(
    "--step",
    type=_load,
    metavar="STEP",
    help="Such as '5 kg' or '4%' of the 1RM, at most 10% [5%].",
)
@click.option(
    "--lower-s",
    type=seconds_from(SHORTEST_LOWER_S, LONGEST_LOWER_S),
    metavar="SECONDS",
    help=f"How long each lower is to be, {SHORTEST_LOWER_S} to {LONGEST_LOWER_S} [5].",
)
@click.option(
    "--ceiling",
    type=_load,
    metavar="LOAD",
    help="The most to go up to, such as '120%' or '140 kg', at most 160% [130%].",
)
@click.option(
    "--rest",
    "rest_ms",
    type=_rest,
    default=USUAL_REST,
    metavar="REST",
    help=f"Between attempts [{USUAL_REST}].",
)
@click.option(
    "--plan",
    "plan_path",
    type=click.Path(path_type=Path),
    metavar="PLAN",
    help="The plan that has the lifter's maxes and the coach's word [the one opened last].",
)
@click.option("--resume", "resumes", is_flag=True, help="Go on with today's test without asking.")
@click.option("--result", "shows_result", is_flag=True, help="Print the result of the last test.")
@json_option
@cues_option
@count_option
@setup_option
@silent_option
@lifter_option
@log_option
@click.pass_context
def reserve_command(
    ctx: click.Context,
    /,
    exercise: str,
    rest_ms: int,
    plan_path: Path | None,
    resumes: bool,
    shows_result: bool,
    as_json: bool,
    is_silent: bool,
    log_path: Path | None,
    tested: Load | None,
    step: Load | None,
    lower_s: float | None,
    ceiling: Load | None,
    **given: object,
) -> int:
    """Test how much more a lifter lowers under control than lifts.

    The loads begin at the 1RM and rise by the step, rounded down to what the discs make. Each
    attempt is one lower, paced and logged as a set; the spotters raise the bar. After each, the
    partner says whether it was held. The test ends with the first load that is lost, or at the
    ceiling, and gives the reserve: the greatest load held over the 1RM.

    The check of spotters and pins has to be answered before; nothing answers it in advance. A test
    that is left goes on the same day.

    \b
    tempo-coach reserve "front squat" --max "100 kg"
    tempo-coach reserve "front squat" --plan winter.toml \\
        --lifter "Jonne Tarval" --step 4% --rest 5:00
    tempo-coach reserve "front squat" --result --json
    """
    if as_json and not shows_result:
        raise click.UsageError("--json goes with --result")
    own = [name for name in _OWN if ctx.params[name] is not None]
    if own and (resumes or shows_result):
        raise click.UsageError("a test that was begun has its loads; leave out what sets them")
    settings = given_settings(**given)
    made = bootstrap.program(Wishes(log_path, is_silent or shows_result, settings))
    for notice in made.notices:
        click.echo(f"tempo-coach: {notice}", err=True)
    person = _person(made, plan_path)
    name = made.lifter if person is None else person.name
    if name is None:
        raise click.UsageError("nobody is named; say who is tested with --lifter NAME")
    exercise = check_name(clean_name(exercise), what="exercise")
    coach, history = made.coach, made.coach.history()
    if shows_result:
        tests = history.reserve_tests.of(name, exercise)
        _print_result(tests, lifter=name, exercise=exercise, as_json=as_json)
        return exit_codes.OK
    check_cleared(name, person)
    if person is None or person.overload is None:
        click.echo(wrapped(NOT_SAID), err=True)
    for caution in SHORT[:3]:
        click.echo(wrapped(caution), err=True)
    today = coach.clock.wall().date()
    test = None if own else going_on(history.reserve_tests, name, exercise, today=today)
    if test is not None and not _goes_on(test, asks=not resumes):
        test = None
    if test is None and resumes:
        raise OutOfRange(
            f"there is no test of today to go on with, of {legible(name)}, {legible(exercise)}",
            hint="leave --resume out to begin one",
        )
    if test is None:
        max_kg = _max_kg(tested, exercise, LifterRecord(name, person, history.maxes))
        span = span_of(
            max_kg,
            step=step or USUAL_STEP,
            ceiling=ceiling or USUAL_CEILING,
            lower_s=lower_s or USUAL_LOWER_S,
        )
        rack = coach.settings.rack
        click.echo(wrapped(loads_words(span, rack)))
        _check_pins()
        test, fault = coach.reserve.begin(span, lifter=name, exercise=exercise, rack=rack)
        if fault is not None:
            click.echo(f"not saved yet: {fault}", err=True)
    else:
        _check_pins()
    return _lead(coach, test, history, rest_ms=rest_ms)


def _person(made: Program, plan_path: Path | None) -> Lifter | None:
    """Return the lifter of a plan, the one opened last where none is given; None without one."""
    if plan_path is not None:
        return person_of(usable_plan(plan_path), made.lifter)
    plan = bootstrap.last_plan(made)
    if plan is None or made.lifter is None or not plan.has(made.lifter):
        return None
    click.echo(f"plan: {legible(plan.name)}, as it was opened last", err=True)
    return plan.lifter(made.lifter)


def _check_pins() -> None:
    click.echo(wrapped(RESERVE_CHECK), err=True)
    answer = ask("Is all of that so? Type yes to begin:", without="a test needs people beside it")
    if answer.lower() != "yes":
        raise TempoCoachError("the test was not begun", hint="only 'yes' begins it")


def _goes_on(test: ReserveTest, *, asks: bool) -> bool:
    click.echo(going_on_words(test), err=True)
    if not asks:
        return True
    answer = ask("Go on with it? Enter goes on, n begins a new one:", without="--resume goes on")
    return answer.lower() not in ("n", "no")


def _max_kg(tested: Load | None, exercise: str, record: LifterRecord) -> float:
    if tested is not None:
        click.echo(f"1RM: {tested}, as given")
        return tested.kg() or 0.0
    best = max_to_test(record, exercise)
    if best is None:
        raise click.UsageError(
            f"no 1RM of {legible(record.name)} is known for {legible(exercise)}; give --max, such "
            "as --max '100 kg'"
        )
    click.echo(wrapped(f"1RM: {best}"))
    return best.kg


def _lead(coach: Coach, test: ReserveTest, history: History, *, rest_ms: int) -> int:
    guide = PlainReserveTest(coach, test, rest_ms=rest_ms)
    code = exit_codes.OK
    try:
        code = guide.run(unanswered(test, history.sets))
    finally:
        is_safe = rescue(coach)
        if guide.test.ended is None:
            click.echo("The test is not over; --resume goes on with it today.", err=True)
    if code == exit_codes.OK:
        click.echo()
        print_rows(result_rows(guide.test))
    return code if is_safe else code or exit_codes.IO


def _print_result(
    tests: tuple[ReserveTest, ...], *, lifter: str, exercise: str, as_json: bool
) -> None:
    if not tests:
        raise OutOfRange(
            f"no reserve test of {quoted(lifter)} is known for {quoted(exercise)}",
            hint="'tempo-coach reserve EXERCISE' begins one",
        )
    if as_json:
        print_json(result_data(tests[-1]))
    else:
        print_rows(result_rows(tests[-1]))
