from __future__ import annotations

from datetime import date, timedelta

import pytest

from tempo_coach.core.plan_season import CalendarSpan, SpanKind
from tempo_coach.core.season_calendar import SeasonCalendar
from tempo_coach.core.taper import Taper
from tempo_coach.core.weeks import IsoWeek

MEET = date(2027, 3, 27)


def span(kind: SpanKind, first: date, last: date | None = None, **more: object) -> CalendarSpan:
    return CalendarSpan.model_validate({"kind": kind, "first": first, "last": last, **more})


TEAM = (
    span("in season", date(2027, 1, 11), date(2027, 2, 14), name="League"),
    span("holiday", date(2026, 12, 24), date(2027, 1, 3)),
    span("meet", MEET, name="Spring meet"),
)


def calendar(*spans: CalendarSpan, lifter: str = "Mirela Oude") -> SeasonCalendar:
    return SeasonCalendar.of((*TEAM, *spans), lifter=lifter, taper=Taper())


def share(of: SeasonCalendar, day: str) -> float:
    return of.day(date.fromisoformat(day)).share


@pytest.mark.parametrize(
    ("day", "left", "words"),
    [
        ("2026-12-23", 1.0, "off season"),
        ("2026-12-24", 0.0, "holiday"),
        ("2027-01-03", 0.0, "holiday"),
        ("2027-01-11", 0.0, "League"),
        ("2027-02-15", 1.0, "off season"),
        ("2027-03-12", 1.0, "off season"),
        ("2027-03-13", 1.0, "14 days to Spring meet"),
        ("2027-03-24", 0.0, "3 days to Spring meet"),
        ("2027-03-26", 0.0, "1 day to Spring meet"),
        ("2027-03-27", 0.0, "Spring meet"),
        ("2027-03-28", 1.0, "off season"),
    ],
)
def test_each_day_has_its_share_and_its_words(day: str, left: float, words: str) -> None:
    found = calendar().day(date.fromisoformat(day))

    assert (found.share, found.words) == (left, words)


def test_days_before_a_meet_taper() -> None:
    taper = Taper()
    days = [calendar().day(MEET - timedelta(days=before)).share for before in range(13, 3, -1)]

    assert days == pytest.approx([taper.course(14 - before) for before in range(13, 3, -1)])


def test_in_season_what_is_stated_stays() -> None:
    club = SeasonCalendar.of(
        [span("in season", date(2027, 1, 11), date(2027, 2, 14), lowering_percent=25)],
        lifter="Mirela Oude",
        taper=Taper(),
    )

    assert share(club, "2027-01-20") == 0.25


def test_a_lifter_s_own_span_goes_before_the_team_s() -> None:
    ill = span("illness", date(2027, 2, 20), date(2027, 2, 22), lifters=("mirela OUDE",))
    off = span("off season", date(2027, 1, 18), date(2027, 1, 24), lifters=("Mirela Oude",))
    own, other = calendar(ill, off), calendar(ill, off, lifter="Jonne Tarval")

    assert (share(own, "2027-02-21"), share(other, "2027-02-21")) == (0.0, 1.0)
    assert (share(own, "2027-01-20"), share(other, "2027-01-20")) == (1.0, 0.0)


def test_a_meet_in_the_season_tapers_what_the_season_leaves() -> None:
    club = SeasonCalendar.of(
        [
            span("in season", date(2027, 3, 1), date(2027, 4, 30), lowering_percent=50),
            span("meet", MEET),
        ],
        lifter="Mirela Oude",
        taper=Taper(),
    )

    found = club.day(MEET - timedelta(days=7))

    assert found.share == pytest.approx(0.5 * Taper().share(7))
    assert found.words == "7 days to the meet, in season"


def test_of_two_meets_the_next_one_is_tapered_to() -> None:
    both = calendar(span("meet", MEET + timedelta(days=7), name="Final"))

    assert both.day(MEET - timedelta(days=1)).words == "1 day to Spring meet"
    assert both.day(MEET + timedelta(days=1)).words == "6 days to Final"


def test_a_day_before_a_meet_names_what_else_takes_something_out_of_it() -> None:
    ill = span("illness", date(2027, 3, 19), date(2027, 3, 20), lifters=("Mirela Oude",))
    off = span("off season", date(2027, 3, 21), name="Rest", lifters=("Mirela Oude",))
    cup = span("meet", date(2027, 3, 22), name="Cup", lifters=("Mirela Oude",))
    days = [calendar(ill, off, cup).day(date(2027, 3, day)) for day in (20, 21, 22, 23)]

    assert [day.words for day in days] == [
        "2 days to Cup, illness",
        "1 day to Cup",
        "Cup",
        "4 days to Spring meet",
    ]


def test_two_meets_on_one_day_are_that_of_the_one_that_begins_first() -> None:
    cup = span("meet", MEET, date(2027, 3, 28), name="Cup", lifters=("Mirela Oude",))
    both = calendar(cup)

    assert both.day(MEET).words == "Spring meet"
    assert (both.day(date(2027, 3, 28)).words, share(both, "2027-03-28")) == ("Cup", 0.0)


def test_a_meet_of_two_days_has_no_lowering_on_either() -> None:
    club = calendar(span("meet", date(2027, 5, 1), date(2027, 5, 2), name="Cup"))

    assert (share(club, "2027-05-02"), share(club, "2027-05-03")) == (0.0, 1.0)


def test_a_week_is_seven_days_even_where_clocks_are_changed_and_in_week_53() -> None:
    assert [day.date for day in calendar().week(IsoWeek(2027, 12))][::6] == [
        date(2027, 3, 22),
        date(2027, 3, 28),
    ]
    assert calendar().week(IsoWeek(2026, 53))[0].date == date(2026, 12, 28)
