from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.facts import SetDone
from tempo_coach.core.plan import Plan
from tempo_coach.core.season import WEEKS_AHEAD, WEEKS_BACK, lifter_season, season_of_log
from tempo_coach.core.season_words import (
    NO_LIMIT_YET,
    WITHOUT_PLAN,
    basis_sentences,
    meet_sentences,
    season_sentences,
    standing_words,
    taper_words,
    trend_sentences,
)
from tempo_coach.core.taper import Taper, TaperShape
from tempo_coach.core.weeks import IsoWeek
from tests.tempo_coach.core.done_sets import done_set
from tests.tempo_coach.core.plans import TEXT, plan_of

TODAY = date(2026, 12, 2)


def slow(day: date, *, hour: int = 18, offset: str = "+01:00") -> SetDone:
    """Return five slow front squats with 80 kg: 20 s of lowering, 1600 kg·s."""
    begun = datetime.fromisoformat(f"{day.isoformat()}T{hour:02d}:00:00{offset}")
    return done_set(id=f"{day}-{hour}{offset}", started_at=begun, ended_at=begun)


def test_without_a_plan_the_season_begins_with_the_log_and_looks_a_few_weeks_ahead() -> None:
    season = season_of_log("Ana", sets=[slow(TODAY - timedelta(weeks=3))], today=TODAY)

    weeks = [row.week.week for row in season.rows]
    assert weeks[0] == IsoWeek(2026, 46)
    assert weeks[-1] == IsoWeek.of(TODAY).before(-WEEKS_AHEAD)
    assert [round(row.lower_s.limit or 0) for row in season.rows][:5] == [0, 22, 22, 10, 11]
    assert not season.is_planned


def test_a_long_log_is_not_shown_from_its_beginning() -> None:
    season = season_of_log("Ana", sets=[slow(date(2020, 1, 6))], today=TODAY)

    assert season.rows[0].week.week == IsoWeek.of(TODAY).before(WEEKS_BACK)


def test_with_no_history_the_season_says_what_it_can_t_say() -> None:
    season = season_of_log("Ana", sets=[], today=TODAY)

    said = tuple(season_sentences(season))
    assert WITHOUT_PLAN in said
    assert NO_LIMIT_YET in said
    assert len(season.rows) == 1 + WEEKS_AHEAD


def test_a_plan_without_the_lifter_says_no_more_than_the_log() -> None:
    plan = plan_of(TEXT)

    assert not lifter_season(plan, "Nobody", sets=[], today=TODAY).is_planned
    assert not lifter_season(None, "Mirela Oude", sets=[], today=TODAY).is_planned
    assert lifter_season(plan, "mirela oude", sets=[], today=TODAY).is_planned


def test_a_year_of_53_weeks_has_each_of_them_once() -> None:
    season = season_of_log("Ana", sets=[slow(date(2026, 12, 14))], today=date(2027, 1, 4))

    names = [str(row.week.week) for row in season.rows]
    assert names[:5] == ["2026-W51", "2026-W52", "2026-W53", "2027-W01", "2027-W02"]


def test_a_set_counts_for_the_week_of_the_local_date_wherever_it_was_done() -> None:
    # One moment: Sunday evening in one place, Monday morning in another.
    sunday = slow(date(2026, 11, 29), hour=23, offset="-05:00")
    monday = slow(date(2026, 11, 30), hour=15, offset="+11:00")
    assert sunday.started_at == monday.started_at

    season = season_of_log("Ana", sets=[sunday, monday], today=TODAY)

    assert [row.lower_s.done for row in season.rows][:2] == [20, 20]


def test_the_trend_names_direction_and_last_week_and_no_safe_zone() -> None:
    days = [TODAY - timedelta(days=days) for days in (60, 15, 14, 7, 6, 2, 1)]
    season = season_of_log("Ana", sets=[slow(day) for day in sorted(days)], today=TODAY)

    smoothed, last_week, monotony, zone = trend_sentences(season)

    assert smoothed.endswith("; rising over the last week.")
    assert last_week == (
        "Last week's lowering load: 3,200 kg·s, 0 more than the week before (+0%)."
    )
    assert "population" in monotony
    assert "no safe zone" in zone


@pytest.mark.parametrize("last", range(7))
def test_who_does_the_same_each_week_is_level_on_each_day_of_it(last: int) -> None:
    today = TODAY + timedelta(days=last)
    sets = [slow(TODAY - timedelta(weeks=weeks)) for weeks in range(40, -1, -1)]

    smoothed, *_ = trend_sentences(season_of_log("Ana", sets=sets, today=today))

    assert smoothed.endswith("; about level over the last week.")


@pytest.mark.parametrize(("days", "is_said"), [(0, False), (54, False), (55, True)])
def test_which_way_it_goes_is_not_said_of_a_short_log(days: int, is_said: bool) -> None:
    sets = [slow(TODAY - timedelta(days=days))]

    smoothed, *_ = trend_sentences(season_of_log("Ana", sets=sets, today=TODAY))

    assert smoothed.endswith("over the last week.") is is_said
    assert ("once the log goes back 56 days" in smoothed) is not is_said


