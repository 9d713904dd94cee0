from __future__ import annotations

import numpy as np
import pytest

from sounds_gen import named
from sounds_gen.glide import glide
from sounds_gen.mixing import mix
from sounds_gen.samples import Samples
from sounds_gen.voice.words import number, word
from tempo_coach.core.cue_sets import (
    check_track,
    rest_track,
    ring_out_ms,
    set_track,
    sound_track,
    sounds,
)
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.settings import CueSet
from tempo_coach.core.timeline import Timeline

SAMPLES_A_MS = 48


def track(line: str, *, setup_ms: int = 3000) -> Samples:
    return set_track(Timeline.of(parse_prescription(line), setup_ms=setup_ms))


def assert_is(heard: Samples, expected: list[tuple[int, Samples]], *, length_ms: int) -> None:
    """Assert that the track is the clips at their exact samples, and silence elsewhere.

    A finished track peaks at -1 dBFS, whatever it is made of.
    """
    laid = np.zeros(length_ms * SAMPLES_A_MS, dtype=np.float32)
    for at_ms, clip in expected:
        onset = at_ms * SAMPLES_A_MS
        laid[onset : onset + clip.size] = clip
    assert heard.dtype == np.float32
    assert np.abs(heard).max() == pytest.approx(10 ** (-1 / 20), rel=1e-6)
    np.testing.assert_allclose(as_loud_as(heard, laid), laid, rtol=1e-5, atol=1e-7)


def as_loud_as(heard: Samples, clip: Samples) -> Samples:
    return heard * np.float32(np.abs(clip).max() / np.abs(heard).max())


def test_each_cue_of_a_set_sounds_at_its_exact_sample() -> None:
    heard = track("front squat 1x2 3.5-1.001-X-1")
    expected = [
        (0, named.call()),
        (1000, named.call()),
        (2000, named.call()),
        (3000, named.fall()),
        (4000, named.step(1 - 1 / 3.5)),
        (5000, named.step(1 - 2 / 3.5)),
        (6000, named.step(1 - 3 / 3.5)),
        (6500, named.level(0.0)),
        (7501, named.snap()),
        (8501, named.level(1.0)),
        (9501, named.fall(twice=True)),
        (10_501, named.step(1 - 1 / 3.5)),
        (11_501, named.step(1 - 2 / 3.5)),
        (12_501, named.step(1 - 3 / 3.5)),
        (13_001, named.level(0.0)),
        (14_002, named.snap()),
        (15_002, named.level(1.0)),
        (16_002, named.close()),
    ]
    assert_is(heard, expected, length_ms=16_002 + 960)


def test_the_last_of_a_hundred_reps_is_as_exact_as_the_first() -> None:
    heard = track("squat 1x100 1.001-0-0.999-0.337")
    onset = (3000 + 99 * 2337) * SAMPLES_A_MS
    clip = named.fall(twice=True)
    part = heard[onset : onset + clip.size]
    np.testing.assert_allclose(as_loud_as(part, clip), clip, rtol=1e-5, atol=1e-7)
    assert not heard[onset - 1]


def test_a_rep_that_begins_with_the_raise_says_the_last_one_by_a_double_rise() -> None:
    heard = track("deadlift 1x2 2-0-2-0")
    expected = [
        *((second * 1000, named.call()) for second in range(3)),
        (3000, named.rise()),
        (4000, named.step(0.5)),
        (5000, named.fall()),
        (6000, named.step(0.5)),
        (7000, named.rise(twice=True)),
        (8000, named.step(0.5)),
        (9000, named.fall()),
        (10_000, named.step(0.5)),
        (11_000, named.close()),
    ]
    assert_is(heard, expected, length_ms=11_000 + 960)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("squat 1x1 X-0-2-0", named.fall(twice=True)),
        ("squat 1x1 0-3-1-0", named.level(0.0, twice=True)),
        ("squat 1x1 0-0-X-1", named.snap(twice=True)),
        ("squat 1x1 0-0-V-1", named.rise(twice=True)),
        ("squat 1x1 0-0-A-1", named.rise(twice=True)),
        ("squat 1x1 0-0-0-1", named.level(1.0, twice=True)),
        ("squat 1xmax 2-0-2-0", named.fall()),
    ],
)
def test_the_first_phase_sounds_as_what_it_is(line: str, expected: Samples) -> None:
    onset = 3000 * SAMPLES_A_MS
    heard = track(line)[onset : onset + SAMPLES_A_MS * 400]
    laid = np.zeros_like(heard)
    laid[: expected.size] = expected
    np.testing.assert_allclose(as_loud_as(heard, laid), laid, rtol=1e-5, atol=1e-7)


def test_a_phase_shorter_than_its_sound_cuts_it_to_silence() -> None:
    heard = track("squat 1x2 0.1-0-2-0")
    assert heard[3100 * SAMPLES_A_MS - 1] == 0
    rise = named.rise()
    onset = 3100 * SAMPLES_A_MS
    part = heard[onset : onset + rise.size]
    np.testing.assert_allclose(as_loud_as(part, rise), rise, rtol=1e-5, atol=1e-7)


