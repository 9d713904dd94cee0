from __future__ import annotations

from datetime import date, datetime
from itertools import permutations
from random import Random

import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tempo_coach.core.facts import SetDone
from tempo_coach.core.tempo import parse_tempo
from tempo_coach.core.weeks import (
    IsoWeek,
    Totals,
    allowed_times,
    week_of,
    weekly,
)
from tempo_coach.core.work import PhaseTimes
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.done_sets import done_set, seconds

set_lists = st.lists(strategies.sets_done, min_size=1, max_size=12)


def on(day: str, *, lower: float = 20, **changes: object) -> SetDone:
    started = datetime.fromisoformat(f"{day}T18:00:00+01:00")
    return done_set(started_at=started, seconds=seconds(lower=lower), **changes)


@pytest.mark.parametrize(
    ("day", "week"),
    [
        # ISO 8601: a week begins on Monday, and W01 holds 4 January; its own example:
        ("1985-04-12", "1985-W15"),
        # By the same rule, where the ISO year and the calendar's differ:
        ("2005-01-01", "2004-W53"),
        ("2005-12-31", "2005-W52"),
        ("2006-01-01", "2005-W52"),
        ("2007-12-31", "2008-W01"),
        ("2008-12-29", "2009-W01"),
        ("2010-01-03", "2009-W53"),
        ("2019-12-30", "2020-W01"),
        ("2022-12-31", "2022-W52"),
        ("2026-12-31", "2026-W53"),
        ("2027-01-03", "2026-W53"),
    ],
)
def test_a_day_lies_in_its_iso_week(day: str, week: str) -> None:
    assert str(IsoWeek.of(date.fromisoformat(day))) == week


def test_the_local_date_at_the_start_decides_the_week() -> None:
    late_on_sunday = datetime.fromisoformat("2027-01-03T23:59:59.999-05:00")
    assert str(week_of(done_set(started_at=late_on_sunday))) == "2026-W53"
    early_on_monday = datetime.fromisoformat("2027-01-04T00:00:00+14:00")
    assert str(week_of(done_set(started_at=early_on_monday))) == "2027-W01"


def test_a_week_begins_on_monday() -> None:
    assert IsoWeek(2026, 53).monday() == date(2026, 12, 28)


@pytest.mark.parametrize(
    ("week", "back", "expected"),
    [
        (IsoWeek(2027, 1), 1, IsoWeek(2026, 53)),
        (IsoWeek(2026, 1), 1, IsoWeek(2025, 52)),
        (IsoWeek(2026, 10), 0, IsoWeek(2026, 10)),
        (IsoWeek(1, 1), 1, IsoWeek(1, 1)),
        (IsoWeek(2026, 10), 10**9, IsoWeek(1, 1)),
    ],
)
def test_the_week_before_crosses_years_and_stops_where_the_calendar_does(
    week: IsoWeek, back: int, expected: IsoWeek
) -> None:
    assert week.before(back) == expected


def test_weeks_are_ordered_and_written_as_iso_8601_does() -> None:
    assert IsoWeek(2025, 52) < IsoWeek(2026, 1) < IsoWeek(2026, 10)
    assert str(IsoWeek(987, 6)) == "0987-W06"


# Totals.


def test_a_load_held_for_a_time_is_kilogram_seconds() -> None:
    # Gentil and others, Rev Bras Med Esporte, "total loading" is time under tension times load;
    # 100 kg for 60 s, computed: 6000 kg s.
    totals = Totals.of([done_set(load_kg=100.0, seconds=seconds(lower=60))])
    assert totals.lowering_kg_s == 6000


def test_volume_load_is_load_times_reps_and_moves_apart_from_the_seconds() -> None:
    # Tran, Docherty and Behm 2006, Eur J Appl Physiol 98:402, 10.1007/s00421-006-0297-3.
    slow = Totals.of([done_set(load_kg=100.0, reps_done=5, seconds=seconds(lower=40))])
    quick = Totals.of([done_set(load_kg=100.0, reps_done=5, seconds=seconds(lower=10))])
    assert slow.tonnage_kg == quick.tonnage_kg == 500
    assert (slow.lowering_kg_s, quick.lowering_kg_s) == (4000, 1000)


