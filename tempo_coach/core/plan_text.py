"""A plan written out as TOML."""

from __future__ import annotations

import json
from collections.abc import Iterator

from tempo_coach.core.plan import Day, Lifter, Plan, Work
from tempo_coach.core.plan_season import CalendarSpan, DosingRules
from tempo_coach.core.plan_values import OFF
from tempo_coach.core.prescription import Prescription


def plan_text(plan: Plan) -> str:
    """Return the text of a plan; reading it gives the same plan."""
    return "\n".join(_lines(plan)) + "\n"


def toml_text(text: str) -> str:
    """Return a text between quotes, as TOML reads it."""
    # JSON's escapes are TOML's too, but JSON leaves DEL bare.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _lines(plan: Plan) -> Iterator[str]:
    yield f"name = {toml_text(plan.name)}"
    yield f"start = {plan.start.isoformat()}"
    yield f"weeks = {plan.weeks}"
    yield f"unit = {toml_text(plan.unit)}"
    if plan.step is not None:
        yield f"step = {toml_text(str(plan.step))}"
    yield from _dosing(plan.dosing)
    for span in plan.calendar:
        yield from _span(span)
    for lifter in plan.lifters:
        yield from _lifter(lifter)
    for day in plan.days:
        yield from _day(day)


def _lifter(lifter: Lifter) -> Iterator[str]:
    yield ""
    yield "[[lifters]]"
    yield f"name = {toml_text(lifter.name)}"
    if lifter.body_mass is not None:
        yield f"body_mass = {toml_text(str(lifter.body_mass))}"
    if lifter.overload is not None:
        yield f"overload = {str(lifter.overload).lower()}"
    for key in ("base_s", "base_kg_s"):
        if (base := getattr(lifter, key)) is not None:
            yield f"{key} = {base!r}"
    for one in lifter.maxes:
        yield "[[lifters.maxes]]"
        yield f"exercise = {toml_text(one.exercise)}"
        yield f"load = {toml_text(str(one.load))}"
        yield f"on = {one.on.isoformat()}"
        if one.lower_s is not None:
            yield f"lower_s = {one.lower_s!r}"


def _dosing(rules: DosingRules) -> Iterator[str]:
    changed = rules.model_dump(exclude_defaults=True)
    if changed:
        yield ""
        yield "[dosing]"
    for key, value in changed.items():
        if isinstance(value, dict):
            for name, one in value.items():
                yield f"{key}.{toml_text(name)} = {_value(one)}"
        else:
            yield f"{key} = {_value(value)}"


def _value(value: str | float) -> str:
    return toml_text(value) if isinstance(value, str) else repr(value)


def _span(span: CalendarSpan) -> Iterator[str]:
    yield ""
    yield "[[calendar]]"
    yield f"kind = {toml_text(span.kind)}"
    yield f"first = {span.first.isoformat()}"
    if span.last is not None:
        yield f"last = {span.last.isoformat()}"
    if span.name is not None:
        yield f"name = {toml_text(span.name)}"
    if span.lifters is not None:
        yield f"lifters = [{', '.join(map(toml_text, span.lifters))}]"
    if span.lowering_percent is not None:
        yield f"lowering_percent = {span.lowering_percent!r}"


def _day(day: Day) -> Iterator[str]:
    yield ""
    yield "[[days]]"
    yield f"day = {toml_text(day.day)}"
    if day.lifters is not None:
        yield f"lifters = [{', '.join(map(toml_text, day.lifters))}]"
    for work in day.work:
        yield from _work(work)


def _work(work: Work) -> Iterator[str]:
    yield "[[days.work]]"
    yield f"line = {_line(work.line)}"
    if work.note:
        yield f"note = {toml_text(work.note)}"
    for week, line in sorted(work.from_week.items()):
        yield f"from_week.{week} = {_line(line)}"


def _line(line: Prescription | None) -> str:
    return toml_text(OFF if line is None else str(line))
