from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.facts import SetDone
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.next_week import LADDER, next_week
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.proposed_lines import ProposedLine, Step
from tempo_coach.core.season_table import LOAD, SECONDS, WeekLimit
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.tempo import Allowances, parse_tempo
from tempo_coach.core.work import PhaseTimes
from tests.tempo_coach.core.done_sets import MONDAY, done_set, seconds


def sets_of(count: int, **changes: Any) -> list[SetDone]:
    """Return sets of five front squats with 80 kg at 4-1-X-1: 20 s of lowering each."""
    return [
        done_set(id=f"{number}", started_at=MONDAY + timedelta(minutes=5 * number), **changes)
        for number in range(count)
    ]


def proposed(
    last: Sequence[SetDone],
    *,
    limit_s: float | None = None,
    limits: Sequence[WeekLimit] = (),
    rules: DosingRules | None = None,
    earlier: Sequence[SetDone] = (),
    overloads: Sequence[SetDone] = (),
    may_overload: bool = True,
    measured: Mapping[str, SetMeasured] = NONE_MEASURED,
) -> list[ProposedLine]:
    return list(
        next_week(
            last,
            earlier=earlier,
            limits=[*limits, *([] if limit_s is None else [WeekLimit(limit_s, SECONDS)])],
            rules=rules or DosingRules(),
            overloads=overloads,
            may_overload=lambda _: may_overload,
            allowances=Allowances(),
            measured=measured,
        )
    )


def steps(lines: Sequence[ProposedLine]) -> list[tuple[Step, str | None]]:
    return [(one.step, None if one.line is None else str(one.line)) for one in lines]


def test_work_that_was_done_as_written_is_kept() -> None:
    assert steps(proposed(sets_of(4))) == [(Step.KEEP, "front squat 4x5 @ 80 kg 4-1-X-1")]


def tapped(done: SetDone, *lowers_ms: int) -> dict[str, SetMeasured]:
    reps = [MeasuredRep(lower_ms, 1000, 800, None) for lower_ms in lowers_ms]
    return {done.id: SetMeasured.of(done.id, reps, times=PhaseTimes(), by="tapped", at=MONDAY)}


@pytest.mark.parametrize(
    ("load", "lighter"), [("80 kg", "75 kg"), ("175 lb", "165 lb"), ("72%", "67.5%")]
)
def test_a_line_whose_lower_fell_short_gets_less_load(load: str, lighter: str) -> None:
    last = sets_of(3, load_as_written=load)

    (one,) = proposed(last, measured=tapped(last[2], 3000, 3100, 3200, 4000, 4000))

    assert steps([one]) == [(Step.CHANGE, f"front squat 3x5 @ {lighter} 4-1-X-1")]
    assert one.reason == "too heavy for its tempo: 3 of 5 measured lowers fell short"


@pytest.mark.parametrize("load", ["bw+10 kg", "", "2.5 kg"])
def test_where_less_load_can_t_be_worked_out_it_is_asked_for(load: str) -> None:
    last = sets_of(3, load_as_written=load)

    (one,) = proposed(last, measured=tapped(last[0], 3000))

    assert one.step is Step.KEEP
    assert one.reason.endswith("take less load")


def test_a_lower_that_was_kept_changes_nothing() -> None:
    last = sets_of(3)

    assert proposed(last, measured=tapped(last[0], 3900, 4100)) == proposed(last)


def test_every_proposed_line_reads_as_itself() -> None:
    last = [*sets_of(3), *sets_of(2, exercise="chin-up", lead="raise", load_as_written="bw")]

    for one in proposed(last, limit_s=200):
        assert one.line is not None
        assert parse_prescription(str(one.line)) == one.line


def test_reps_that_are_missing_cost_a_set() -> None:
    [one] = proposed([*sets_of(2), *sets_of(1, reps_done=3)])

    assert (one.step, one.line and one.line.sets) == (Step.CUT, 2)
    assert "not every rep" in one.reason


def test_an_effort_without_a_rep_left_costs_a_set() -> None:
    [one] = proposed(sets_of(3, effort=10.0))

    assert (one.step, one.line and one.line.sets) == (Step.CUT, 2)


def test_a_single_hard_set_asks_for_less_load_instead() -> None:
    [one] = proposed(sets_of(1, effort=10.0))

    assert (one.step, one.line and one.line.sets) == (Step.KEEP, 1)
    assert "less load" in one.reason


def test_easy_work_gets_a_set_where_the_limit_has_room() -> None:
    [one] = proposed(sets_of(4, effort=7.0), limit_s=100)

    assert (one.step, one.line and one.line.sets) == (Step.ADD, 5)
    assert proposed(sets_of(4, effort=7.0), limit_s=99)[0].step is Step.KEEP
    assert proposed(sets_of(4, effort=9.0), limit_s=200)[0].step is Step.KEEP


def test_over_the_limit_the_hardest_line_is_cut_first() -> None:
    easy = sets_of(3, effort=7.0)
    hard = sets_of(3, effort=9.0, exercise="nordic curl")

    lines = proposed([*easy, *hard], limit_s=70)

    assert [(one.step, one.line and one.line.sets) for one in lines] == [
        (Step.KEEP, 3),
        (Step.CUT, None),
    ]
    assert "over the limit of 70 s" in lines[1].reason


