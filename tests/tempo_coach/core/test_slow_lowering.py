from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from tempo_coach.core.criterion import Criterion
from tempo_coach.core.facts import SetDone
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.slow_lowering import slow_lowering_done, slow_lowering_on_tempo
from tempo_coach.core.work import PhaseTimes
from tests.tempo_coach.core.done_sets import done_set, seconds

TODAY = date(2026, 3, 27)
FRIDAY = datetime.fromisoformat("2026-03-27T18:00:00+01:00")


def weeks_ago(weeks: int, **changes: Any) -> SetDone:
    begun = FRIDAY - timedelta(weeks=weeks)
    return done_set(id=f"{weeks}", started_at=begun, ended_at=begun, **changes)


FOUR_WEEKS = [weeks_ago(weeks) for weeks in (3, 2, 1, 0)]


def done(sets: Sequence[SetDone], measured: Mapping[str, SetMeasured] = NONE_MEASURED) -> Criterion:
    return slow_lowering_done(sets, measured, DosingRules(), TODAY)


def on_tempo(
    sets: Sequence[SetDone], measured: Mapping[str, SetMeasured] = NONE_MEASURED
) -> Criterion:
    return slow_lowering_on_tempo(sets, measured, DosingRules(), TODAY)


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
    control = done([weeks_ago(back) for back in weeks])

    assert (control.is_met, control.evidence) == (False, evidence)
    assert control.missing == f"{missing_weeks} of slow lowering under control"


def test_paced_sets_measure_nothing_and_that_is_said() -> None:
    adherence = on_tempo(FOUR_WEEKS)

    assert adherence.is_met is None
    assert "nothing was measured" in adherence.evidence


@pytest.mark.parametrize(("lower_s", "is_met"), [(20.0, True), (17.5, True), (17.4, False)])
def test_measured_lowers_must_have_kept_their_time(lower_s: float, is_met: bool) -> None:
    # 5 lowers of 4 s: 6 % are 0.24 s, so that half a second each is what may be missing.
    measured = weeks_ago(
        0, timing="tapped", seconds=seconds(lower=lower_s, pause=5, raise_=5, top=5)
    )

    assert on_tempo([*FOUR_WEEKS, measured]).is_met is is_met


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
    last = weeks_ago(0, timing="tapped")

    adherence = on_tempo([*FOUR_WEEKS[:-1], last], tapped(last, *lowers_ms))

    assert (adherence.is_met, adherence.evidence) == (is_met, evidence)


def test_a_set_whose_lower_fell_short_shows_no_control() -> None:
    last = weeks_ago(0, timing="tapped")
    sets = [*FOUR_WEEKS[:-1], last]

    short = done(sets, tapped(last, 3000, 3000, 3000, 4000, 4000))
    kept = done(sets, tapped(last, 4000, 4000, 4000, 4000, 4000))

    assert [short.is_met, kept.is_met] == [False, True]
