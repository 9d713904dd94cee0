from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.tap_pieces import TapPoints, tap_pieces
from tempo_coach.core.tap_reading import TAPPED, TapReading, read_taps
from tempo_coach.core.tempo import Phase
from tempo_coach.core.timeline import Timeline

SQUATS = "front squat 1x3 @ 80 kg 4-1-2-1"
LATE_MS = 200


def timeline_of(line: str) -> Timeline:
    return Timeline.of(parse_prescription(line))


def taps_after(*lengths_ms: int, setup_ms: int = 10_000) -> list[int]:
    """Return taps with so much time between them, each as late as the first."""
    return list(accumulate(lengths_ms, initial=setup_ms + LATE_MS))


def read(
    taps_ms: Sequence[int],
    *,
    line: str = SQUATS,
    points: TapPoints = TapPoints.PHASES,
    reps: int | None = None,
) -> TapReading:
    timeline = timeline_of(line)
    reps = timeline.reps if reps is None else reps
    return read_taps(taps_ms, timeline=timeline, points=points, reps=reps)


REP = (3700, 1100, 1800, 1400)


def test_a_phase_lasted_from_its_tap_to_the_next_whatever_all_taps_are_late_by() -> None:
    reading = read(taps_after(*REP * 3))

    assert reading.reps == (MeasuredRep(3700, 1100, 1800, 1400),) * 3
    assert (reading.doubled, reading.stray, reading.missed) == (0, 0, 0)
    assert list(reading.sentences()) == [TAPPED]


def test_a_lift_that_begins_with_the_raise_is_tapped_in_its_own_order() -> None:
    reading = read(taps_after(1800, 1400, 3700, 1100), line="deadlift 1x1 4-1-2-1", reps=1)

    assert reading.reps == (MeasuredRep(3700, 1100, 1800, 1400),)


def test_a_phase_of_no_length_is_not_tapped_and_lasted_nothing() -> None:
    reading = read(taps_after(3700, 1800), line="front squat 1x1 4-0-2-0", reps=1)

    assert reading.reps == (MeasuredRep(3700, 0, 1800, 0),)


def test_at_bottom_and_top_alone_the_holds_are_taken_to_last_as_paced() -> None:
    # The pause of 1 s is in the 2.8 s to the top, the top of 1 s in the 4.7 s to the bottom.
    reading = read(taps_after(3700, 2800, 4700, 2800, 4700, 2800), points=TapPoints.TURNS)

    assert reading.reps == (MeasuredRep(3700, None, 1800, None),) * 3
    assert reading.missed == 0


def test_stops_on_the_way_down_are_taken_to_last_as_paced() -> None:
    line = "front squat 1x1 4-1-2-1 stop 2 s at 1/2"

    reading = read(taps_after(5700, 1100, 1800, 1400), line=line, reps=1)

    assert reading.reps == (MeasuredRep(3700, None, 1800, 1400),)


def test_a_missing_tap_leaves_the_phases_beside_it_unmeasured() -> None:
    taps = taps_after(*REP * 3)
    del taps[5]  # the second bottom

    reading = read(taps)

    assert reading.missed == 1
    assert reading.reps[1] == MeasuredRep(None, None, 1800, 1400)
    assert reading.reps[::2] == (MeasuredRep(3700, 1100, 1800, 1400),) * 2
    assert "1 turning point was not tapped; the phases beside count as paced." in list(
        reading.sentences()
    )


def test_a_tap_right_behind_another_is_left_out_and_said() -> None:
    taps = taps_after(*REP * 3)

    reading = read(sorted([*taps, taps[4] + 90]))

    assert reading.reps == (MeasuredRep(3700, 1100, 1800, 1400),) * 3
    assert next(reading.sentences()) == "Left out: 1 tap right behind another."


def test_a_tap_in_the_middle_of_a_phase_is_left_out_and_said() -> None:
    taps = taps_after(*REP * 3)

    reading = read(sorted([*taps, taps[4] + 1900]))

    assert reading.reps == (MeasuredRep(3700, 1100, 1800, 1400),) * 3
    assert next(reading.sentences()) == "Left out: 1 tap at no turning point."