def test_sets_of_no_known_load_are_said_to_add_nothing_to_the_trend() -> None:
    known, unknown, long_ago = (slow(TODAY - timedelta(days=days)) for days in (1, 27, 28))
    without = [one.model_copy(update={"load_kg": None}) for one in (long_ago, unknown)]

    said = trend_sentences(season_of_log("Ana", sets=[*without, known], today=TODAY))

    assert "1 set of the last 28 days had no load known in kg: nothing is added for these." in said


def test_after_a_gap_of_weeks_the_trend_still_says_where_it_goes() -> None:
    season = season_of_log("Ana", sets=[slow(TODAY - timedelta(weeks=9))], today=TODAY)

    smoothed, zone = trend_sentences(season)

    assert smoothed.endswith("; falling over the last week.")
    assert "no safe zone" in zone


@given(st.lists(st.dates(date(2025, 1, 1), date(2027, 12, 31)), max_size=8))
def test_each_day_s_part_adds_up_to_the_week_s_limit(days: list[date]) -> None:
    season = season_of_log("Ana", sets=[slow(day) for day in sorted(set(days))], today=TODAY)

    for row in season.rows:
        parts = [row.lower_s.of_day(day) for day in row.week.days]
        if row.lower_s.limit is None:
            assert parts == [None] * 7
        else:
            assert abs(sum(part or 0 for part in parts) - row.lower_s.limit) < 1e-6
        assert (row.lower_s.left or 0) >= 0


def test_what_the_calendar_takes_all_out_of_has_no_room_even_where_no_level_is_known() -> None:
    league = '[[calendar]]\nkind = "in season"\nfirst = 2026-12-07\nlast = 2026-12-13\n'

    season = lifter_season(plan_of(f"{TEXT}\n{league}"), "Mirela Oude", sets=[], today=TODAY)

    assert [row.lower_s.limit for row in season.rows[:3]] == [None, 0, None]
    assert "No limit can be told yet" in " ".join(basis_sentences(season))


def test_a_meet_behind_the_weeks_that_are_shown_is_named() -> None:
    far = '[[calendar]]\nkind = "meet"\nfirst = 2035-01-01\nname = "Far"\n'
    season = lifter_season(plan_of(f"{TEXT}\n{far}"), "Mirela Oude", sets=[], today=TODAY)

    assert "Far of 2035-01-01 is behind the 104 weeks that are shown." in meet_sentences(season)


def with_base(base: str) -> Plan:
    return plan_of(f"{TEXT}\n[dosing]\nbase_s = {base}\n")


def test_a_gap_in_the_log_is_said_with_what_begins_again_and_since_when() -> None:
    plan = with_base("20")
    begun = plan.iso_week(1).monday()
    today = begun + timedelta(weeks=4)

    season = lifter_season(plan, "Mirela Oude", sets=[slow(begun)], today=today)

    assert season.this_week is not None
    assert season.this_week.lower_s.limit == 10
    assert (
        f"The level of lowering seconds and lowering load begins again lower in "
        f"{IsoWeek.of(today)}: 50% of the level, after 3 weeks with less. What is not in the log "
        "counts as not done."
    ) in basis_sentences(season)
    assert standing_words(season, IsoWeek.of(today))[0].endswith(
        "lowering emphasis 0 s of 10 s; 50% of the level, after 3 weeks with less."
    )


def test_a_limit_is_not_said_to_be_above_the_same_number() -> None:
    begun = plan_of(TEXT).iso_week(1).monday()
    sets_of_80_s = [slow(begun, hour=hour) for hour in (8, 9, 10, 11)]

    def said(base: str) -> list[str]:
        plan = with_base(base)
        season = lifter_season(
            plan, "Mirela Oude", sets=sets_of_80_s, today=begun + timedelta(weeks=1)
        )
        return [words for words in basis_sentences(season) if "rests on the stated base" in words]

    assert said("80.3") == []
    assert len(said("82")) == 1


@pytest.mark.parametrize(
    ("taper", "said"),
    [
        (Taper(), "is 4 days before the meet. In all it leaves out 55% of the sum"),
        (Taper(last_days=0), "is 1 day before the meet. In all it leaves out 50% of the sum"),
        (Taper(last_days=14), "is 14 days before the meet. In all it leaves out 93% of the sum"),
        (Taper(TaperShape.STEP, days=1, last_days=0), "Taper: step over 1 day, and the last"),
        (Taper(days=0, last_days=2), "No taper is stated, and the last lowering emphasis is 2 d"),
    ],
)
def test_a_taper_is_told_with_its_last_days(taper: Taper, said: str) -> None:
    assert said in taper_words(taper)