def test_the_limits_of_load_and_of_a_group_are_kept_too() -> None:
    squats = sets_of(4, effort=7.0)
    curls = sets_of(3, effort=8.0, exercise="nordic curl")
    of_load, of_group = WeekLimit(9_700.0, LOAD), WeekLimit(45.0, SECONDS, "knee flexors")

    over_load = proposed([*squats, *curls], limits=[of_load])
    over_group = proposed([*squats, *curls], limit_s=200, limits=[of_group])

    assert steps(over_load)[1] == (Step.CUT, "nordic curl 2x5 @ 80 kg 4-1-X-1")
    assert over_load[1].reason == "1,500 kg·s over the limit of 9,700 kg·s"
    assert [one.step for one in over_group] == [Step.ADD, Step.CUT]
    assert over_group[0].reason == "easy at an effort of 7, and within 200 s"
    assert over_group[1].reason == "15 s over the limit of 45 s for knee flexors"


def test_a_limit_of_load_leaves_no_room_for_a_set_that_the_seconds_would_have() -> None:
    easy = sets_of(4, effort=7.0)

    [one] = proposed(easy, limit_s=200, limits=[WeekLimit(7_000.0, LOAD)])

    assert one.step is Step.KEEP


def test_a_quicker_tempo_of_the_ladder_takes_nothing_of_a_limit_once_it_is_ordinary() -> None:
    learnt = sets_of(3, tempo=parse_tempo(LADDER[2]), effort=6.0)

    [one] = proposed(learnt, limit_s=0)

    assert (one.step, one.line and str(one.line.tempo)) == (Step.CHANGE, LADDER[3])


def test_in_season_all_emphasis_goes_and_ordinary_work_stays() -> None:
    ordinary = sets_of(3, exercise="row", tempo=parse_tempo("2-0-1-1"), lead="raise")

    lines = proposed([*sets_of(3), *ordinary], limit_s=0)

    assert [one.step for one in lines] == [Step.CUT, Step.KEEP]
    assert lines[0].line is None


def test_overload_that_is_not_ready_is_left_out() -> None:
    over = sets_of(2, load_kg=110.0)

    [one] = proposed(over, overloads=over, may_overload=False)

    assert (one.step, one.line) == (Step.CUT, None)
    assert "not ready" in one.reason
    assert proposed(over, overloads=over)[0].step is Step.KEEP
    assert proposed(over, may_overload=False)[0].step is Step.KEEP


def test_a_new_lift_climbs_the_ladder_of_tempos() -> None:
    learnt = sets_of(3, tempo=parse_tempo(LADDER[0]), effort=6.0)

    [one] = proposed(learnt)

    assert one.step is Step.CHANGE
    assert one.line is not None
    assert str(one.line.tempo) == LADDER[1]


@pytest.mark.parametrize(
    ("changes", "earlier"),
    [
        ({"effort": 9.0}, ()),
        ({"effort": 6.0, "reps_done": 4}, ()),
        ({"effort": None}, ()),
        ({"effort": 6.0}, (done_set(started_at=MONDAY - timedelta(days=60)),)),
    ],
)
def test_a_lift_that_is_hard_missed_untold_or_old_stays_on_its_rung(
    changes: dict[str, Any], earlier: Sequence[SetDone]
) -> None:
    [one] = proposed(sets_of(3, tempo=parse_tempo(LADDER[0]), **changes), earlier=earlier)

    assert one.step is not Step.CHANGE


def test_a_lift_on_the_last_rung_has_arrived() -> None:
    [one] = proposed(sets_of(3, tempo=parse_tempo(LADDER[-1]), effort=6.0))

    assert one.step is Step.KEEP


@given(
    st.lists(
        st.tuples(st.integers(1, 5), st.none() | st.sampled_from((6.0, 8.0, 9.0, 10.0))),
        min_size=1,
        max_size=4,
    ),
    st.floats(0, 500),
)
def test_a_proposal_never_holds_more_than_the_limit(
    work: list[tuple[int, float | None]], limit_s: float
) -> None:
    last = [
        one
        for number, (count, effort) in enumerate(work)
        for one in sets_of(count, exercise=f"squat {number}", effort=effort)
    ]

    lines = proposed(last, limit_s=limit_s)

    assert sum(20 * one.line.sets for one in lines if one.line is not None) <= round(limit_s)
    assert len(lines) == len(work)


def test_each_day_has_its_own_lines() -> None:
    thursday = [
        one.model_copy(
            update={"id": f"t{one.id}", "started_at": one.started_at + timedelta(days=3)}
        )
        for one in sets_of(2)
    ]

    lines = proposed([*sets_of(3), *thursday])

    assert [(one.day.weekday(), one.line and one.line.sets) for one in lines] == [(0, 3), (3, 2)]


def test_no_work_gives_no_proposal() -> None:
    assert proposed([]) == []


def test_lowers_that_another_program_measured_as_a_whole_count_too() -> None:
    [one] = proposed(sets_of(2, timing="trace", seconds=seconds(lower=15.0)))

    assert (one.step, one.line and str(one.line.load)) == (Step.CHANGE, "75 kg")
    assert one.reason.startswith("too heavy for its tempo: 10 of 10")