def test_a_rest_ends_with_a_call_and_says_so_ten_seconds_before() -> None:
    expected = [(80_000, named.notice()), (90_000, named.call())]
    assert_is(rest_track(90_000), expected, length_ms=90_000 + 700)


@pytest.mark.parametrize("rest_ms", [0, 4000, 10_000])
def test_a_rest_of_ten_seconds_or_less_only_ends(rest_ms: int) -> None:
    assert_is(rest_track(rest_ms), [(rest_ms, named.call())], length_ms=rest_ms + 700)


def test_every_sound_that_can_be_listened_to_is_one_that_a_set_or_a_rest_has() -> None:
    heard = {sound.name: sound for sound in sounds()}
    assert len(heard) == len(sounds())
    np.testing.assert_array_equal(heard["lower"].clip, named.fall())
    np.testing.assert_array_equal(heard["raise X"].clip, named.snap())
    np.testing.assert_array_equal(heard["end"].clip, named.close())
    assert heard["end"].lasts_ms == 960


# Glide and voice.

TIMELINE = Timeline.of(parse_prescription("squat 1x2 2-1-1-1"), setup_ms=3000)
RING_MS = TIMELINE.length_ms + ring_out_ms()
READY = [(0, named.call()), (1000, named.call()), (2000, named.call())]
MARKS = [
    *READY,
    (3000, named.fall()),
    (5000, named.level(0.0)),
    (6000, named.rise()),
    (7000, named.level(1.0)),
    (8000, named.fall(twice=True)),
    (10_000, named.level(0.0)),
    (11_000, named.rise()),
    (12_000, named.level(1.0)),
    (13_000, named.close()),
]
COURSE = [(1.0, 0.0, 2000), (0.0, 0.0, 1000), (0.0, 1.0, 1000), (1.0, 1.0, 1000)]
SPOKEN = [
    (0, number(3)), (1000, number(2)), (2000, number(1)),
    (3000, word("lower")), (4000, number(2)), (5000, word("pause")), (6000, word("raise")),
    (7000, number(1)),
    (8000, word("last rep")), (9000, number(2)), (10_000, word("pause")),
    (11_000, word("raise")), (12_000, number(2)),
    (13_000, word("rack it")),
]  # fmt: skip


def test_the_glide_is_where_the_bar_should_be_from_the_first_rep_to_the_last() -> None:
    expected = mix(MARKS, glides=[(3000, glide(COURSE, repeats=2))], length_ms=RING_MS)
    heard = set_track(TIMELINE, cues=[CueSet.GLIDE])
    np.testing.assert_array_equal(heard, expected)


def test_the_voice_alone_says_everything() -> None:
    expected = mix([], speech=SPOKEN, length_ms=RING_MS)
    np.testing.assert_array_equal(set_track(TIMELINE, cues=[CueSet.VOICE]), expected)


def test_spoken_seconds_take_the_place_of_ticks() -> None:
    expected = mix(MARKS, speech=SPOKEN, length_ms=RING_MS)
    heard = set_track(TIMELINE, cues=[CueSet.VOICE, CueSet.TICK])
    np.testing.assert_array_equal(heard, expected)


def test_all_cue_sets_together_peak_where_one_does() -> None:
    heard = set_track(TIMELINE, cues=CueSet)
    assert np.abs(heard).max() == pytest.approx(10 ** (-1 / 20), rel=1e-6)


def test_a_set_that_runs_until_stopped_counts_its_reps_aloud_in_any_cue_set() -> None:
    timeline = Timeline.of(parse_prescription("chin-up 1xmax @ bw 2-0-1-1"), setup_ms=3000)
    heard = set_track(timeline, cues=[CueSet.TICK])
    seven = number(7)
    at = (3000 + 6 * 4000 + 1000) * SAMPLES_A_MS - seven.beat
    part = heard[at : at + seven.clip.size]
    likeness = np.corrcoef(part, seven.clip)[0, 1]
    assert likeness > 0.9


@pytest.mark.parametrize(("volume", "below_db"), [(10, 0.0), (9, 3.0), (1, 27.0)])
def test_a_step_of_volume_is_three_decibels(volume: int, below_db: float) -> None:
    peaks = [
        np.abs(set_track(TIMELINE, volume=volume)).max(),
        np.abs(rest_track(20_000, volume=volume)).max(),
        np.abs(check_track(volume=volume)).max(),
    ]
    assert 20 * np.log10(peaks) == pytest.approx([-1 - below_db] * 3, abs=0.001)
    tone = sounds()[1]
    heard = sound_track(tone, volume=volume)
    step_db = 20 * np.log10(np.abs(heard).max() / np.abs(tone.clip).max())
    assert step_db == pytest.approx(-below_db, abs=0.001)


def test_a_spoken_rest_says_when_ten_seconds_are_left_and_when_the_next_set_is_due() -> None:
    expected = mix(
        [], speech=[(80_000, word("ten seconds")), (90_000, word("next set"))], length_ms=90_700
    )
    np.testing.assert_array_equal(rest_track(90_000, cues=[CueSet.VOICE]), expected)


def test_no_cue_set_at_all_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one cue set"):
        set_track(TIMELINE, cues=[])
