from __future__ import annotations

from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.max_entry import load_of_test, moment_of_test
from tempo_coach.errors import OutOfRange

NOW = datetime.fromisoformat("2026-11-20T23:30:00-05:00")


def test_a_load_in_pounds_has_its_kilograms() -> None:
    # International yard and pound agreement, 1959: 1 lb = 0.45359237 kg.
    load, kg = load_of_test(" 200 lb")
    assert (str(load), kg) == ("200 lb", 90.718474)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("72%", "is a share of a max"),
        ("bw", "leaves the body out"),
        ("bw+20 kg", "leaves the body out"),
        ("600.5 kg", "at most 600 kg"),
        ("2000 lb", "at most 600 kg"),
        ("0 kg", "not possible"),
        ("heavy", "is no load"),
    ],
)
def test_a_load_whose_kilograms_are_not_known_or_too_many_is_refused(text: str, said: str) -> None:
    with pytest.raises(OutOfRange, match=said):
        load_of_test(text)


@given(st.dates(date(1970, 1, 1), date(2026, 11, 20)))
def test_a_test_is_on_the_day_that_is_given_by_the_lifter_s_clock(day: date) -> None:
    moment = moment_of_test(day, now=NOW)
    assert (moment.date(), moment.utcoffset()) == (day, NOW.utcoffset())
    assert moment <= NOW


def test_without_a_day_it_is_now() -> None:
    assert moment_of_test(None, now=NOW) == NOW


@pytest.mark.parametrize("day", [date(2026, 11, 21), date(1969, 12, 31), date.min, date.max])
def test_a_day_to_come_or_long_ago_is_refused(day: date) -> None:
    with pytest.raises(OutOfRange, match="from 1970-01-01 to today, 2026-11-20"):
        moment_of_test(day, now=NOW)