def test_a_set_without_a_known_load_is_counted_but_adds_no_load() -> None:
    totals = Totals.of([done_set(), done_set(load_kg=None)])
    assert (totals.sets, totals.reps, totals.sets_without_load) == (2, 10, 1)
    assert totals.times.lower_ms == 40_000
    assert (totals.lowering_kg_s, totals.tonnage_kg) == (1600, 400)


def test_no_sets_add_up_to_nothing() -> None:
    totals = Totals.of([])
    assert totals == Totals(0, 0, PhaseTimes(), PhaseTimes(), 0.0, 0.0, 0, 0)
    assert totals.lowering_share == 0


def test_the_lowering_share_is_of_all_tension() -> None:
    done = done_set(seconds=seconds(lower=20, pause=5, raise_=10, top=5))
    assert Totals.of([done]).lowering_share == 0.5


def test_only_phases_by_speed_in_a_paced_set_rest_on_an_allowance() -> None:
    spent = seconds(lower=10, pause=5, raise_=7, top=3)
    paced = done_set(tempo=parse_tempo("V-1-X-1"), seconds=spent)
    assert allowed_times(paced) == PhaseTimes(lower_ms=10_000, raise_ms=7000)
    assert allowed_times(done_set(tempo=parse_tempo("4-1-1-1"), seconds=spent)) == PhaseTimes()


@pytest.mark.parametrize("timing", ["tapped", "trace"])
def test_measured_times_rest_on_no_allowance(timing: str) -> None:
    assert allowed_times(done_set(timing=timing)) == PhaseTimes()


def test_totals_say_how_much_rests_on_allowances() -> None:
    totals = Totals.of([done_set(), done_set(timing="tapped")])
    assert totals.times.raise_ms == 10_000
    assert totals.by_allowance == PhaseTimes(raise_ms=5000)


def test_sums_of_tenths_do_not_depend_on_the_order() -> None:
    # As binary fractions 0.1 + 0.2 + 0.3 is 0.6000000000000001, and 0.3 + 0.2 + 0.1 is 0.6.
    sets = [done_set(load_kg=1.0, seconds=seconds(lower=lower)) for lower in (0.1, 0.2, 0.3)]
    assert {Totals.of(order).lowering_kg_s for order in permutations(sets)} == {0.6}


@given(set_lists, st.randoms(use_true_random=False))
@settings(max_examples=30)
def test_the_order_of_sets_changes_no_total_to_the_last_digit(
    sets: list[SetDone], random: Random
) -> None:
    shuffled = list(sets)
    random.shuffle(shuffled)
    assert Totals.of(shuffled) == Totals.of(sets)
    assert [week.total for week in weekly(shuffled)] == [week.total for week in weekly(sets)]


# Weeks.


@pytest.mark.slow
@given(set_lists)
@settings(max_examples=25)
def test_weekly_sums_are_those_of_pandas(sets: list[SetDone]) -> None:
    frame = pd.DataFrame(
        {
            "day": pd.Timestamp(done.started_at.date()),
            "exercise": done.exercise,
            "reps": done.reps_done,
            "lower": done.seconds.lower,
            "tension": done.seconds.lower
            + done.seconds.pause
            + done.seconds.raise_
            + done.seconds.top,
            "lowering": 0
            if done.load_kg is None
            else (done.mean_lower_kg or 0) * done.seconds.lower,
        }
        for done in sets
    )
    calendar = frame["day"].dt.isocalendar()
    sums = frame.groupby([calendar["year"], calendar["week"]])[
        ["reps", "lower", "tension", "lowering"]
    ].sum()

    weeks = weekly(sets)

    assert [(week.week.year, week.week.week) for week in weeks] == list(sums.index)
    for week, (_, expected) in zip(weeks, sums.iterrows(), strict=True):
        assert week.total.reps == expected["reps"]
        assert week.total.times.lower_ms / 1000 == pytest.approx(expected["lower"])
        assert week.total.times.tension_ms / 1000 == pytest.approx(expected["tension"])
        assert week.total.lowering_kg_s == pytest.approx(expected["lowering"])
        assert sum(part.totals.reps for part in week.exercises) == week.total.reps


