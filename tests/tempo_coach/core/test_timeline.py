from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.prescription import Prescription, parse_prescription
from tempo_coach.core.tempo import Allowances, Phase, Speed
from tempo_coach.core.timeline import Cue, CueKind, Moment, Timeline, rep_times
from tempo_coach.core.work import PhaseTimes, WorkDone
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core.strategies import prescriptions, timelines

READY, PHASE, COUNT, END = CueKind.READY, CueKind.PHASE, CueKind.COUNT, CueKind.END
LOWER, PAUSE, RAISE, TOP = Phase


def timeline(line: str, *, setup_ms: int = 10_000) -> Timeline:
    return Timeline.of(parse_prescription(line), setup_ms=setup_ms)


def times(line: str) -> PhaseTimes:
    laid_out = timeline(line)
    return laid_out.done_by(laid_out.length_ms).times


def positions(cues: list[Cue]) -> list[tuple[int, CueKind, Phase | None, int | None]]:
    return [(cue.at_ms, cue.kind, cue.span.phase if cue.span else None, cue.second) for cue in cues]


# Published time under tension.


@pytest.mark.parametrize("line", ["squat 1x10 4-0-2-0", "squat 1x20 2-0-1-0"])
def test_mang_sets_last_60_s_with_40_s_of_lowering(line: str) -> None:
    # Mang and others 2022, Eur J Appl Physiol 122:1485: 10 reps of 4 s down and 2 s up against
    # 20 of 2 s and 1 s, 60 s each; the lowering is computed from the same lengths.
    assert timeline(line).lifting_ms == 60_000
    assert times(line).tension_ms == 60_000
    assert times(line).lower_ms == 40_000


@pytest.mark.parametrize("line", ["bench press 1x6 3-0-3-0", "bench press 1x12 1.5-0-1.5-0"])
def test_lacerda_sets_last_36_s(line: str) -> None:
    # Lacerda and others 2016, JSCR 30:251, 10.1519/JSC.0000000000001044: 6 reps of 6 s against
    # 12 reps of 3 s, 36 s each.
    assert times(line).tension_ms == 36_000


@pytest.mark.parametrize(
    "line", ["leg press 1x10 4-0-2-1 lead raise", "leg press 1x5 4-0-10-0 lead raise"]
)
def test_westcott_sets_last_70_s(line: str) -> None:
    # Westcott and others 2001, J Sports Med Phys Fitness 41:154: lift, pause, lower; 10 reps of
    # 2 + 1 + 4 s against 5 of 10 + 4 s, 70 s each, the pause counted.
    laid_out = timeline(line)
    assert laid_out.lifting_ms == 70_000
    assert laid_out.spans[0].phase is RAISE
    assert times(line).tension_ms == 70_000


@pytest.mark.parametrize(
    ("lower_s", "lowering_s", "tension_s", "moving_s"),
    [(2, 48, 120, 96), (4, 96, 168, 144), (6, 144, 216, 192)],
)
def test_mike_sessions_have_their_lowering_and_tension(
    lower_s: int, lowering_s: int, tension_s: int, moving_s: int
) -> None:
    # Mike and others 2017, JSCR 31:773, 10.1519/jsc.0000000000001675: 4 sets of 6 reps, 2 s up,
    # 1 s pause, 2, 4 or 6 s down; the sums are computed from these lengths.
    line = f"squat 4x6 {lower_s}-1-2-0"
    session = times(line).times(parse_prescription(line).sets)
    assert session.lower_ms == lowering_s * 1000
    assert session.tension_ms == tension_s * 1000
    assert session.moving_ms == moving_s * 1000


def test_a_stasinaki_session_has_120_s_of_lowering() -> None:
    # Stasinaki and others 2019, Sports 7:41: lowering-only squats, 5 x 6, about 4 s each; the sum
    # is computed from these numbers.
    line = "squat 5x6 @ 90% 4-0-A-0"
    assert times(line).times(parse_prescription(line).sets).lower_ms == 120_000


def test_pauses_count_as_tension_unless_left_out() -> None:
    # 10 reps of 3-1-2-0, computed: 60 s with the pause, which Lu, Du and Zhou 2023, J Hum Kinet
    # 87:157, 10.5114/jhk/161472, count; 50 s without, as in Martins-Costa and others 2016, Motriz,
    # 10.1590/S1980-65742016000100005.
    done = times("squat 1x10 3-1-2-0")
    assert (done.tension_ms, done.moving_ms) == (60_000, 50_000)


