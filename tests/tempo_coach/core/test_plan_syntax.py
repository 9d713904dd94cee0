from __future__ import annotations

import tomllib

import pytest

from tempo_coach.core.plan_syntax import syntax_fault


def said(text: str) -> str:
    with pytest.raises(tomllib.TOMLDecodeError) as caught:
        tomllib.loads(text)
    return str(syntax_fault(str(caught.value), text))


@pytest.mark.parametrize(
    "text",
    [
        "first = 2026-11-31",
        "first = 2026-11-31\r\nlast = 2026-12-31\r\n",
        "first = 2026-11-31 # the last of November",
        "days = [2026-11-30, 2026-11-31]",
        'calendar = [{kind = "meet", first = 2026-11-31}]',
        'calendar = [{kind = "meet", last=2026-11-31, first = 2026-11-30}]',
        "first = 2026-11-31 10:00:00",
    ],
)
def test_a_day_that_is_in_no_calendar_is_named_wherever_it_stands(text: str) -> None:
    assert said(text) == "line 1: there is no 2026-11-31; that month ends on 2026-11-30"


@pytest.mark.parametrize("value", ["240s", "2,5", "68 kg", "3:00", "012", "+5kg", ".5", "25:00:00"])
def test_what_begins_as_a_number_and_is_none_is_named(value: str) -> None:
    assert said(f"a = 1\nb = {value} # why") == (
        f"line 2: '{value}' is no number and no date; a number is written as 240 or 2.5, "
        "a date as 2026-11-30, a text between straight quotes"
    )


@pytest.mark.parametrize(
    "text",
    [
        'note = "until 2026-11-31',
        "note = '2026-11-31' 2026",
        "first = 2026-11-30 last = 2026-12-31",
        "# 2026-11-31\nnote = x",
    ],
)
def test_a_date_beside_the_fault_is_not_blamed(text: str) -> None:
    assert "a line reads key = value" in said(text)
    assert "there is no" not in said(text)


@pytest.mark.parametrize(
    "text",
    [
        "[dosing]\nbase_s = 3\n[dosing] # more\nlast_days = 3",
        "a = 1\n[dosing]\n[dosing]",
        "calendar = []\n\n[[calendar]]",
    ],
)
def test_a_table_that_is_there_already_is_named(text: str) -> None:
    assert said(text).startswith("line 3: '[")
    assert "is there already; put its keys beneath the first; tables of which there" in said(text)


def test_a_key_of_several_words_needs_quotes() -> None:
    assert said('groups.heel drop = "calves"').endswith(
        'a key of several words stands between quotes, as groups."heel drop" does'
    )