def test_exercises_are_put_together_whatever_their_case_and_named_as_last_written() -> None:
    sets = [
        on("2026-03-02", exercise="front squat"),
        on("2026-03-03", exercise="Bench Press"),
        on("2026-03-04", exercise="Front Squat"),
    ]
    (week,) = weekly(sets)
    assert [(part.exercise, part.totals.sets) for part in week.exercises] == [
        ("Bench Press", 1),
        ("Front Squat", 2),
    ]


def test_the_first_week_on_record_has_nothing_to_be_held_against() -> None:
    (week,) = weekly([on("2026-03-02")])
    assert week.lower_before_ms is None
    assert week.lower_change_ms is None


def test_a_week_is_held_against_the_calendar_week_before() -> None:
    sets = [on("2026-03-02", lower=20), on("2026-03-09", lower=30), on("2026-03-15", lower=5)]
    _, second = weekly(sets)
    assert (second.lower_before_ms, second.lower_change_ms) == (20_000, 15_000)


def test_a_week_behind_a_week_off_is_held_against_zero() -> None:
    _, later = weekly([on("2026-03-02", lower=20), on("2026-03-16", lower=30)])
    assert (later.lower_before_ms, later.lower_change_ms) == (0, 30_000)


def test_the_week_before_may_lie_in_another_year() -> None:
    _, second = weekly([on("2027-01-03", lower=20), on("2027-01-04", lower=15)])
    assert str(second.week) == "2027-W01"
    assert second.lower_change_ms == -5000


@pytest.mark.parametrize(
    ("last", "weeks"),
    [
        (1, ["2026-W12"]),
        (2, ["2026-W12"]),
        (3, ["2026-W10", "2026-W12"]),
        (4, ["2026-W09", "2026-W10", "2026-W12"]),
        (10**9, ["2026-W09", "2026-W10", "2026-W12"]),
        (None, ["2026-W09", "2026-W10", "2026-W12"]),
    ],
)
def test_the_last_weeks_are_calendar_weeks_up_to_the_latest_with_sets(
    last: int | None, weeks: list[str]
) -> None:
    sets = [on("2026-02-23"), on("2026-03-02"), on("2026-03-16")]
    assert [str(week.week) for week in weekly(sets, last=last)] == weeks


def test_a_week_that_is_kept_is_still_held_against_one_that_is_not() -> None:
    (week,) = weekly([on("2026-03-02", lower=20), on("2026-03-09", lower=30)], last=1)
    assert week.lower_change_ms == 10_000


def test_no_sets_make_no_weeks() -> None:
    assert weekly([]) == ()
    assert weekly([], last=4) == ()


def test_sets_at_both_ends_of_the_calendar_have_their_weeks() -> None:
    first = done_set(started_at=datetime.fromisoformat("0001-01-01T00:00:00+14:00"))
    last = done_set(started_at=datetime.fromisoformat("9999-12-31T23:59:59-12:00"))
    assert [str(week.week) for week in weekly([first, last], last=10**9)] == [
        "0001-W01",
        "9999-W52",
    ]


def test_the_last_week_of_the_calendar_ends_with_its_last_day() -> None:
    assert IsoWeek(2026, 48).last_day() == date(2026, 11, 29)
    assert IsoWeek.of(date.max).last_day() == date.max


def test_methods_have_their_part_of_a_week_and_sets_without_one_have_none() -> None:
    [week] = weekly(
        [
            done_set(id="1"),
            done_set(id="2", method="slow-lowering"),
            done_set(id="3", method="slow-lowering"),
            done_set(id="4", method="hold"),
        ]
    )

    assert [(part.method, part.totals.sets) for part in week.methods] == [
        ("hold", 1),
        ("slow-lowering", 2),
    ]
    assert week.total.sets == 4
