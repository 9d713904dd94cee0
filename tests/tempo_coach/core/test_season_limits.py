from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.plan_season import CalendarSpan, DosingRules
from tempo_coach.core.season_calendar import SeasonCalendar
from tempo_coach.core.season_limits import Level, SeasonWeek, week_levels
from tempo_coach.core.taper import TaperShape
from tempo_coach.core.weeks import IsoWeek

FIRST = IsoWeek(2026, 49)
BEFORE = date(2026, 11, 25)
"""A day before the first week."""


def levels(
    *spans: CalendarSpan,
    weeks: int = 8,
    base: float | None = 200.0,
    done: Mapping[IsoWeek, float] | None = None,
    today: date = BEFORE,
    rules: DosingRules | None = None,
) -> tuple[list[Level], list[SeasonWeek]]:
    rules = rules or DosingRules()
    calendar = SeasonCalendar.of(spans, lifter="Mirela Oude", taper=rules.as_taper())
    shown = [SeasonWeek.of(week(number), calendar) for number in range(weeks)]
    found = week_levels(
        shown, calendar=calendar, base=base, rules=rules, done=done or {}, today=today
    )
    return list(found), shown


def week(number: int) -> IsoWeek:
    return IsoWeek.of(FIRST.monday() + timedelta(weeks=number))


def span(kind: str, first: int, last: int, **more: object) -> CalendarSpan:
    """Return a span of whole weeks, from one number to another."""
    return CalendarSpan.model_validate(
        {
            "kind": kind,
            "first": week(first).monday(),
            "last": week(last).monday() + timedelta(days=6),
            **more,
        }
    )


def amounts(found: list[Level]) -> list[float | None]:
    return [None if level.amount is None else round(level.amount, 3) for level in found]


def test_a_stated_base_grows_by_the_stated_share_a_week() -> None:
    found, _ = levels(weeks=4)

    assert amounts(found) == [200, 220, 242, 266.2]
    assert found[0].why == "the stated base"
    assert found[1].why == "10% above the level before"


def test_a_week_that_is_not_all_loading_does_not_make_the_next_one_grow() -> None:
    found, shown = levels(span("holiday", 1, 1), weeks=4)

    assert amounts(found) == [200, 200, 200, 220]
    assert [one.share for one in shown] == [1, 0, 1, 1]


def test_after_two_weeks_without_the_level_begins_again_lower() -> None:
    found, _ = levels(span("illness", 2, 4), weeks=7)

    assert amounts(found) == [200, 220, 220, 220, 220, 110, 121]
    assert found[5].why == "50% of the level, after 3 weeks with less"


def test_a_break_that_ends_within_a_week_lowers_the_level_from_that_week_on() -> None:
    ill = CalendarSpan(
        kind="illness", first=week(2).monday(), last=week(5).monday() + timedelta(days=2)
    )

    found, shown = levels(ill, weeks=8)

    assert shown[5].share == pytest.approx(4 / 7)
    assert amounts(found)[4:] == [220, 110, 110, 121]
    assert found[5].after_less == 3


def test_a_season_that_leaves_half_begins_lower_too_where_it_follows_a_break() -> None:
    league = span("in season", 4, 6, lowering_percent=60)

    after_break, _ = levels(span("holiday", 2, 3), league, weeks=7)
    at_once, _ = levels(league, weeks=7)

    assert amounts(after_break)[4:] == [110, 110, 110]
    assert at_once[4].amount == pytest.approx(200 * 1.1**3)
    assert {level.after_less for level in at_once} == {0}


def test_a_season_that_leaves_less_than_half_holds_its_part_of_the_level_after_a_break() -> None:
    league = span("in season", 4, 6, lowering_percent=20)

    found, _ = levels(span("holiday", 2, 3), league, weeks=7)

    assert amounts(found)[4:] == [220, 220, 220]


@pytest.mark.parametrize("apart", [3, 4, 6])
def test_meets_some_weeks_apart_do_not_take_the_level_to_nothing(apart: int) -> None:
    meets = [
        CalendarSpan(kind="meet", first=week(number).monday() + timedelta(days=6))
        for number in range(4, 40, apart)
    ]
    rules = DosingRules(taper=TaperShape.STEP, taper_cut_percent=55)

    found, _ = levels(*meets, weeks=40, rules=rules)

    assert min(level.amount or 0 for level in found) >= 100


def test_meets_each_month_begin_again_where_they_last_did() -> None:
    meets = [
        CalendarSpan(kind="meet", first=week(number).monday() + timedelta(days=6))
        for number in (4, 9)
    ]
    rules = DosingRules(taper=TaperShape.STEP, taper_cut_percent=55)

    found, _ = levels(*meets, weeks=11, rules=rules)

    assert amounts(found)[5:] == [110, 121, 121, 121, 121, 110]
    assert found[10].why == "where it last began again, after 2 weeks with less"


