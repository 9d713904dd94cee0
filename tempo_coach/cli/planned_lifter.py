"""What a command takes of a lifter from a plan, or from its own words in place of one."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from tempo_coach import bootstrap
from tempo_coach.core.fact_values import HEAVIEST_KG
from tempo_coach.core.legible import legible
from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.core.plan import Lifter, Plan
from tempo_coach.errors import OutOfRange


def usable_plan(path: Path, *, today: date | None = None) -> Plan:
    """Read a plan as it holds on a day; None is today.

    Raises
    ------
    FileUnreadable
        It can't be read.
    PlanRefused
        It has faults that leave open what is meant.
    """
    file = bootstrap.plan_file(path)
    return file.read(today=today or bootstrap.clock().wall().date()).usable(file.name)


def person_of(plan: Plan, name: str | None) -> Lifter:
    """Return the plan's lifter of a name; without one, its only lifter.

    Raises
    ------
    click.UsageError
        There are several, and no name.
    OutOfRange
        There is none of the name.
    """
    if name is None and len(plan.lifters) == 1:
        return plan.lifters[0]
    if name is None:
        names = ", ".join(legible(one.name) for one in plan.lifters)
        raise click.UsageError(f"the plan has several lifters: {names}; give one by --lifter")
    return plan.lifter(name)


def max_load(text: str) -> Load:
    """Return a 1RM as the command line takes it."""
    try:
        load = parse_load(text)
    except OutOfRange as fault:
        raise click.BadParameter(str(fault)) from fault
    kg = None if load.unit is LoadUnit.PERCENT else load.kg()
    if kg is None or kg > HEAVIEST_KG:
        raise click.BadParameter(f"{load} is no max; in kg or lb, at most {HEAVIEST_KG} kg")
    return load