# Cues.


def test_every_cue_of_a_set_has_its_place() -> None:
    cues = list(timeline("front squat 1x2 4-1-X-1").cues())
    assert positions(cues) == [
        (7000, READY, None, 3),
        (8000, READY, None, 2),
        (9000, READY, None, 1),
        (10_000, PHASE, LOWER, None),
        (11_000, COUNT, LOWER, 2),
        (12_000, COUNT, LOWER, 3),
        (13_000, COUNT, LOWER, 4),
        (14_000, PHASE, PAUSE, None),
        (15_000, PHASE, RAISE, None),
        (16_000, PHASE, TOP, None),
        (17_000, PHASE, LOWER, None),
        (18_000, COUNT, LOWER, 2),
        (19_000, COUNT, LOWER, 3),
        (20_000, COUNT, LOWER, 4),
        (21_000, PHASE, PAUSE, None),
        (22_000, PHASE, RAISE, None),
        (23_000, PHASE, TOP, None),
        (24_000, END, None, None),
    ]
    assert [cue.rep for cue in cues] == [None] * 3 + [1] * 7 + [2] * 7 + [None]


def test_decimals_shift_what_follows_to_the_millisecond() -> None:
    cues = timeline("squat 1x2 2.5-0.25-1.125-0", setup_ms=3000).cues()
    assert positions(list(cues)) == [
        (0, READY, None, 3),
        (1000, READY, None, 2),
        (2000, READY, None, 1),
        (3000, PHASE, LOWER, None),
        (4000, COUNT, LOWER, 2),
        (5000, COUNT, LOWER, 3),
        (5500, PHASE, PAUSE, None),
        (5750, PHASE, RAISE, None),
        (6875, PHASE, LOWER, None),
        (7875, COUNT, LOWER, 2),
        (8875, COUNT, LOWER, 3),
        (9375, PHASE, PAUSE, None),
        (9625, PHASE, RAISE, None),
        (10_750, END, None, None),
    ]


def test_a_rep_that_begins_with_the_raise_goes_raise_top_lower_pause() -> None:
    cues = timeline("deadlift 1x1 3-1-X-2").cues()
    assert [(cue.at_ms, cue.span.phase) for cue in cues if cue.span and cue.kind is PHASE] == [
        (10_000, RAISE),
        (11_000, TOP),
        (13_000, LOWER),
        (16_000, PAUSE),
    ]


def test_a_phase_of_length_zero_has_no_cue() -> None:
    laid_out = timeline("squat 1x3 0-0-2-0")
    assert [span.phase for span in laid_out.spans] == [RAISE]
    assert {cue.span.phase for cue in laid_out.cues() if cue.span} == {RAISE}


def test_a_phase_by_speed_lasts_its_allowance_and_says_so() -> None:
    laid_out = Timeline.of(
        parse_prescription("squat 1x1 V-0-X-0"), allowances=Allowances(fast_ms=700, own_ms=2200)
    )
    assert [(span.speed, span.starts_ms, span.lasts_ms) for span in laid_out.spans] == [
        (Speed.OWN, 0, 2200),
        (Speed.FAST, 2200, 700),
    ]


@pytest.mark.parametrize(
    ("lower", "seconds"), [("1.999", []), ("2", [2]), ("2.5", [2, 3]), ("3", [2, 3])]
)
def test_whole_seconds_are_counted_inside_a_phase_of_2_s_or_more(
    lower: str, seconds: list[int]
) -> None:
    cues = timeline(f"squat 1x1 {lower}-0-1-0").cues()
    assert [cue.second for cue in cues if cue.kind is COUNT] == seconds


def test_the_first_cue_of_the_last_rep_is_marked_and_no_other() -> None:
    cues = list(timeline("squat 1x3 4-1-X-1").cues())
    assert [(cue.at_ms, cue.kind, cue.rep) for cue in cues if cue.last_rep] == [(24_000, PHASE, 3)]


def test_a_single_rep_is_the_last() -> None:
    cues = timeline("squat 1x1 4-1-X-1").cues()
    assert [cue.at_ms for cue in cues if cue.last_rep] == [10_000]


