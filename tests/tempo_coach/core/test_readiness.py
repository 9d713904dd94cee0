from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from tempo_coach.core.facts import SetDone, What
from tempo_coach.core.load import parse_load
from tempo_coach.core.maxes import KnownMax
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.readiness import Readiness, fast_readiness, overload_readiness
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.tempo import Phase, parse_tempo
from tempo_coach.core.weeks import IsoWeek
from tests.tempo_coach.core.done_sets import done_set

TODAY = date(2026, 3, 27)
FRIDAY = datetime.fromisoformat("2026-03-27T18:00:00+01:00")


def weeks_ago(weeks: int, **changes: Any) -> SetDone:
    begun = FRIDAY - timedelta(weeks=weeks)
    return done_set(id=f"{weeks}", started_at=begun, ended_at=begun, **changes)


def known_max(what: What, load: str, *, days_ago: int = 10) -> KnownMax:
    read = parse_load(load)
    lower_s = 3.0 if what == "lowered" else 2.0
    return KnownMax(what, read, read.kg() or 0, lower_s, TODAY - timedelta(days=days_ago))


RAISE_ONLY = RepShape(only=Phase.RAISE)
FOUR_WEEKS = [weeks_ago(weeks) for weeks in (3, 2, 1, 0)]
BOTH = [known_max("lifted", "100 kg"), known_max("lowered", "112.5 kg")]


def overload(
    sets: Sequence[SetDone] = FOUR_WEEKS,
    maxes: Sequence[KnownMax] = BOTH,
    *,
    is_cleared: bool | None = True,
    rules: DosingRules | None = None,
    overloaded: Sequence[IsoWeek] = (),
) -> Readiness:
    return overload_readiness(
        "Front Squat",
        sets=sets,
        maxes=maxes,
        rules=rules or DosingRules(),
        is_cleared=is_cleared,
        overloaded=overloaded,
        today=TODAY,
    )


def fast(sets: Sequence[SetDone] = FOUR_WEEKS, maxes: Sequence[KnownMax] = BOTH) -> Readiness:
    return fast_readiness("front squat", sets=sets, maxes=maxes, rules=DosingRules(), today=TODAY)


def missing(found: Readiness) -> list[str]:
    return [one.missing for one in found.criteria if one.is_met is False]


def test_who_meets_every_criterion_is_ready() -> None:
    assert (overload().verdict, missing(overload())) == ("ready", [])
    assert fast().is_ready


def test_this_week_need_not_be_done_yet() -> None:
    assert overload([weeks_ago(weeks) for weeks in (4, 3, 2, 1)]).is_ready


@pytest.mark.parametrize(
    "sets",
    [
        [],
        [weeks_ago(weeks) for weeks in (3, 1, 0)],
        [weeks_ago(weeks, tempo=parse_tempo("2-0-X-0")) for weeks in (3, 2, 1, 0)],
        [weeks_ago(weeks, reps_done=4) for weeks in (3, 2, 1, 0)],
        [weeks_ago(weeks, exercise="bench press") for weeks in (3, 2, 1, 0)],
        [weeks_ago(weeks, tempo=parse_tempo("V-0-X-0")) for weeks in (3, 2, 1, 0)],
        [weeks_ago(weeks, v=2, shape=RAISE_ONLY) for weeks in (3, 2, 1, 0)],
        [weeks_ago(weeks, method="reserve-test") for weeks in (3, 2, 1, 0)],
    ],
)
def test_who_can_t_lower_slowly_is_not_ready_to_lower_fast_or_more(
    sets: Sequence[SetDone],
) -> None:
    assert fast(sets).verdict == "not yet"
    assert overload(sets).verdict == "not yet"
    assert "of slow lowering under control" in missing(fast(sets))[0]


@pytest.mark.parametrize(
    ("ago", "is_met", "evidence"),
    [
        ((), True, "none of late"),
        ((3, 2, 1), True, "3 weeks without that break, overload last in 2026-W12"),
        ((4, 3, 2, 1), False, "4 weeks without that break, overload last in 2026-W12"),
        ((3, 2, 1, 0), False, "4 weeks without that break, overload last in 2026-W13"),
        ((6, 5, 4, 3), True, "none of late"),
        ((6, 4, 2), False, "6 weeks without that break, overload last in 2026-W11"),
    ],
)
def test_overload_asks_for_its_break(ago: Sequence[int], is_met: bool, evidence: str) -> None:
    this = IsoWeek.of(TODAY)

    found = overload(overloaded=[this.before(weeks) for weeks in ago])

    [rest] = [one for one in found.criteria if one.name == "break from overload"]
    assert (rest.is_met, rest.evidence) == (is_met, evidence)
    assert bool(rest.missing) is not is_met
    assert found.is_ready is is_met


@pytest.mark.parametrize(
    ("maxes", "count"),
    [
        ([], 2),
        ([known_max("lifted", "100 kg")], 1),
        ([known_max("lifted", "100 kg", days_ago=85), known_max("lowered", "110 kg")], 1),
        ([known_max("lifted", "100 kg", days_ago=84), known_max("lowered", "110 kg")], 0),
    ],
)
def test_overload_asks_for_both_maxes_not_too_old(maxes: Sequence[KnownMax], count: int) -> None:
    assert len(missing(overload(maxes=maxes))) == count


@pytest.mark.parametrize("word", [None, False])
def test_overload_asks_for_the_coach_s_word(word: bool | None) -> None:
    assert missing(overload(is_cleared=word)) == ["the coach's word, in the plan"]


@pytest.mark.parametrize(("lowered", "gap"), [("109 kg", "1.0 kg more"), ("100 kg", "10.0 kg")])
def test_fast_lowering_asks_for_a_reserve_and_says_what_is_missing(lowered: str, gap: str) -> None:
    found = fast(maxes=[known_max("lifted", "100 kg"), known_max("lowered", lowered)])

    assert not found.is_ready
    assert gap in missing(found)[0]


def test_a_reserve_of_just_the_stated_ratio_is_enough() -> None:
    assert fast(maxes=[known_max("lifted", "100 kg"), known_max("lowered", "110 kg")]).is_ready


@pytest.mark.parametrize(("lifted", "lowered"), [(10, 85), (85, 10), (400, 400)])
def test_an_old_reserve_is_none_for_fast_lowering(lifted: int, lowered: int) -> None:
    old = [
        known_max("lifted", "100 kg", days_ago=lifted),
        known_max("lowered", "112.5 kg", days_ago=lowered),
    ]

    assert missing(fast(maxes=old)) == ["a newer reserve test"]


def test_all_criteria_are_the_coach_s_to_change() -> None:
    rules = DosingRules(ready_weeks=1, ready_max_weeks=1, ready_lower_s=2)

    found = overload([weeks_ago(0, tempo=parse_tempo("2-0-X-0"))], rules=rules)

    assert [one.is_met for one in found.criteria[:1]] == [True]
    assert [one.is_met for one in found.criteria[2:4]] == [False, False]