@pytest.mark.parametrize(("percent", "after"), [(25, 100), (50, 200), (80, 200)])
def test_a_season_that_leaves_half_is_no_break(percent: float, after: float) -> None:
    found, shown = levels(span("in season", 1, 3, lowering_percent=percent), weeks=5)

    assert amounts(found) == [200] * 4 + [after]
    assert [one.share for one in shown] == [1, percent / 100, percent / 100, percent / 100, 1]


def test_the_growth_ends_at_its_share_of_the_base() -> None:
    found, _ = levels(weeks=7)

    assert amounts(found) == [200, 220, 242, 266.2, 292.82, 300, 300]
    assert found[5].why == "150% of the base, where the growth ends"


def test_without_a_base_the_growth_ends_at_its_share_of_their_mean() -> None:
    done = {week(-1): 200.0}

    grows, _ = levels(base=None, done=done, today=week(0).monday(), weeks=7)
    stays, _ = levels(
        base=None,
        done=done,
        today=week(0).monday(),
        weeks=2,
        rules=DosingRules(most_percent=100),
    )

    assert amounts(grows)[-1] == 300
    assert amounts(stays) == [200, 200]


def test_without_a_base_the_last_four_full_loading_weeks_give_it() -> None:
    done = dict(zip(map(week, range(-6, 0)), (10, 10, 180, 190, 210, 220), strict=True))

    found, _ = levels(base=None, done=done, today=week(0).monday(), weeks=3)

    assert amounts(found) == [220, 242, 266.2]
    assert found[0].why == "10% above the mean of the last 4 full loading weeks"


def test_weeks_that_the_calendar_cuts_are_no_base() -> None:
    done = dict(zip(map(week, range(-3, 0)), (100, 300, 200), strict=True))

    found, _ = levels(
        span("in season", -2, -2), base=None, done=done, today=week(0).monday(), weeks=1
    )

    assert amounts(found) == [165]
    assert "last 2 full loading weeks" in found[0].why


def test_weeks_that_have_begun_go_by_the_log_and_those_to_come_from_there() -> None:
    done = {week(-1): 200.0, week(0): 120.0, week(1): 300.0}

    found, _ = levels(base=None, done=done, today=week(1).monday() + timedelta(days=6), weeks=4)

    assert amounts(found) == [220, 176, 193.6, 212.96]


@pytest.mark.parametrize("base", [200.0, None])
def test_a_gap_in_the_log_counts_as_a_break(base: float | None) -> None:
    found, _ = levels(base=base, done={week(0): 200.0}, today=week(3).monday(), weeks=5)

    assert amounts(found)[3:] == [100, 110]
    assert found[3].why == "50% of the level, after 2 weeks with less"
    assert [level.after_less for level in found] == [0, 0, 0, 2, 0]


@pytest.mark.parametrize("base", [200.0, None])
def test_a_longer_gap_lowers_the_level_once(base: float | None) -> None:
    found, _ = levels(base=base, done={week(0): 200.0}, today=week(9).monday(), weeks=11)

    assert amounts(found)[3:] == [100] * 7 + [110]
    assert found[9].why == "50% of the level, after 8 weeks with less"


@pytest.mark.parametrize("base", [200.0, None])
def test_a_little_work_does_not_end_a_gap_and_half_of_its_level_does(base: float | None) -> None:
    little = {week(0): 200.0, week(3): 49.0, week(4): 49.0}
    half = {**little, week(3): 50.0}

    after_little, _ = levels(base=base, done=little, today=week(5).monday(), weeks=6)
    after_half, _ = levels(base=base, done=half, today=week(5).monday(), weeks=6)

    assert amounts(after_little)[3:] == [100, 100, 100]
    assert after_little[5].after_less == 4
    assert after_half[5].after_less == 0
    assert amounts(after_half)[3:5] == [100, 110 if base else 55]


@pytest.mark.parametrize("base", [200.0, None])
def test_what_was_full_before_a_gap_does_not_bring_the_level_back_after_it(
    base: float | None,
) -> None:
    done = {week(0): 200.0, week(3): 100.0, week(4): 110.0}

    found, _ = levels(base=base, done=done, today=week(5).monday(), weeks=6)

    assert (found[5].amount or 0) < 125


@pytest.mark.parametrize("base", [200.0, None])
def test_after_one_week_with_less_the_level_is_what_it_was_before_that_week(
    base: float | None,
) -> None:
    done = {week(0): 200.0, week(1): 99.0}

    found, _ = levels(base=base, done=done, today=week(2).monday(), weeks=3)

    assert amounts(found) == ([200, 220, 200] if base else [None, 220, 220])


