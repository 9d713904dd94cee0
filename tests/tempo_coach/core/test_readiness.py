from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from tempo_coach.core.facts import SetDone, What
from tempo_coach.core.load import parse_load
from tempo_coach.core.maxes import KnownMax
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.readiness import Readiness, fast_readiness, overload_readiness
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.tempo import Phase, parse_tempo
from tempo_coach.core.weeks import IsoWeek
from tempo_coach.core.work import PhaseTimes
from tests.tempo_coach.core.done_sets import done_set, seconds

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
    measured: Mapping[str, SetMeasured] = NONE_MEASURED,
) -> Readiness:
    return overload_readiness(
        "Front Squat",
        sets=sets,
        maxes=maxes,
        rules=rules or DosingRules(),
        is_cleared=is_cleared,
        overloaded=overloaded,
        today=TODAY,
        measured=measured,
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
    ("weeks", "evidence", "missing_weeks"),
    [
        ((1, 0), "2 of the last 4", "2 weeks more"),
        ((3, 2, 0), "3 of the last 4, 1 in a row up to now", "3 weeks more"),
        ((3, 2), "2 of the last 4, 0 in a row up to now", "4 weeks more"),
        ((4, 3, 1), "3 of the last 4, 1 in a row up to now", "3 weeks more"),
        ((), "0 of the last 4", "4 weeks more"),
    ],
)
def test_after_a_week_without_the_weeks_in_a_row_begin_anew(
    weeks: Sequence[int], evidence: str, missing_weeks: str
) -> None:
    [control, *_] = overload([weeks_ago(back) for back in weeks]).criteria

    assert (control.is_met, control.evidence) == (False, evidence)
    assert control.missing == f"{missing_weeks} of slow lowering under control"


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


def test_paced_sets_measure_nothing_and_that_is_said() -> None:
    [_, adherence, *_] = overload().criteria

    assert adherence.is_met is None
    assert "nothing was measured" in adherence.evidence


@pytest.mark.parametrize(("lower_s", "is_met"), [(20.0, True), (17.5, True), (17.4, False)])
def test_measured_lowers_must_have_kept_their_time(lower_s: float, is_met: bool) -> None:
    # 5 lowers of 4 s: 6 % are 0.24 s, so that half a second each is what may be missing.
    measured = weeks_ago(
        0, timing="tapped", seconds=seconds(lower=lower_s, pause=5, raise_=5, top=5)
    )

    [_, adherence, *_] = overload([*FOUR_WEEKS, measured]).criteria

    assert adherence.is_met is is_met


def tapped(done: SetDone, *lowers_ms: int | None) -> dict[str, SetMeasured]:
    reps = [MeasuredRep(lower_ms, 1000, 800, None) for lower_ms in lowers_ms]
    measured = SetMeasured.of(done.id, reps, times=PhaseTimes(), by="tapped", at=FRIDAY)
    return {done.id: measured}


@pytest.mark.parametrize(
    ("lowers_ms", "is_met", "evidence"),
    [
        ((4000, 3900, 3800, 3600, 3400), True, "4 of 5 lowers in 1 set"),
        ((4000, 3900, 3800, 3400, 3400), False, "3 of 5 lowers in 1 set"),
        ((4000, None, None, None, None), True, "1 of 1 lower in 1 set"),
        ((9000,) * 5, True, "5 of 5 lowers in 1 set"),
    ],
)
def test_measured_lowers_are_counted_one_by_one(
    lowers_ms: tuple[int | None, ...], is_met: bool, evidence: str
) -> None:
    done = weeks_ago(0, timing="tapped")

    [_, adherence, *_] = overload(
        [*FOUR_WEEKS[:-1], done], measured=tapped(done, *lowers_ms)
    ).criteria

    assert (adherence.is_met, adherence.evidence) == (is_met, evidence)


def test_a_set_whose_lower_fell_short_shows_no_control() -> None:
    done = weeks_ago(0, timing="tapped")
    sets = [*FOUR_WEEKS[:-1], done]

    short = overload(sets, measured=tapped(done, 3000, 3000, 3000, 4000, 4000))
    kept = overload(sets, measured=tapped(done, 4000, 4000, 4000, 4000, 4000))

    assert [short.criteria[0].is_met, kept.criteria[0].is_met] == [False, True]


def test_all_criteria_are_the_coach_s_to_change() -> None:
    rules = DosingRules(ready_weeks=1, ready_max_weeks=1, ready_lower_s=2)

    found = overload([weeks_ago(0, tempo=parse_tempo("2-0-X-0"))], rules=rules)

    assert [one.is_met for one in found.criteria[:1]] == [True]
    assert [one.is_met for one in found.criteria[2:4]] == [False, False]
