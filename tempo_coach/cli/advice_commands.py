"""Commands that advise: whether a lifter is ready for more, and what next week could hold."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

import click

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Wishes
from tempo_coach.cli.log_reading import logs_argument, merge_logs, say_reading
from tempo_coach.cli.options import day_option, json_option, log_option, only_lifter_option
from tempo_coach.cli.planned_lifter import usable_plan
from tempo_coach.cli.season_commands import rows_of
from tempo_coach.cli.tables import print_json, print_table
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.criterion import Criterion
from tempo_coach.core.legible import legible, name_key, quoted
from tempo_coach.core.lifter_advice import LifterAdvice, Proposal, logged_advice
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.nearest import nearest_of
from tempo_coach.core.plan import Lifter, Plan
from tempo_coach.core.readiness import Readiness
from tempo_coach.errors import OutOfRange

_plan_argument = click.argument("path", metavar="PLAN", type=click.Path(path_type=Path))


@click.command("ready")
@click.argument("exercise", metavar="EXERCISE")
@_plan_argument
@logs_argument
@only_lifter_option
@day_option
@json_option
@log_option
def ready_command(
    exercise: str,
    path: Path,
    logs: tuple[Path, ...],
    lifter: str | None,
    day: date | None,
    as_json: bool,
    log_path: Path | None,
) -> None:
    """Say who is ready for overloaded or for fast lowering.

    Each criterion stands with its evidence and with what is missing; all of them are the coach's
    to change, under [dosing] in the plan. Who can't lower slowly isn't ready to lower fast. The
    exercise is one that was done or tested, or that the plan holds.

    \b
    tempo-coach ready "front squat" winter.toml
    tempo-coach ready "front squat" winter.toml logs/ --lifter "Mirela Oude"
    """
    today, plan, people = _asked(path, lifter, day)
    reading = merge_logs(logs, log_path)
    advice = [_advice(plan, one, reading, today) for one in people]
    _check_known(exercise, advice)
    found = {one.record.name: one.readiness(exercise) for one in advice}
    if as_json:
        print_json(
            {
                "exercise": exercise,
                "lifters": [
                    {"lifter": name, "ways": [_way_data(way) for way in ways]}
                    for name, ways in found.items()
                ],
            }
        )
        return
    for name, ways in found.items():
        for way in ways:
            click.echo(f"{legible(name)}, {way.way} of {legible(exercise)}: {way.verdict}")
            for one in way.criteria:
                _print_criterion(one)
            click.echo()
    say_reading(reading)


def _check_known(exercise: str, advice: Sequence[LifterAdvice]) -> None:
    """See whether plan or logs name an exercise for anybody, done or not.

    Raises
    ------
    OutOfRange
        They don't.
    """
    known = {name_key(name): name for one in advice for name in one.exercises()}
    if name_key(exercise) not in known:
        whose = f" for {legible(advice[0].record.name)}" if len(advice) == 1 else ""
        raise OutOfRange(
            f"neither plan nor logs name {quoted(exercise)}{whose}",
            hint=nearest_of(exercise, known.values()) if known else "no exercise is named yet",
        )


def _advice(plan: Plan, person: Lifter, reading: MergedLogs, today: date) -> LifterAdvice:
    rows = rows_of(reading, person.name)
    return logged_advice(plan, person.name, logs=reading, rows=rows, today=today)


def _print_criterion(one: Criterion) -> None:
    click.echo(wrapped(f"{one.state}: {one.asked}", first="  ", indent="    "))
    click.echo(wrapped(one.words, first="    ", indent="    "))


def _way_data(way: Readiness) -> dict[str, object]:
    return {
        "way": way.way,
        "verdict": way.verdict,
        "criteria": [
            {
                "asked": one.asked,
                "met": one.is_met,
                "evidence": one.evidence,
                "missing": one.missing,
            }
            for one in way.criteria
        ],
    }


@click.command("next")
@_plan_argument
@logs_argument
@only_lifter_option
@day_option
@json_option
@log_option
def next_command(
    path: Path,
    logs: tuple[Path, ...],
    lifter: str | None,
    day: date | None,
    as_json: bool,
    log_path: Path | None,
) -> None:
    """Propose next week's lines from this week's work.

    Says which sets to add, keep and cut. Rests on what was done, the week's limit, the efforts and
    who is ready for what; where this week has no sets, on the last week that has. It is for the
    coach to take or to edit, and changes nothing.

    \b
    tempo-coach next winter.toml
    tempo-coach next winter.toml logs/ --lifter "Mirela Oude"
    """
    today, plan, people = _asked(path, lifter, day)
    reading = merge_logs(logs, log_path)
    allowances = bootstrap.program(Wishes(is_silent=True)).coach.settings.allowances
    data = []
    for person in people:
        proposal = _advice(plan, person, reading, today).proposal(allowances)
        data.append(_next_data(person.name, proposal))
        if not as_json:
            _print_next(person.name, proposal)
    if as_json:
        print_json({"lifters": data})
    else:
        say_reading(reading)


def _asked(
    path: Path, lifter: str | None, day: date | None
) -> tuple[date, Plan, tuple[Lifter, ...]]:
    """Return the day, the plan, and those of its lifters that are asked about."""
    today = day or bootstrap.clock().wall().date()
    plan = usable_plan(path, today=today)
    return today, plan, plan.lifters if lifter is None else (plan.lifter(lifter),)


def _print_next(lifter: str, proposal: Proposal) -> None:
    if not proposal.lines:
        click.echo(f"{legible(lifter)}: no sets to go by, {proposal.limit_words}")
        return
    rows = [
        (one.weekday, one.step.value, one.words, one.reason, str(one.was)) for one in proposal.lines
    ]
    title = (
        f"{legible(lifter)}: a proposal for next week, from the work of {proposal.follows}; "
        f"{proposal.limit_words}"
    )
    print_table(("day", "", "line", "why", "was"), rows, left=5, title=title)
    if proposal.caution:
        click.echo(wrapped(proposal.caution))
    click.echo()


def _next_data(lifter: str, proposal: Proposal) -> dict[str, object]:
    return {
        "lifter": lifter,
        "follows": None if proposal.follows is None else str(proposal.follows),
        "caution": proposal.caution or None,
        "limits": [
            {"amount": limit.amount, "unit": limit.unit, "group": limit.group}
            for limit in proposal.limits
        ],
        "lines": [
            {
                "day": one.weekday,
                "step": one.step.value,
                "line": None if one.line is None else str(one.line),
                "was": str(one.was),
                "reason": one.reason,
            }
            for one in proposal.lines
        ],
    }
