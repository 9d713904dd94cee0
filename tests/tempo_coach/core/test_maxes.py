from __future__ import annotations

from datetime import date, datetime, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.facts import What
from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.core.maxes import KnownMax, known_maxes, latest_maxes, max_for, reserve_maxes
from tempo_coach.core.plan import Max
from tests.tempo_coach.core.done_sets import max_tested

AT = datetime.fromisoformat("2026-11-20T17:30:00+01:00")
DAY = AT.date()


def known(kg: float, lower_s: float | None, *, what: What = "lifted", days: int = 0) -> KnownMax:
    return KnownMax(
        what, Load(Decimal(str(kg)), LoadUnit.KG), kg, lower_s, DAY + timedelta(days=days)
    )


def planned(load: str = "90 kg", on: date = DAY, lower_s: float | None = 2.0) -> Max:
    return Max(exercise="Front Squat", load=parse_load(load), on=on, lower_s=lower_s)


# What is known.


def test_maxes_of_log_and_plan_make_one_list_in_order_of_their_dates() -> None:
    tested = [max_tested(at=AT - timedelta(days=9)), max_tested(id="b", what="lowered", note="x")]
    found = known_maxes(
        tested,
        planned=[planned("200 lb", DAY - timedelta(days=3)), planned().model_copy(
            update={"exercise": "row"}
        )],
        exercise="front squat",
    )  # fmt: skip
    assert [(one.what, str(one.load), one.source, one.id) for one in found] == [
        ("lifted", "90 kg", "log", "7d20"),
        ("lifted", "200 lb", "plan", None),
        ("lowered", "90 kg", "log", "b"),
    ]
    # International yard and pound agreement, 1959: 1 lb = 0.45359237 kg.
    assert found[1].load_kg == pytest.approx(90.718474)


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("200 lb", "200 lb"),
        ("80 kg", "90.7185 kg"),
        ("bw+20 kg", "90.7185 kg"),
        ("95%", "90.7185 kg"),
        ("", "90.7185 kg"),
        ("two plates", "90.7185 kg"),
    ],
)
def test_a_load_is_shown_as_written_where_that_says_the_same(written: str, shown: str) -> None:
    (one,) = known_maxes(
        [max_tested(load_kg=90.718474, load_as_written=written)], exercise="front squat"
    )
    assert str(one.load) == shown
    assert one.load_kg == 90.718474


def test_the_date_is_that_of_the_lifter_s_own_clock() -> None:
    late = max_tested(at=datetime.fromisoformat("2026-11-20T23:30:00-05:00"))
    assert known_maxes([late], exercise="front squat")[0].on == date(2026, 11, 20)


def test_the_latest_of_each_sort_and_lower_counts_and_on_one_day_the_log_s() -> None:
    old, new = known(85, 2, days=-30), known(90, 2)
    slow, lowered = known(80, 5, days=-60), known(100, 2, what="lowered")
    assert set(latest_maxes([slow, old, new, lowered])) == {slow, new, lowered}
    both = known_maxes([max_tested(load_kg=92.5)], planned=[planned()], exercise="front squat")
    assert [one.source for one in latest_maxes(both)] == ["log"]


def test_a_max_says_where_it_stands() -> None:
    (logged,) = known_maxes([max_tested(lower_s=2.5)], exercise="front squat")
    (untimed,) = known_maxes([], planned=[planned(lower_s=None)], exercise="front squat")
    assert logged.words == "the log's max, lowered in 2.5 s, tested 2026-11-20"
    assert untimed.words == "the plan's max, tested 2026-11-20"


# Which one holds.


@pytest.mark.parametrize(
    ("lower_s", "kg"),
    [(0, 90), (2, 90), (3.9, 90), (4, 81), (4.1, 81), (6, 81), (60, 81)],
)
def test_the_max_of_the_nearest_lower_holds_and_between_two_the_later(
    lower_s: float, kg: float
) -> None:
    maxes = (known(90, 2), known(81, 6, days=1), known(120, None), known(140, 4, what="lowered"))
    found = max_for(maxes, lower_s=lower_s)
    assert found is not None
    assert found.load_kg == kg


def test_a_max_without_its_lower_holds_where_there_is_no_other() -> None:
    untimed = known(120, None)
    assert max_for((untimed,), lower_s=6) is untimed
    assert max_for((known(100, 3, what="lowered"),), lower_s=3) is None
    assert max_for((), lower_s=3) is None


def test_a_slower_max_that_is_the_larger_one_does_not_hold() -> None:
    fast, slow = known(90, 2), known(95, 6, days=7)
    assert max_for((fast, slow), lower_s=6) is fast
    assert max_for((fast, slow), lower_s=1) is fast


maxes = st.lists(
    st.builds(
        known,
        st.integers(20, 300).map(float),
        st.sampled_from((None, 0.0, 1.0, 2.0, 3.0, 4.0, 6.0, 10.0)),
        what=st.sampled_from(("lifted", "lowered")),
        days=st.integers(-400, 0),
    ),
    max_size=8,
)
lowers = st.floats(0, 20)


@given(maxes, lowers, lowers)
def test_a_slower_lower_is_never_given_a_larger_max(
    several: list[KnownMax], one: float, other: float
) -> None:
    # The direction of Wilk et al. 2020, J Hum Kinet 72:151, 10.2478/hukin-2020-0001: the 1RM falls
    # from 2 s over 5 s to 8 and 10 s.
    faster, slower = (max_for(several, lower_s=lower_s) for lower_s in sorted((one, other)))
    assert (faster is None) == (slower is None)
    if faster is not None and slower is not None:
        assert slower.load_kg <= faster.load_kg


@given(maxes, lowers)
def test_no_max_holds_that_is_larger_than_one_tested_as_fast_or_faster(
    several: list[KnownMax], lower_s: float
) -> None:
    found = max_for(several, lower_s=lower_s)
    in_order = sorted(several, key=lambda one: one.on)
    for one in latest_maxes(in_order):
        if one.what == "lifted" and one.lower_s is not None and one.lower_s <= lower_s:
            assert found is not None
            assert found.load_kg <= one.load_kg


@given(maxes, lowers)
def test_the_order_of_the_maxes_makes_no_difference(
    several: list[KnownMax], lower_s: float
) -> None:
    one_a_day = list({one.on: one for one in several}.values())
    assert max_for(one_a_day, lower_s=lower_s) == max_for(one_a_day[::-1], lower_s=lower_s)


# The reserve.


def test_a_reserve_rests_on_the_latest_lowered_and_the_lift_nearest_the_ordinary_tempo() -> None:
    old, new = known(95, 3, what="lowered", days=-9), known(100, 4, what="lowered")
    fast, slow = known(90, 1), known(80, 6, days=9)
    assert reserve_maxes((new, old, fast, slow)) == (new, fast)
    assert reserve_maxes((old, new)) is None
    assert reserve_maxes((fast,)) is None
