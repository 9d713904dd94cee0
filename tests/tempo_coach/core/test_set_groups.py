from __future__ import annotations

from datetime import timedelta

from tempo_coach.core.set_groups import set_groups
from tempo_coach.core.tempo import Allowances, parse_tempo
from tests.tempo_coach.core.done_sets import MONDAY, done_set, seconds


def test_sets_asked_for_alike_on_one_day_share_a_row_in_the_order_they_were_done() -> None:
    # Mike and others 2017, JSCR 31:773, 10.1519/jsc.0000000000001675: 4 sets of 6 reps that
    # lower for 4 s come to 96 s.
    sets = [
        done_set(id=str(number), tempo=parse_tempo("4-1-2-0"), reps_prescribed=6,
                 reps_done=6 - number, seconds=seconds(lower=24 - 4 * number),
                 started_at=MONDAY + timedelta(minutes=number))
        for number in range(4)
    ]  # fmt: skip

    (group,) = set_groups(reversed(sets), allowances=Allowances())

    assert [one.reps_done for one in group.sets] == [6, 5, 4, 3]
    assert group.lower_prescribed_ms == 96_000
    assert group.done.times.lower_ms == 72_000


def test_another_load_or_another_day_has_a_row_of_its_own() -> None:
    sets = (
        done_set(id="1"),
        done_set(id="2", load_kg=85.0),
        done_set(id="3", started_at=MONDAY + timedelta(days=1)),
    )

    assert len(set_groups(sets, allowances=Allowances())) == 3


def test_a_set_that_ran_until_it_was_stopped_has_no_seconds_prescribed() -> None:
    (group,) = set_groups([done_set(reps_prescribed=None)], allowances=Allowances())

    assert group.lower_prescribed_ms is None


def test_a_lower_at_the_lifter_s_own_speed_is_prescribed_by_allowance() -> None:
    done = done_set(tempo=parse_tempo("V-0-1-0"), reps_prescribed=5)

    (group,) = set_groups([done], allowances=Allowances(own_ms=2_500))

    assert group.is_lower_by_allowance
    assert group.lower_prescribed_ms == 12_500