def test_an_open_ended_set_has_room_for_100_reps_and_no_last_one() -> None:
    laid_out = timeline("squat 1xmax 2-0-1-0")
    assert laid_out.open_ended
    assert laid_out.reps == 100
    assert not any(cue.last_rep for cue in laid_out.cues())


def test_an_open_ended_set_of_long_reps_has_room_for_ten_minutes() -> None:
    laid_out = timeline("squat 1xmax 60-0-31-0")
    assert (laid_out.reps, laid_out.lifting_ms) == (6, 546_000)


@given(timelines)
def test_cues_are_ordered_inside_and_end_with_the_lifting(laid_out: Timeline) -> None:
    cues = list(laid_out.cues())
    assert all(one.at_ms < next_one.at_ms for one, next_one in pairwise(cues))
    assert cues[0].at_ms == laid_out.setup_ms - 3000 >= 0
    assert cues[-1] == Cue(laid_out.setup_ms + laid_out.lifting_ms, END)
    assert laid_out.lifting_ms == laid_out.reps * sum(span.lasts_ms for span in laid_out.spans)


# Where a moment is.


@given(timelines)
def test_a_moment_agrees_with_the_cue_that_sounds_there(laid_out: Timeline) -> None:
    for cue in laid_out.cues():
        moment = laid_out.at(cue.at_ms)
        if cue.span is None:
            assert moment is None
        else:
            assert moment is not None
            assert (moment.rep, moment.span) == (cue.rep, cue.span)
            assert moment.elapsed_ms == ((cue.second or 1) - 1) * 1000
            assert moment.second == (cue.second or 1)


def test_a_moment_is_nowhere_before_the_first_rep_and_after_the_last() -> None:
    laid_out = timeline("squat 1x2 4-1-X-1")
    assert laid_out.at(-1) is None
    assert laid_out.at(9999) is None
    assert laid_out.at(10_000) == Moment(1, laid_out.spans[0], 0)
    assert laid_out.at(23_999) == Moment(2, laid_out.spans[3], 999)
    assert laid_out.at(24_000) is None


@pytest.mark.parametrize(
    ("at_ms", "height"),
    [(10_000, 1.0), (11_000, 0.75), (14_500, 0.0), (15_500, 0.5), (16_500, 1.0)],
)
def test_the_bar_goes_down_stays_comes_up_and_stays(at_ms: int, height: float) -> None:
    moment = timeline("squat 1x1 4-1-1-1").at(at_ms)
    assert moment is not None
    assert moment.height == height


# What was done.


@given(timelines, st.lists(st.integers(-5000, 700_000), min_size=2, max_size=6))
def test_work_only_grows_and_adds_up_to_the_time_that_elapsed(
    laid_out: Timeline, moments: list[int]
) -> None:
    works = [laid_out.done_by(at_ms) for at_ms in sorted(moments)]
    for at_ms, work in zip(sorted(moments), works, strict=True):
        elapsed_ms = min(max(at_ms - laid_out.setup_ms, 0), laid_out.lifting_ms)
        if all(span.counts for span in laid_out.spans):
            assert work.times.tension_ms == elapsed_ms
        assert work.times.tension_ms <= elapsed_ms
        assert work.reps == elapsed_ms // laid_out.rep_ms
    for earlier, later in pairwise(works):
        assert earlier.reps <= later.reps
        assert all(earlier.times.of(phase) <= later.times.of(phase) for phase in Phase)


@given(prescriptions())
def test_a_whole_set_is_reps_times_tempo_exactly(prescription: Prescription) -> None:
    rep = rep_times(prescription.tempo, Allowances(), prescription.shape)
    laid_out = Timeline.of(prescription)
    assert laid_out.done_by(laid_out.length_ms) == WorkDone(laid_out.reps, rep.times(laid_out.reps))


def test_a_rep_that_is_broken_off_counts_as_far_as_it_went() -> None:
    laid_out = timeline("squat 1x5 4-1-X-1")
    assert laid_out.done_by(10_000 + 7000 + 4500) == WorkDone(
        1, PhaseTimes(lower_ms=8000, pause_ms=1500, raise_ms=1000, top_ms=1000)
    )