def test_a_lifter_who_falls_more_than_a_rep_behind_the_track_is_still_read() -> None:
    line = "front squat 1x10 @ 60 kg 2-0-1-0"

    reading = read(taps_after(*(2200, 1300) * 10), line=line)

    assert reading.reps == (MeasuredRep(2200, 0, 1300, 0),) * 10


@pytest.mark.parametrize("last_ms", [2000, 3600])
def test_taps_of_a_rep_that_was_broken_off_are_not_stray(last_ms: int) -> None:
    reading = read(taps_after(*REP, last_ms), reps=1)

    assert reading.reps == (MeasuredRep(3700, 1100, 1800, 1400),)
    assert (reading.stray, reading.missed) == (0, 0)


@pytest.mark.parametrize("taps", [[], [10_200], [3_000, 3_400]])
def test_too_few_taps_measure_nothing_and_say_so(taps: list[int]) -> None:
    reading = read(taps)

    assert reading.lowers == 0
    assert "The taps measure no lower: the set counts as paced." in list(reading.sentences())


@given(
    st.lists(st.integers(0, 40_000), max_size=40).map(sorted),
    st.sampled_from(TapPoints),
    st.integers(0, 3),
)
def test_every_tap_is_read_or_left_out_and_nothing_lasts_less_than_no_time(
    taps: list[int], points: TapPoints, reps: int
) -> None:
    reading = read(taps, points=points, reps=reps)

    assert len(reading.reps) == reps
    assert reading.doubled + reading.stray <= len(taps)
    assert all(
        spent is None or spent >= 0
        for rep in reading.reps
        for spent in (rep.lower_ms, rep.pause_ms, rep.raise_ms, rep.top_ms)
    )


@pytest.mark.parametrize(
    "line",
    [
        "front squat 1x8 3-0-1-0",
        "bench press 1x6 5-0-2-0",
        "deadlift 1x5 4-1-2-1",
        "front squat 1x10 2-0-X-0",
        "front squat 1x3 10-0-V-2",
        "front squat 1x12 2-1-1-1",
    ],
)
@pytest.mark.parametrize("seed", range(4))
def test_every_phase_of_sets_as_people_do_them_is_told_within_the_taps_own_scatter(
    line: str, seed: int
) -> None:
    # Lowers scatter by 5 % (metronome-paced: CV 4.0 to 6.4 %, bench press metronome study, 15
    # subjects, 2009) and lose a third over the set; taps scatter by 0.05 s (from memory).
    random = Random(seed)  # noqa: S311 - the same sets in every run, nothing secret
    timeline = timeline_of(line)
    at_ms, taps, truth = float(timeline.setup_ms), [], []
    for rep in range(timeline.reps):
        lasted: dict[Phase, float] = {}
        for span in timeline.spans:
            taps.append(round(at_ms + random.gauss(LATE_MS, 50)))
            share = random.gauss(1, 0.05)
            if span.phase is Phase.LOWER:
                share *= 1 - rep / timeline.reps / 3
            elif span.speed is not None:
                share = random.uniform(0.6, 1.6)
            lasted[span.phase] = span.lasts_ms * share
            at_ms += lasted[span.phase]
        truth.append(lasted)
    taps.append(round(at_ms + random.gauss(LATE_MS, 50)))

    reading = read(taps, line=line)

    assert (reading.doubled, reading.stray, reading.missed) == (0, 0, 0)
    for found, lasted in zip(reading.reps, truth, strict=True):
        for phase, lasted_ms in lasted.items():
            assert found.of(phase) == pytest.approx(lasted_ms, abs=300)


@given(st.sampled_from(TapPoints), st.integers(1, 3))
def test_pieces_are_the_track_cut_at_its_turning_points(points: TapPoints, reps: int) -> None:
    timeline = timeline_of(SQUATS)
    pieces = tap_pieces(timeline, points, reps=reps)
    whole_ms = reps * timeline.rep_ms - (1000 if points is TapPoints.TURNS else 0)

    assert sum(one.lasts_ms for one in pieces) == whole_ms
    assert [one.rep for one in pieces] == sorted(one.rep for one in pieces)
