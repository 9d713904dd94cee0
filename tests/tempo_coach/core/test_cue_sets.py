from __future__ import annotations

import numpy as np
import pytest

from sounds_gen import named
from sounds_gen.samples import Samples
from tempo_coach.core.cue_sets import rest_track, set_track, sounds
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.timeline import Timeline

SAMPLES_A_MS = 48


def track(line: str, *, setup_ms: int = 3000) -> Samples:
    return set_track(Timeline.of(parse_prescription(line), setup_ms=setup_ms))


def assert_is(heard: Samples, expected: list[tuple[int, Samples]], *, length_ms: int) -> None:
    """Assert that the track is the clips at their exact samples, and silence elsewhere."""
    laid = np.zeros(length_ms * SAMPLES_A_MS, dtype=np.float32)
    for at_ms, clip in expected:
        onset = at_ms * SAMPLES_A_MS
        laid[onset : onset + clip.size] = clip
    assert heard.dtype == np.float32
    np.testing.assert_array_equal(heard, laid)


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
    np.testing.assert_array_equal(heard[onset : onset + clip.size], clip)
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
    np.testing.assert_array_equal(heard, laid)


def test_a_phase_shorter_than_its_sound_cuts_it_to_silence() -> None:
    heard = track("squat 1x2 0.1-0-2-0")
    assert heard[3100 * SAMPLES_A_MS - 1] == 0
    rise = named.rise()
    onset = 3100 * SAMPLES_A_MS
    np.testing.assert_array_equal(heard[onset : onset + rise.size], rise)


def test_a_rest_ends_with_a_call_and_says_so_ten_seconds_before() -> None:
    expected = [(80_000, named.notice()), (90_000, named.call())]
    assert_is(rest_track(90_000), expected, length_ms=90_000 + 120)


@pytest.mark.parametrize("rest_ms", [0, 4000, 10_000])
def test_a_rest_of_ten_seconds_or_less_only_ends(rest_ms: int) -> None:
    assert_is(rest_track(rest_ms), [(rest_ms, named.call())], length_ms=rest_ms + 120)


def test_every_sound_that_can_be_listened_to_is_one_that_a_set_or_a_rest_has() -> None:
    heard = {sound.name: sound for sound in sounds()}
    assert len(heard) == len(sounds())
    np.testing.assert_array_equal(heard["lower"].clip, named.fall())
    np.testing.assert_array_equal(heard["raise X"].clip, named.snap())
    np.testing.assert_array_equal(heard["end"].clip, named.close())
    assert heard["end"].lasts_ms == 960
