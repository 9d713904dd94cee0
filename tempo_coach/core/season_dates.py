"""A lifter's season as a calendar of RFC 5545 (iCalendar)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from hashlib import sha256

from icalendar import Calendar, Event

from tempo_coach.core.legible import legible
from tempo_coach.core.season_calendar import SeasonCalendar


def season_dates(calendar: SeasonCalendar, *, name: str, made_at: datetime) -> bytes:
    """Return the spans of the year, and the last days of lowering emphasis before each meet.

    Parameters
    ----------
    calendar
        The lifter's.
    name
        What the calendar is called, such as the plan and the lifter.
    made_at
        When it is made; tells calendar programs which of two is newer.
    """
    made = Calendar()
    made.add("prodid", "-//tempo-coach//season//EN")
    made.add("version", "2.0")
    made.add("x-wr-calname", legible(name))
    like: Counter[str] = Counter()
    for summary, first, last in _entries(calendar):
        like[summary] += 1
        event = Event()
        # RFC 5545, 3.1: a text holds no control characters.
        event.add("summary", legible(summary))
        event.add("dtstart", first)
        # RFC 5545, 3.6.1: the end of whole days is the day after the last.
        event.add("dtend", last + timedelta(days=1))
        event.add("dtstamp", made_at.astimezone(UTC))
        event.add("transp", "TRANSPARENT")
        # Without the date, so that a program that has the calendar moves what has moved.
        key = f"{name}\n{summary}\n{like[summary]}".encode()
        event.add("uid", f"{sha256(key).hexdigest()[:32]}@tempo-coach")
        made.add_component(event)
    written: bytes = made.to_ical()
    return written


def _entries(calendar: SeasonCalendar) -> Iterator[tuple[str, date, date]]:
    """Yield what stands in the calendar: its words, its first day and its last."""
    spans = sorted((*calendar.team, *calendar.own), key=lambda span: span.first)
    for span in spans:
        yield span.name or span.kind, span.first, span.until
    for meet in calendar.meets():
        last = meet.first - timedelta(days=max(calendar.taper.last_days, 1))
        if calendar.day(last).share:
            yield f"last lowering emphasis before {meet.name or 'the meet'}", last, last