def test_a_rep_that_begins_with_the_raise_and_is_broken_off_has_no_lowering() -> None:
    work = timeline("deadlift 1x5 3-1-2-1").done_by(10_000 + 2500)
    assert work == WorkDone(0, PhaseTimes(raise_ms=2000, top_ms=500))


# Bounds.


@pytest.mark.parametrize("setup_ms", [3000, 60_000])
def test_the_time_before_the_first_rep_may_be_3_to_60_s(setup_ms: int) -> None:
    assert timeline("squat 1x5 41X1", setup_ms=setup_ms).setup_ms == setup_ms


@pytest.mark.parametrize(("setup_ms", "said"), [(2999, "2.999 s"), (60_001, "60.001 s")])
def test_any_other_time_before_the_first_rep_is_refused(setup_ms: int, said: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        timeline("squat 1x5 41X1", setup_ms=setup_ms)
    assert caught.value.message == f"{said} before the first rep is not possible"
    assert caught.value.hint == "3 to 60 s"


def test_a_set_of_ten_minutes_is_accepted() -> None:
    assert timeline("squat 1x100 4-0-2-0").lifting_ms == 600_000


def test_a_longer_set_is_refused_with_the_most_reps_there_is_room_for() -> None:
    with pytest.raises(OutOfRange) as caught:
        timeline("squat 1x90 4-1-X-1")
    assert "90 reps of 7 s take 630 s" in caught.value.message
    assert caught.value.hint == "at most 85 reps at this tempo"
    assert timeline("squat 1x85 4-1-X-1").reps == 85


# The shape of a rep.


def test_the_raise_of_lowering_only_is_paced_but_is_no_work_of_the_lifter() -> None:
    laid_out = timeline("bench press 1x3 @ 110% 5-0-A-0 lowering only")

    assert laid_out.lifting_ms == 24_000
    assert times("bench press 1x3 5-0-A-0 lowering only") == PhaseTimes(lower_ms=15_000)
    assert [span.counts for span in laid_out.spans] == [True, False]


def test_the_lower_of_raise_only_is_no_work_of_the_lifter() -> None:
    assert times("pin press 1x3 2-0-X-1 raise only") == PhaseTimes(raise_ms=3000, top_ms=3000)


def test_stops_cut_the_lower_into_parts_that_add_up_to_it() -> None:
    laid_out = timeline("dip 1x2 5-0-1-0 stop 2 s at 1/3 2/3")

    assert [(s.phase, s.starts_ms, s.lasts_ms, s.is_stop) for s in laid_out.spans] == [
        (LOWER, 0, 1667, False),
        (PAUSE, 1667, 2000, True),
        (LOWER, 3667, 1666, False),
        (PAUSE, 5333, 2000, True),
        (LOWER, 7333, 1667, False),
        (RAISE, 9000, 1000, False),
    ]
    assert laid_out.done_by(laid_out.length_ms).times == PhaseTimes(10_000, 8000, 2000, 0)


def test_the_bar_stands_still_where_it_is_stopped() -> None:
    laid_out = timeline("dip 1x1 6-0-1-0 stop 2 s at 1/4")

    heights = [laid_out.at(10_000 + at_ms) for at_ms in (750, 1500, 3499, 3500, 5750)]

    assert [moment and moment.height for moment in heights] == [0.875, 0.75, 0.75, 0.75, 0.375]


def test_the_sides_take_turns_and_the_left_is_first() -> None:
    cues = list(timeline("split squat 1x3 4-0-1-0 sides alternating").cues())

    turns = [(cue.rep, cue.side) for cue in cues if cue.side is not None]
    assert turns == [(1, "left"), (2, "right"), (3, "left")]
    assert all(cue.span and cue.span.phase is LOWER for cue in cues if cue.side)


def test_of_two_up_and_one_down_the_side_is_that_of_the_lower() -> None:
    laid_out = timeline("leg press 1x2 4-0-1-0 two up one down lead raise")

    sides = [(cue.at_ms, cue.side) for cue in laid_out.cues() if cue.side is not None]
    assert sides == [(11_000, "left"), (16_000, "right")]
    raising, lowering = laid_out.at(10_500), laid_out.at(11_500)
    assert raising is not None
    assert lowering is not None
    assert (raising.side, lowering.side) == (None, "left")
