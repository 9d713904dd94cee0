from __future__ import annotations

from datetime import UTC, date, datetime

import icalendar

from tempo_coach.core.plan_season import CalendarSpan
from tempo_coach.core.season_calendar import SeasonCalendar
from tempo_coach.core.season_dates import season_dates
from tempo_coach.core.taper import Taper


def test_control_characters_of_a_name_are_spelt_out() -> None:
    cup = CalendarSpan(kind="meet", first=date(2027, 3, 27), name="Cup\x00\x1b[31m")
    calendar = SeasonCalendar((cup,), (), Taper())

    written = season_dates(calendar, name="Win\x07ter", made_at=datetime(2026, 11, 25, tzinfo=UTC))

    # RFC 5545, 3.1: no control character but the tab stands in a text.
    assert all(byte >= 0x20 for line in written.split(b"\r\n") for byte in line)
    read = icalendar.Calendar.from_ical(written)
    assert read["x-wr-calname"] == r"Win\x07ter"
    assert [str(event["summary"]) for event in read.walk("VEVENT")] == [
        r"Cup\x00\x1b[31m",
        r"last lowering emphasis before Cup\x00\x1b[31m",
    ]
