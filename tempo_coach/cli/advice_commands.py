"""Commands that advise: whether a lifter is ready for more, and what next week could hold."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from pathlib import Path

import click

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Wishes
from tempo_coach.cli.log_reading import logs_argument, merge_logs, say_reading
from tempo_coach.cli.options import json_option, log_option, only_lifter_option
from tempo_coach.cli.planned_lifter import usable_plan
from tempo_coach.cli.rows import wrapped
from tempo_coach.cli.season_commands import measured_of, sets_of
from tempo_coach.cli.tables import print_json, print_table
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible
from tempo_coach.core.maxes import KnownMax, known_maxes
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.next_week import ProposedLine, next_week
from tempo_coach.core.plan import WEEKDAYS, Lifter, Plan
from tempo_coach.core.readiness import (
    Criterion,
    Readiness,
    fast_readiness,
    overload_readiness,
)
from tempo_coach.core.season import season_of
from tempo_coach.core.weeks import IsoWeek, week_of

_DAY = click.DateTime(["%Y-%m-%d"])
_STATES = {True: "met", False: "not met", None: "can't be told"}
_plan_argument = click.argument("path", metavar="PLAN", type=click.Path(path_type=Path))
_day_option = click.option("--on", "day", type=_DAY, help="As it stands on a day [else today].")


@click.command("ready")
@click.argument("exercise", metavar="EXERCISE")
@_plan_argument
@logs_argument
@only_lifter_option
@_day_option
@json_option
@log_option
def ready_command(
    exercise: str,
    path: Path,
    logs: tuple[Path, ...],
    lifter: str | None,
    day: datetime | None,
    as_json: bool,
    log_path: Path | None,
) -> None:
    """Say whether lifters are ready for overloaded and for fast lowering of an exercise.

    Each criterion stands with its evidence and with what is missing; all of them are the coach's
    to change, under [dosing] in the plan. Who can't lower slowly isn't ready to lower fast.

    \b
    tempo-coach ready "front squat" winter.toml
    tempo-coach ready "front squat" winter.toml logs/ --lifter "Mirela Oude" --json
    """
    today, plan, people = _asked(path, lifter, day)
    reading = merge_logs(logs, log_path)
    found = {one.name: _readiness(exercise, plan, one, reading, today) for one in people}
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


def _readiness(
    exercise: str, plan: Plan, person: Lifter, reading: MergedLogs, today: date
) -> tuple[Readiness, ...]:
    sets = sets_of(reading, person.name)
    maxes = _maxes(exercise, person, reading)
    measured = measured_of(reading, person.name)
    rules = plan.rules_of(person.name)
    return (
        overload_readiness(
            exercise,
            sets=sets,
            maxes=maxes,
            rules=rules,
            is_cleared=person.overload,
            today=today,
            measured=measured,
        ),
        fast_readiness(
            exercise, sets=sets, maxes=maxes, rules=rules, today=today, measured=measured
        ),
    )


def _maxes(exercise: str, person: Lifter, reading: MergedLogs) -> tuple[KnownMax, ...]:
    tested = reading.maxes.of(person.name, exercise)
    return known_maxes(tested, planned=person.maxes, exercise=exercise)


def _print_criterion(one: Criterion) -> None:
    click.echo(wrapped(f"{_STATES[one.is_met]}: {one.asked}", first="  ", indent="    "))
    missing = f"; missing: {one.missing}" if one.missing else ""
    click.echo(wrapped(f"{one.evidence}{missing}", first="    ", indent="    "))


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
@_day_option
@json_option
@log_option
def next_command(
    path: Path,
    logs: tuple[Path, ...],
    lifter: str | None,
    day: datetime | None,
    as_json: bool,
    log_path: Path | None,
) -> None:
    """Propose next week's lines from this week's work: which sets to add, keep and cut.

    Rests on what was done, the week's limit, the efforts and who is ready for what; where this
    week has no sets, on the last week that has. It is for the coach to take or to edit, and
    changes nothing.

    \b
    tempo-coach next winter.toml
    tempo-coach next winter.toml logs/ --lifter "Mirela Oude"
    """
    today, plan, people = _asked(path, lifter, day)
    reading = merge_logs(logs, log_path)
    allowances = bootstrap.program(Wishes(is_silent=True)).coach.settings.allowances
    data = []
    for person in people:
        sets = [one for one in sets_of(reading, person.name) if one.started_at.date() <= today]
        last, earlier = _last_week(sets)
        season = season_of(plan, person.name, sets=sets, today=today)
        ahead = season.row_of(IsoWeek.of(today + timedelta(weeks=1)))
        limit_s = None if ahead is None else ahead.lower_s.limit

        def may_overload(exercise: str, person: Lifter = person) -> bool:
            return _readiness(exercise, plan, person, reading, today)[0].is_ready

        lines = next_week(
            last,
            earlier=earlier,
            limit_s=limit_s,
            rules=plan.rules_of(person.name),
            may_overload=may_overload,
            allowances=allowances,
            measured=measured_of(reading, person.name),
        )
        data.append(_next_data(person.name, limit_s, lines))
        if not as_json:
            _print_next(person.name, limit_s, lines)
    if as_json:
        print_json({"lifters": data})
    else:
        say_reading(reading)


def _asked(
    path: Path, lifter: str | None, day: datetime | None
) -> tuple[date, Plan, tuple[Lifter, ...]]:
    """Return the day, the plan, and those of its lifters that are asked about."""
    today = bootstrap.clock().wall().date() if day is None else day.date()
    plan = usable_plan(path, today=today)
    return today, plan, plan.lifters if lifter is None else (plan.lifter(lifter),)


def _last_week(sets: Sequence[SetDone]) -> tuple[list[SetDone], list[SetDone]]:
    """Return the sets of the last week that has any, and those before it."""
    if not sets:
        return [], []
    week = week_of(sets[-1])
    return (
        [one for one in sets if week_of(one) == week],
        [one for one in sets if week_of(one) != week],
    )


def _print_next(lifter: str, limit_s: float | None, lines: Sequence[ProposedLine]) -> None:
    limit = "no limit known" if limit_s is None else f"limit {limit_s:.0f} s of lowering emphasis"
    if not lines:
        click.echo(f"{legible(lifter)}: no sets to go by, {limit}")
        return
    rows = [
        (
            WEEKDAYS[one.day.weekday()],
            one.step.value,
            "off" if one.line is None else str(one.line),
            one.reason,
            str(one.was),
        )
        for one in lines
    ]
    title = f"{legible(lifter)}: a proposal for next week, {limit}"
    print_table(("day", "", "line", "why", "was"), rows, left=5, title=title)
    click.echo()


def _next_data(
    lifter: str, limit_s: float | None, lines: Sequence[ProposedLine]
) -> dict[str, object]:
    return {
        "lifter": lifter,
        "limit_s": limit_s,
        "lines": [
            {
                "day": WEEKDAYS[one.day.weekday()],
                "step": one.step.value,
                "line": None if one.line is None else str(one.line),
                "was": str(one.was),
                "reason": one.reason,
            }
            for one in lines
        ],
    }
