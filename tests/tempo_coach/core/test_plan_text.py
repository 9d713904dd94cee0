from __future__ import annotations

from datetime import date, timedelta
from typing import Literal, get_args

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tempo_coach.core.legible import name_key
from tempo_coach.core.load import parse_load
from tempo_coach.core.movement_groups import TABLE
from tempo_coach.core.plan import (
    WEEKDAYS,
    Day,
    Lifter,
    Max,
    Plan,
    Work,
)
from tempo_coach.core.plan_season import CalendarSpan, DosingRules, SpanKind
from tempo_coach.core.plan_starter import starter
from tempo_coach.core.plan_text import plan_text
from tempo_coach.core.prescription import LONGEST_NAME, clean_name, parse_prescription
from tempo_coach.core.taper import TaperShape
from tempo_coach.core.timeline import Timeline
from tempo_coach.core.written_dates import EARLIEST_DAY, LATEST_DAY
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.plans import TODAY, plan_of, reading

_names = st.text(min_size=1, max_size=80).map(clean_name).filter(bool)
_groups = sorted(set(TABLE.values()))
_weights = st.builds(
    "{} {}".format, st.decimals("0.1", 50, places=1), st.sampled_from(("kg", "lb"))
).map(parse_load)


def _fits(line: str) -> bool:
    try:
        Timeline.of(parse_prescription(line))
    except OutOfRange:
        return False
    return True


_lines = st.none() | strategies.lines().filter(_fits).map(parse_prescription)
_works = st.builds(
    Work,
    line=_lines,
    note=st.text(max_size=30),
    from_week=st.dictionaries(st.integers(2, 5), _lines, max_size=2),
)
_maxes = st.builds(
    Max,
    exercise=_names,
    load=_weights,
    on=st.dates(EARLIEST_DAY, LATEST_DAY),
    lower_s=st.none() | st.floats(0, 60),
)


_rules = st.builds(
    DosingRules,
    base_s=st.none() | st.floats(1, 1000),
    growth_percent=st.floats(0, 100),
    taper=st.sampled_from(TaperShape),
    taper_days=st.integers(0, 42),
    group_base_s=st.dictionaries(st.sampled_from(_groups), st.floats(1, 1000), max_size=2),
    groups=st.dictionaries(
        _names.map(name_key).filter(lambda name: len(name) <= LONGEST_NAME),
        st.sampled_from((*_groups, "neck")),
        max_size=2,
    ),
)


@st.composite
def _calendars(draw: st.DrawFn, names: list[str]) -> tuple[CalendarSpan, ...]:
    """Return spans a week long, with a week between them."""
    first = draw(st.dates(date(2020, 1, 1), date(2030, 1, 1)))
    spans = []
    for number, kind in enumerate(draw(st.lists(st.sampled_from(get_args(SpanKind)), max_size=3))):
        begins = first + timedelta(weeks=2 * number)
        percent = st.none() | st.floats(0, 100) if kind == "in season" else st.none()
        spans.append(
            CalendarSpan(
                kind=kind,
                first=begins,
                last=draw(st.none() | st.just(begins + timedelta(days=6))),
                name=draw(st.none() | _names),
                lifters=draw(st.none() | st.just(tuple(names))),
                lowering_percent=draw(percent),
            )
        )
    return tuple(spans)


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    names = draw(st.lists(_names, min_size=1, max_size=3, unique_by=str.casefold))
    weekdays = draw(st.lists(st.sampled_from(WEEKDAYS), min_size=1, max_size=3, unique=True))
    unit: Literal["kg", "lb"] = draw(st.sampled_from(("kg", "lb")))
    return Plan(
        name=draw(_names),
        start=draw(st.dates(EARLIEST_DAY, LATEST_DAY)),
        weeks=draw(st.integers(5, 104)),
        unit=unit,
        step=draw(st.none() | st.just(parse_load(f"2.5 {unit}"))),
        calendar=draw(_calendars(names)),
        dosing=draw(_rules),
        lifters=tuple(
            Lifter(
                name=name,
                body_mass=draw(st.none() | _weights),
                base_s=draw(st.none() | st.floats(1, 1000)),
                maxes=tuple(draw(st.lists(_maxes, max_size=2))),
                overload=draw(st.none() | st.booleans()),
            )
            for name in names
        ),
        days=tuple(
            Day(
                day=weekday,
                lifters=draw(st.none() | st.just(tuple(names))),
                work=tuple(draw(st.lists(_works, min_size=1, max_size=3))),
            )
            for weekday in weekdays
        ),
    )


@given(plans())
@settings(max_examples=20)  # each is a whole plan
def test_a_plan_that_was_written_out_reads_as_itself(plan: Plan) -> None:
    text = plan_text(plan)
    read = reading(text)
    faults = [str(fault) for fault in read.faults if "has no max" not in str(fault)]
    assume(not any("two maxes" in fault or "two lifters" in fault for fault in faults))
    assert faults == []
    assert read.plan == plan


@given(st.dates(date(2000, 1, 1), date(2900, 1, 1)))
def test_the_plan_to_begin_from_has_no_faults_and_starts_next_monday(today: date) -> None:
    plan = plan_of(starter(today))
    assert plan.start.weekday() == 0
    assert timedelta(0) < plan.start - today <= timedelta(weeks=1)


def test_the_plan_to_begin_from_uses_every_key() -> None:
    text = starter(TODAY)
    keys = {
        key for model in (Plan, Lifter, Max, Day, Work, CalendarSpan) for key in model.model_fields
    }
    assert {key for key in keys if key not in text} == set()
