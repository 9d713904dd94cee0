"""Commands that tell the methods, and write lines of one for a lifter."""

from __future__ import annotations

from pathlib import Path

import click

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Wishes
from tempo_coach.cli.options import json_option, lifter_option, log_option, seconds_from
from tempo_coach.cli.planned_lifter import max_load, person_of, usable_plan
from tempo_coach.cli.rows import print_rows
from tempo_coach.cli.tables import print_json, print_table
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.bar_words import set_words
from tempo_coach.core.legible import legible
from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.core.loading import Rack
from tempo_coach.core.method_card import card_data, card_rows
from tempo_coach.core.method_catalogue import METHODS, method_named
from tempo_coach.core.method_lines import BestFor, MethodLine, method_lines
from tempo_coach.core.methods import Method
from tempo_coach.core.overload import NOT_SAID
from tempo_coach.core.plan import Plan
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.set_bar import set_bar
from tempo_coach.core.strength import Best, LifterRecord
from tempo_coach.errors import OutOfRange


def _method(text: str) -> Method:
    try:
        return method_named(text)
    except OutOfRange as fault:
        raise click.BadParameter(str(fault), param_hint="'METHOD'") from fault


def _names(_ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[str]:
    return [name.value for name in METHODS if name.startswith(incomplete)]


@click.command("methods")
@click.argument("method", metavar="[METHOD]", type=_method, required=False, shell_complete=_names)
@json_option
def methods_command(method: Method | None, as_json: bool) -> None:
    """Tell the ways to train the lowering, or all of one.

    Each number stands with its source; where neither a trial nor the trade has one, it says so.

    \b
    tempo-coach methods
    tempo-coach methods accentuated-lowering
    """
    if as_json:
        shown = METHODS.values() if method is None else (method,)
        print_json([card_data(one) for one in shown])
    elif method is None:
        rows = [(one.name.value, one.summary) for one in METHODS.values()]
        print_table(("method", "what is done"), rows, left=2)
        click.echo("\n'tempo-coach methods METHOD' tells all of one.")
    else:
        click.echo(f"{method.name}: {method.summary}\n")
        print_rows(card_rows(method))


@click.command("prescribe")
@click.argument("exercise", metavar="EXERCISE")
@click.argument("method", metavar="METHOD", type=_method, shell_complete=_names)
@click.option(
    "--plan",
    "plan_path",
    type=click.Path(path_type=Path),
    help="The plan that has the lifter's maxes, the step of loads and the coach's word.",
)
@lifter_option
@log_option
@click.option(
    "--max",
    "tested",
    type=max_load,
    metavar="LOAD",
    help="The 1RM, such as '120 kg', tested with a lower of about that length.",
)
@click.option(
    "--lower",
    "lower_s",
    type=seconds_from(1, 60),
    metavar="SECONDS",
    help="How long the lower is to be, 1 to 60 [else as the method has it].",
)
@json_option
def prescribe_command(
    exercise: str,
    method: Method,
    plan_path: Path | None,
    lifter: str | None,
    log_path: Path | None,
    tested: Load | None,
    lower_s: float | None,
    as_json: bool,
) -> None:
    """Write lines of a method for one lifter, each number explained.

    'set' takes each line as it is. The loads are worked out from the lifter's maxes in the log and
    the plan; without one, methods that need none have a line by effort.

    \b
    tempo-coach prescribe "front squat" slow-lowering --max "120 kg"
    tempo-coach prescribe "front squat" slow-lowering --plan winter.toml \\
        --lifter "Mirela Oude"
    """
    made = bootstrap.program(Wishes(log_path, is_silent=True))
    plan = None if plan_path is None else usable_plan(plan_path)
    name = lifter or made.lifter
    person = None if plan is None else person_of(plan, name)
    record = LifterRecord(
        name or "" if person is None else person.name, person, made.coach.history().maxes
    )
    lines = method_lines(
        method,
        exercise,
        best_for=_best_for(exercise, record, tested),
        step=_step(plan, tested),
        allowances=made.coach.settings.allowances,
        is_cleared=None if person is None else person.overload,
        lower_ms=None if lower_s is None else round(lower_s * 1000),
    )
    is_said = not method.is_overload or (person is not None and person.overload is True)
    cautions = method.cautions if is_said else (NOT_SAID, *method.cautions)
    if as_json:
        print_json(_data(method, lines, cautions, record.name or None))
    else:
        settings = made.coach.settings
        _print(method, lines, cautions, rack=settings.rack if settings.show_discs else None)


def _best_for(exercise: str, record: LifterRecord, tested: Load | None) -> BestFor:
    if tested is not None:
        return lambda _: Best(tested, "the max as given")
    return lambda lower_s: record.best(exercise, lower_s=lower_s)


def _step(plan: Plan | None, tested: Load | None) -> Load:
    if plan is not None:
        return plan.loads_by
    in_lb = tested is not None and tested.unit is LoadUnit.LB
    return parse_load("5 lb" if in_lb else "2.5 kg")


def _print(
    method: Method, lines: tuple[MethodLine, ...], cautions: tuple[str, ...], *, rack: Rack | None
) -> None:
    for line in lines:
        click.echo(f"{line.when}:")
        click.echo(legible(str(line.prescription)))
        for words in (*line.why, *_bar_words(line.prescription, rack)):
            click.echo(wrapped(words, first="  - ", indent="    "))
        click.echo()
    print_rows(
        [
            ("people", method.people),
            ("equipment", method.equipment),
            *(("caution", caution) for caution in cautions),
        ]
    )


def _bar_words(line: Prescription, rack: Rack | None) -> tuple[str, ...]:
    if rack is None:
        return ()
    found = set_bar(rack, exercise=line.exercise, load=line.load)
    return () if found is None else (f"on a bar: {set_words(found)}",)


def _data(
    method: Method, lines: tuple[MethodLine, ...], cautions: tuple[str, ...], lifter: str | None
) -> dict[str, object]:
    return {
        "method": method.name.value,
        "lifter": lifter,
        "lines": [
            {"when": line.when, "line": str(line.prescription), "why": list(line.why)}
            for line in lines
        ],
        "people": method.people,
        "equipment": method.equipment,
        "cautions": list(cautions),
    }
