from __future__ import annotations

from datetime import datetime

from tempo_coach.core.facts import SetDone
from tempo_coach.core.roster import Roster, roster, roster_data
from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.tempo import parse_tempo
from tests.tempo_coach.core.done_sets import done_set, seconds


def on(day: str, lifter: str, lower: float) -> SetDone:
    return done_set(
        id=f"{day}{lifter}",
        lifter=lifter,
        started_at=datetime.fromisoformat(f"{day}T18:00:00+01:00"),
        seconds=seconds(lower=lower),
    )


def of(*sets: SetDone, weeks: int = 8) -> Roster:
    return roster(SetRows.of(sets), weeks=weeks)


def test_the_largest_rise_comes_first_then_who_was_away_longest() -> None:
    # Mike and others 2017, JSCR 31:773, 10.1519/jsc.0000000000001675, three groups: 96, 192 and
    # 288 s of lowering a week.
    found = of(
        on("2026-03-02", "Steady", 192), on("2026-03-10", "Steady", 192),
        on("2026-03-02", "Rising", 96), on("2026-03-09", "Rising", 192),
        on("2026-03-03", "Steep", 96), on("2026-03-09", "Steep", 288),
        on("2026-03-02", "Falling", 288), on("2026-03-09", "Falling", 96),
        on("2026-01-05", "Away", 96),
    )  # fmt: skip

    assert [(line.lifter, line.lower_change_ms) for line in found.lines] == [
        ("Steep", 192_000),
        ("Rising", 96_000),
        ("Away", 0),
        ("Falling", -192_000),
        ("Steady", 0),
    ]


def test_a_first_week_counts_as_a_rise_from_nothing() -> None:
    found = of(
        on("2026-03-02", "Old hand", 100), on("2026-03-09", "Old hand", 150),
        on("2026-03-09", "Newcomer", 96),
    )  # fmt: skip

    first, second = found.lines
    assert (first.lifter, first.lower_change_ms, first.is_first_week) == ("Newcomer", 96_000, True)
    assert not second.is_first_week


def test_weeks_end_with_the_latest_that_anybody_has_and_cross_the_year() -> None:
    found = of(on("2026-12-28", "Ansa Vireo", 20), on("2027-01-04", "Oda Falk", 30), weeks=3)

    assert [str(week) for week in found.weeks] == ["2026-W52", "2026-W53", "2027-W01"]
    lower = {line.lifter: [time.lower_ms for time in line.weeks] for line in found.lines}
    assert lower == {"Ansa Vireo": [0, 20_000, 0], "Oda Falk": [0, 0, 30_000]}


def test_one_week_is_still_held_against_the_week_before() -> None:
    found = of(on("2026-03-02", "Ansa Vireo", 20), on("2026-03-09", "Ansa Vireo", 30), weeks=1)

    assert len(found.weeks) == 1
    assert found.lines[0].lower_change_ms == 10_000


def test_a_roster_is_given_with_its_rule_and_what_rests_on_allowances() -> None:
    done = done_set(tempo=parse_tempo("V-0-X-0"), seconds=seconds(lower=10, raise_=5))

    data = roster_data(roster(SetRows.of([done]), weeks=1))

    assert data["rule"].startswith("First whose lowering seconds rose most")
    assert data["weeks"] == ["2026-W10"]
    assert data["lifters"] == [
        {
            "lifter": "Ansa Vireo",
            "lower_s": [10.0],
            "lower_by_allowance_s": [10.0],
            "lower_change_s": 10.0,
            "first_week": True,
            "last_session": "2026-03-02",
        }
    ]


def test_no_sets_make_an_empty_roster() -> None:
    assert of() == Roster((), ())
