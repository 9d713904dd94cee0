"""A plan read from its text, or everything that is wrong in it."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from pydantic import ValidationError

from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_checks import disagreements, missing_maxes
from tempo_coach.core.plan_faults import Finding, PlanFault, findings
from tempo_coach.core.plan_places import Path, key_lines, line_of
from tempo_coach.core.plan_syntax import syntax_fault
from tempo_coach.errors import PlanRefused


@dataclass(frozen=True, slots=True)
class PlanReading:
    """A plan and its faults, in the order of the text."""

    plan: Plan | None
    """None where a fault leaves open what is meant; a missing max does not."""
    faults: tuple[PlanFault, ...]
    lines: Mapping[Path, int] = field(default_factory=dict)
    """Of the text, from 1, by the path of what begins on it."""

    def usable(self, source: str) -> Plan:
        """Return the plan.

        Parameters
        ----------
        source
            What the plan is called in a refusal, such as its path.

        Raises
        ------
        PlanRefused
            There is none.
        """
        if self.plan is not None:
            return self.plan
        if len(self.faults) == 1:
            raise PlanRefused(f"the plan {source}, {self.faults[0]}", faults=(str(self.faults[0]),))
        raise PlanRefused(
            f"the plan {source} has {len(self.faults)} faults, the first in {self.faults[0]}",
            faults=tuple(map(str, self.faults)),
            hint=f"'tempo-coach plan check {source}' lists them",
        )


def read_plan(text: str, *, today: date) -> PlanReading:
    """Read a plan as TOML.

    Parameters
    ----------
    text
        The whole file.
    today
        For the nearest good value of a missing start.
    """
    try:
        data = tomllib.loads(text)
        lines = key_lines(text)
    except ValueError as fault:  # also what Python says of a number of thousands of digits
        return PlanReading(None, (syntax_fault(str(fault), text),))
    except RecursionError:
        hint = "a plan has three levels: lifters and their maxes, days and their work"
        return PlanReading(None, (PlanFault(None, "it is nested too deeply", hint),))
    plan, found = _validated(data, today)
    found += disagreements(data)
    if found:
        plan = None
    found += missing_maxes(data)
    return PlanReading(plan, faults_at(found, lines), lines)


def _validated(data: dict[str, Any], today: date) -> tuple[Plan | None, list[Finding]]:
    try:
        return Plan.model_validate(data), []
    except ValidationError as fault:
        return None, list(findings(fault, today=today))


def faults_at(found: Iterable[Finding], lines: Mapping[Path, int]) -> tuple[PlanFault, ...]:
    """Return findings with their lines, in the order of the text."""
    placed = (PlanFault(line_of(one.path, lines), one.message, one.hint) for one in found)
    return tuple(sorted(placed, key=lambda fault: fault.line or 0))
