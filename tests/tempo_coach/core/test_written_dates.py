from __future__ import annotations

from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.written_dates import is_like_day, parse_day, parse_moment
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.harmless import is_harmless


@given(st.dates())
def test_every_day_is_read_as_the_standard_writes_it(day: date) -> None:
    # ISO 8601, as the standard library writes it.
    assert parse_day(day.isoformat()) == day
    assert is_like_day(day.isoformat())


@given(st.datetimes())
def test_every_minute_is_read_as_the_standard_writes_it(moment: datetime) -> None:
    minute = moment.replace(second=0, microsecond=0)
    assert parse_moment(minute.isoformat(timespec="minutes")) == minute
    assert parse_moment(minute.isoformat(" ", timespec="minutes")) == minute


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2026-11-31", "there is no 2026-11-31; that month ends on 2026-11-30"),
        ("2027-02-29", "there is no 2027-02-29; that month ends on 2027-02-28"),
        ("2028-02-30", "there is no 2028-02-30; that month ends on 2028-02-29"),
        ("2026-11-00", "there is no 2026-11-00; that month begins on 2026-11-01"),
        ("2026-13-12", "there is no 2026-13-12; months are 01 to 12, as in 2026-12-13"),
        ("2026-31-02", "there is no 2026-31-02; months are 01 to 12, as in 2026-11-30"),
        ("2026-00-10", "there is no 2026-00-10; months are 01 to 12, as in 2026-11-30"),
        ("0000-01-01", "there is no 0000-01-01; years are 0001 to 9999"),
        ("2026-1-5", "'2026-1-5' is not how a date is written; write 2026-01-05"),
        ("2026/01/05", "'2026/01/05' is not how a date is written; write 2026-01-05"),
        ("2026–01–05", "'2026–01–05' is not how a date is written; write 2026-01-05"),
        ("2026-11-30 18:04", "'2026-11-30 18:04' is no date alone; write 2026-11-30"),
        ("2026-11-300", "'2026-11-300' is no date; a date is written year-month-day, such as"),
        ("30.11.2026", "'30.11.2026' is no date; a date is written year-month-day, such as"),
        ("tomorrow", "'tomorrow' is no date; a date is written year-month-day, such as"),
        ("", "'' is no date; a date is written year-month-day, such as 2026-11-30"),
        ("２０２６-11-30", "'２０２６-11-30' is no date; a date is written year-month-day"),
    ],
)
def test_what_is_no_day_is_refused_with_the_nearest_that_is(text: str, said: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        parse_day(text)
    assert str(caught.value).startswith(said)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2026-11-31T18:04", "there is no 2026-11-31; that month ends on 2026-11-30"),
        ("2026-11-30T24:00", "there is no 24:00; a day has 00:00 to 23:59"),
        ("2026-11-30 18:60", "there is no 18:60; a day has 00:00 to 23:59"),
        ("2026-11-30", "'2026-11-30' is no date with a time; such are written 2026-11-30T18:04"),
        ("2026-11-30T6 pm", "'2026-11-30T6 pm' is no date with a time; such are written"),
    ],
)
def test_what_is_no_moment_is_refused_with_what_is(text: str, said: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        parse_moment(text)
    assert str(caught.value).startswith(said)


@given(strategies.any_text | st.from_regex(r"\d{1,5}[-./]\d{1,3}[-./]\d{1,5}"))
def test_any_text_is_a_day_or_refused_in_harmless_words(text: str) -> None:
    said = ""
    try:
        read = parse_day(text).isoformat()
    except OutOfRange as fault:
        read, said = text, str(fault)
    assert read == text
    assert is_harmless(said)
