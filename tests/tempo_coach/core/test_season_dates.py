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


def uids(*meets: CalendarSpan) -> list[str]:
    calendar = SeasonCalendar(meets, (), Taper())
    written = season_dates(calendar, name="Winter", made_at=datetime(2026, 11, 25, tzinfo=UTC))
    return [str(event["uid"]) for event in icalendar.Calendar.from_ical(written).walk("VEVENT")]


def test_a_meet_that_has_moved_is_the_same_event_on_another_day() -> None:
    # RFC 5545, 3.8.4.7: the UID is what tells a calendar program that it has the event already.
    cup = CalendarSpan(kind="meet", first=date(2027, 3, 27), name="Cup")
    later = CalendarSpan(kind="meet", first=date(2027, 4, 3), name="Cup")

    assert uids(cup) == uids(later)


def test_events_of_one_name_are_events_of_their_own() -> None:
    meets = [CalendarSpan(kind="meet", first=date(2027, 3, day)) for day in (6, 6, 27)]

    found = uids(*meets)

    assert len(set(found)) == len(found) == 6