@pytest.mark.parametrize("base", [200.0, None])
def test_a_gap_counts_in_season_too_and_what_stays_there_is_no_gap(base: float | None) -> None:
    league = span("in season", 3, 8, lowering_percent=20)
    kept = {week(0): 200.0} | {week(number): 25.0 for number in (1, 2, 3, 4, 5)}
    plays = {week(number): 200.0 for number in (0, 1, 2)} | {
        week(number): 40.0 for number in (3, 4, 5)
    }

    after_gap, _ = levels(league, base=base, done=kept, today=week(5).monday(), weeks=10)
    after_play, _ = levels(league, base=base, done=plays, today=week(6).monday(), weeks=10)

    assert after_gap[3].amount == 100
    assert after_play[6].after_less == 0
    assert after_play[9].why == "50% of the level, after 6 weeks with less"


@pytest.mark.parametrize("today", range(8))
def test_before_any_work_the_stated_base_holds_as_it_is(today: int) -> None:
    found, _ = levels(today=week(today).monday(), weeks=8)

    assert amounts(found)[: today + 1] == [200] * (today + 1)
    assert {level.after_less for level in found} == {0}


def test_a_week_that_is_not_over_is_no_gap() -> None:
    sunday = week(2).monday() + timedelta(days=6)
    done = {week(0): 200.0}

    before, _ = levels(done=done, today=sunday, weeks=4)
    after, _ = levels(done=done, today=sunday + timedelta(days=1), weeks=4)

    assert (before[3].after_less, after[3].after_less) == (0, 2)


def test_with_no_history_nothing_is_said() -> None:
    found, _ = levels(base=None, weeks=3)

    assert amounts(found) == [None] * 3
    assert "no" in found[0].why


KINDS = st.sampled_from(("off season", "in season", "in season, half", "holiday", "illness"))
DONE = st.sampled_from((0.0, 10.0, 49.0, 100.0, 200.0, 400.0))


@given(st.lists(st.tuples(KINDS, DONE), min_size=8, max_size=20), st.floats(0, 30), st.booleans())
def test_no_level_ever_jumps_by_more_than_the_stated_growth(
    weeks: list[tuple[str, float]], growth: float, is_over: bool
) -> None:
    spans = [
        span("in season", number, number, lowering_percent=60)
        if kind == "in season, half"
        else span(kind, number, number)
        for number, (kind, _) in enumerate(weeks)
    ]
    done = {week(number): amount for number, (_, amount) in enumerate(weeks)}

    found, shown = levels(
        *spans,
        weeks=len(weeks),
        rules=DosingRules(growth_percent=growth),
        done=done,
        today=week(len(weeks)).monday() if is_over else BEFORE,
    )

    limits = [(level.amount or 0) * one.share for level, one in zip(found, shown, strict=True)]
    for before, after in pairwise([level.amount or 0 for level in found]):
        assert after <= before * (1 + growth / 100) + 1e-6
    assert max(limits) <= 200 * (1 + growth / 100) ** len(weeks) + 1e-6


@given(st.lists(st.tuples(KINDS, DONE), min_size=2, max_size=20))
def test_two_weeks_without_work_always_lower_the_level_of_the_next(
    weeks: list[tuple[str, float]],
) -> None:
    spans = [
        span(kind.removesuffix(", half"), number, number) for number, (kind, _) in enumerate(weeks)
    ]
    last = len(weeks)
    done = {week(-1): 200.0} | {week(number): amount for number, (_, amount) in enumerate(weeks)}

    found, _ = levels(*spans, base=None, weeks=last + 3, done=done, today=week(last + 2).monday())

    before, _, after = (level.amount or 0 for level in found[-3:])
    assert after <= before
    assert found[-1].after_less >= 2


@pytest.mark.parametrize("growth", [0.0, 10.0])
def test_the_limit_of_a_tapered_week_is_the_sum_of_its_days(growth: float) -> None:
    meet = CalendarSpan(kind="meet", first=week(3).monday() + timedelta(days=5))

    found, shown = levels(meet, weeks=4, rules=DosingRules(growth_percent=growth))

    days = [day.share for day in shown[3].days]
    assert shown[3].share == pytest.approx(sum(days) / 7)
    assert days[5] == 0
    assert found[3].amount == found[2].amount


def test_work_of_another_century_is_no_burden_and_a_long_break_is_one_all_the_same() -> None:
    long_ago = {IsoWeek(1823, 4): 200.0}

    found, _ = levels(base=None, done=long_ago, today=FIRST.monday(), weeks=2)

    assert amounts(found) == [100, 110]
    assert found[0].why == "50% of the level, after 103 weeks with less"
