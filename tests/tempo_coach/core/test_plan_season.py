from __future__ import annotations

from datetime import date

import pytest
import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_season import CalendarSpan, DosingRules
from tests.tempo_coach.core.harmless import is_harmless
from tests.tempo_coach.core.plans import HEAD, LIFTERS, TEXT, plan_of, reading

DOSING = """
[dosing]
base_s = 240
growth_percent = 5
taper = "linear"
group_base_s."knee flexors" = 60
groups."heel drop" = "calves"
"""
CALENDAR = """
[[calendar]]
kind = "in season"
first = 2027-01-11
last = 2027-02-14
name = "League"
lowering_percent = 20
[[calendar]]
kind = "meet"
first = 2027-02-06
name = "Cup"
[[calendar]]
kind = "illness"
first = 2027-01-18
last = 2027-01-20
lifters = ["mirela oude"]
"""


def with_year(calendar: str = CALENDAR, dosing: str = DOSING) -> str:
    # Tables of one bracket would else take in the keys behind them.
    return TEXT + dosing + calendar


def said(text: str) -> list[str]:
    return [str(fault) for fault in reading(text).faults]


def test_a_plan_has_a_calendar_and_rules() -> None:
    plan = plan_of(with_year())

    assert [(span.kind, span.name) for span in plan.calendar] == [
        ("in season", "League"),
        ("meet", "Cup"),
        ("illness", None),
    ]
    assert (plan.dosing.base_s, plan.dosing.taper) == (240, "linear")
    assert plan.dosing.group_base_s == {"knee flexors": 60}


def test_without_a_word_on_them_the_rules_are_as_by_default() -> None:
    assert plan_of().dosing.growth_percent == 10
    assert plan_of().calendar == ()


def test_a_lifter_s_own_base_takes_the_place_of_the_team_s() -> None:
    text = with_year().replace('body_mass = "68 kg"', 'body_mass = "68 kg"\nbase_s = 120')
    plan = plan_of(text)

    assert plan.rules_of("mirela oude").base_s == 120
    assert plan.rules_of("Jonne Tarval").base_s == 240


def test_a_span_of_one_lifter_is_nobody_else_s() -> None:
    plan: Plan = plan_of(with_year())
    ill = date(2027, 1, 19)

    assert plan.calendar_of("Mirela Oude").day(ill).words == "illness"
    assert plan.calendar_of("Jonne Tarval").day(ill).words == "League"


@pytest.mark.parametrize(
    ("before", "after", "fault"),
    [
        (
            '"in season"',
            '"inseason"',
            "kind = \"inseason\" is not possible; the nearest is 'in season'",
        ),
        ('"in season"', '"away"', 'kind = "away" is not possible; known are off season, in season'),
        ('"in season"', '["in season"]', "kind = […] is not possible; off season, in season, meet"),
        ('kind = "in season"\n', "", "kind is missing; off season, in season, meet"),
        ("first = 2027-01-11\n", "", "first is missing; a date without quotes"),
        ("first = 2027-01-11", 'first = "soon"', 'first = "soon" is not possible; a date without'),
        (
            "last = 2027-02-14",
            "last = 2027-01-10",
            "the span ends on 2027-01-10, before it begins; on 2027-01-11 or later",
        ),
        ("first = 2027-01-11", "first = 2027-13-01", "there is no 2027-13-01; months are 01 to 12"),
        ("last = 2027-02-14", "last = 2027-02-30", "there is no 2027-02-30; that month ends on"),
        ("last = 2027-02-14", 'last = "2027-02-30"', "last: there is no 2027-02-30; that month"),
        ("last = 2027-02-14", "last = 3000-01-01", "last = 3000-01-01 is not possible; a date"),
        (
            "percent = 20",
            "percent = 120",
            "lowering_percent = 120 is not possible; a number from 0 to 100",
        ),
        (
            "first = 2027-02-06\n",
            "first = 2027-02-06\nlowering_percent = 5\n",
            "lowering_percent goes with in season, not with 'meet'; leave it out",
        ),
        ('"mirela oude"', '"Mirla Oude"', "'Mirla Oude' is no lifter of this plan; the nearest"),
        (
            'lifters = ["mirela',
            'lifter = ["mirela',
            "'lifter' is no key of [[calendar]]; the nearest is 'lifters'",
        ),
        ("growth_percent = 5", "growth = 5", "'growth' is no key of [dosing]; the nearest is"),
        (
            "growth_percent = 5",
            "growth_percent = 101",
            "growth_percent = 101 is not possible; a number from 0 to 100, such as",
        ),
        ("base_s = 240", "base_s = 0", "base_s = 0 is not possible; seconds above 0"),
        ("base_s = 240", "base_s = 1e6", "base_s = 1000000.0 is not possible; seconds above 0 and"),
        (
            "base_s = 240",
            "taper_tau_days = 0",
            "taper_tau_days = 0 is not possible; a number above 0 and at most 42, such as",
        ),
        ("base_s = 240", "taper_dys = 7", "'taper_dys' is no key of [dosing]; the nearest is"),
        (
            "base_s = 240",
            "weeks = 6",
            "'weeks' is no key of [dosing]; the nearest is 'ready_weeks'; it is one of the top of",
        ),
        ('"League"', '" "', "the name of the span is empty; give at least one letter"),
        (
            '"knee flexors"',
            '"knee flexers"',
            "no exercise is of the movement group 'knee flexers'; the nearest is 'knee flexors'; "
            "groups makes one of an exercise",
        ),
        (
            '"knee flexors" = 60',
            '"knee flexors" = 60\ngroup_base_s."Knee Flexors" = 70',
            "group_base_s has 'Knee Flexors' twice; keep the one that counts",
        ),
        ('"heel drop"', '""', "the name of the exercise is empty; give at least one letter"),
        ('"calves"', '""', "the name of the movement group is empty; give at least one letter"),
        ('"calves"', f'"{"c" * 81}"', "the name of the movement group has 81 characters; at most"),
        ("base_s = 240", "base_s = nan", "base_s = nan is not possible; seconds above 0"),
        ('"linear"', '"liner"', "taper = \"liner\" is not possible; the nearest is 'linear'"),
        (
            '"linear"',
            '"fast"',
            'taper = "fast" is not possible; known are step, linear, exponential',
        ),
        (
            'taper = "linear"',
            'taper = "linear"\ntaper_cut_percent = 60',
            "line 35: a linear taper can't leave out 60%; 0 to 50%",
        ),
        ('"knee flexors" = 60', '"knee flexors" = -1', 'group_base_s."knee flexors" = -1 is not'),
        (
            '"heel drop" = "calves"',
            '"heel drop" = 3',
            'groups."heel drop" = 3 is not possible; a text',
        ),
        ("[dosing]", "[[dosing]]", "the rules stand beneath [dosing], in one bracket"),
    ],
)
def test_what_can_t_be_in_a_year_is_named_with_what_can(
    before: str, after: str, fault: str
) -> None:
    text = with_year()
    assert before in text

    faults = said(text.replace(before, after, 1))

    assert any(fault in one for one in faults), faults
    assert all("line " in one for one in faults)


