from __future__ import annotations

import json
import tomllib
from datetime import date
from typing import Any

import jsonschema
import pytest
from pydantic import ValidationError

from tempo_coach.core.plan import Plan, plan_schema
from tempo_coach.core.weeks import IsoWeek
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core.plans import TEXT, plan_of

SCHEMA = jsonschema.Draft202012Validator(plan_schema())


def as_json(text: str) -> Any:
    """Return TOML as JSON, with dates as texts."""
    return json.loads(json.dumps(tomllib.loads(text), default=str))


@pytest.mark.parametrize(
    ("start", "week", "monday"),
    [
        # ISO 8601: 2026 has a week 53, and 2027-01-03 is its Sunday.
        (date(2026, 12, 31), IsoWeek(2026, 53), date(2026, 12, 28)),
        (date(2027, 1, 3), IsoWeek(2026, 53), date(2026, 12, 28)),
        # ISO 8601: 2008-12-29 is Monday of 2009-W01.
        (date(2008, 12, 29), IsoWeek(2009, 1), date(2008, 12, 29)),
    ],
)
def test_week_1_is_the_iso_week_that_holds_the_start(
    start: date, week: IsoWeek, monday: date
) -> None:
    plan = plan_of(TEXT.replace("2026-11-30", start.isoformat(), 1))
    assert plan.iso_week(1) == week
    assert plan.iso_week(1).monday() == monday
    assert plan.week_on(start) == 1


def test_a_date_is_in_a_week_of_the_plan_or_in_none() -> None:
    plan = plan_of()
    dates = ("2026-11-29", "2026-11-30", "2026-12-06", "2026-12-07", "2027-01-10", "2027-01-11")
    weeks = [plan.week_on(date.fromisoformat(one)) for one in dates]
    assert weeks == [None, 1, 1, 2, 6, None]


def test_a_line_holds_until_another_takes_its_place() -> None:
    work = plan_of().days[0].work[0]
    lines = [str(work.in_week(week)).split(" @")[0] for week in range(1, 7)]
    assert lines == ["front squat 4x5"] * 2 + ["front squat 4x4"] * 2 + ["None"] * 2


def test_loads_are_rounded_to_what_most_racks_allow() -> None:
    pounds = TEXT.replace("weeks = 6", 'weeks = 6\nunit = "lb"')
    assert str(plan_of(pounds).loads_by) == "5 lb"
    assert str(plan_of(TEXT.replace("weeks = 6", 'weeks = 6\nstep = "1 kg"')).loads_by) == "1 kg"


def test_a_lifter_is_found_under_any_spelling_and_a_stranger_refused() -> None:
    plan = plan_of()
    assert plan.lifter("MIRELA OUDE") is plan.lifters[0]
    with pytest.raises(OutOfRange, match="no lifter 'Mirela'; the nearest is 'Mirela Oude'"):
        plan.lifter("Mirela")


def test_a_plan_can_not_be_changed() -> None:
    with pytest.raises(ValidationError, match="frozen"):
        plan_of().weeks = 3  # type: ignore[misc] # refused at run time too


def test_the_json_schema_takes_a_plan() -> None:
    SCHEMA.check_schema(SCHEMA.schema)
    SCHEMA.validate(as_json(TEXT))


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("weeks = 6", "weeks = 0"),
        ("weeks = 6", 'weeks = "6"'),
        ("weeks = 6", "weeks = 6\nplanet = 3"),
        ('"Monday"', '"monday"'),
        ("lower_s = 2", "lower_s = 61"),
        ("exercise", "exercises"),
        ('name = "Jonne Tarval"', ""),
    ],
)
def test_the_json_schema_refuses_what_the_program_refuses(before: str, after: str) -> None:
    text = TEXT.replace(before, after, 1)
    assert not SCHEMA.is_valid(as_json(text))
    with pytest.raises(ValidationError):
        Plan.model_validate(tomllib.loads(text))