@pytest.mark.parametrize(
    ("first", "last", "lifters", "overlaps"),
    [
        ("2027-02-14", "2027-02-20", "", True),
        ("2027-01-01", "2027-03-01", "", True),
        ("2027-02-15", "2027-02-20", "", False),
        ("2027-01-20", "2027-01-22", '\nlifters = ["Mirela Oude"]', True),
        ("2027-01-20", "2027-01-22", '\nlifters = ["Jonne Tarval"]', False),
        ("2027-01-21", "2027-01-22", '\nlifters = ["Mirela Oude"]', False),
    ],
)
def test_a_day_has_one_span_of_the_team_and_one_of_the_lifter(
    first: str, last: str, lifters: str, overlaps: bool
) -> None:
    more = f'[[calendar]]\nkind = "holiday"\nfirst = {first}\nlast = {last}{lifters}\n'

    faults = said(with_year(CALENDAR + more))

    assert any("the span overlaps the one of 2027-" in one for one in faults) is overlaps


def test_a_meet_may_lie_in_the_season_but_not_on_another_meet() -> None:
    more = '[[calendar]]\nkind = "meet"\nfirst = 2027-02-06\n'

    assert said(with_year()) == []
    assert len(said(with_year(CALENDAR + more))) == 1


def test_a_year_stands_in_a_plan_without_days_too() -> None:
    assert said(HEAD + LIFTERS + CALENDAR) == [
        "line 1: [[days]] is missing; begin it with [[days]]"
    ]


_values = (
    st.integers(-1, 200)
    | st.floats()
    | st.booleans()
    | st.dates()
    | st.text(max_size=90)
    | st.sampled_from(("in season", "meet", "linear", "step", "Mirela Oude", "2027-02-30"))
)
_any_value = _values | st.lists(_values, max_size=2)


@given(st.sampled_from(list(DosingRules.model_fields)), _any_value)
def test_any_value_of_a_rule_is_taken_or_refused_on_its_line(key: str, value: object) -> None:
    read = reading(f"{TEXT}[dosing]\n{tomlkit.dumps({key: value})}")

    assert (read.plan is None) is bool(read.faults)
    assert all(str(fault).startswith("line 31: ") for fault in read.faults)
    assert all(is_harmless(str(fault)) for fault in read.faults)


@given(st.sampled_from(list(CalendarSpan.model_fields)), _any_value)
def test_any_value_of_a_span_is_taken_or_refused_in_its_table(key: str, value: object) -> None:
    span = {"kind": "in season", "first": date(2027, 1, 11), key: value}
    read = reading(f"{TEXT}[[calendar]]\n{tomlkit.dumps(span)}")

    assert (read.plan is None) is bool(read.faults)
    assert all(31 <= (fault.line or 0) <= 33 for fault in read.faults)
    assert all(is_harmless(str(fault)) for fault in read.faults)
