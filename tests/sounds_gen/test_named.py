from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from scipy.signal import spectrogram

from sounds_gen import named
from sounds_gen.samples import Samples
from sounds_gen.weighting import a_level_db

MATTERING = {
    "fall": named.fall(),
    "fall twice": named.fall(twice=True),
    "rise": named.rise(),
    "rise twice": named.rise(twice=True),
    "snap": named.snap(),
    "snap twice": named.snap(twice=True),
    "level at the bottom": named.level(0.0),
    "level in the middle": named.level(0.5),
    "level at the top": named.level(1.0),
    "level at the bottom twice": named.level(0.0, twice=True),
    "level at the top twice": named.level(1.0, twice=True),
    "call": named.call(),
    "close": named.close(),
}
ACCOMPANYING = {
    "step at the bottom": named.step(0.0),
    "step in the middle": named.step(0.5),
    "step at the top": named.step(1.0),
    "notice": named.notice(),
}
EVERY = MATTERING | ACCOMPANYING

every_sound = pytest.mark.parametrize("clip", EVERY.values(), ids=EVERY.keys())


def fundamental_hz(clip: Samples, *, window_ms: int = 25) -> tuple[float, float]:
    """Return the strongest frequency at the beginning and at the end."""
    hz, _, power = spectrogram(
        clip.astype(np.float64), fs=48_000, nperseg=48 * window_ms, noverlap=0, nfft=48_000
    )
    strongest = hz[power.argmax(axis=0)]
    return float(strongest[0]), float(strongest[-1])


def strokes_ms(clip: Samples) -> list[int]:
    """Return how long each unbroken stretch of sound is."""
    loud = np.abs(clip).reshape(-1, 48 * 10).max(axis=1) > 0.01
    edges = np.flatnonzero(np.diff(np.concatenate([[False], loud, [False]]).astype(int)))
    return [int(10 * (end - start)) for start, end in edges.reshape(-1, 2)]


@every_sound
def test_every_sound_begins_and_ends_at_zero(clip: Samples) -> None:
    assert clip.dtype == np.float32
    assert clip[0] == 0
    assert clip[-1] == 0


@every_sound
def test_every_sound_stays_in_range(clip: Samples) -> None:
    assert np.abs(clip).max() <= 1


@every_sound
def test_every_onset_is_clear_within_10_ms(clip: Samples) -> None:
    assert np.abs(clip[:480]).max() > 0.9 * np.abs(clip).max()


@every_sound
def test_every_sound_lies_where_signals_carry(clip: Samples) -> None:
    # ISO 7731: 300 to 3000 Hz, with enough of it below 1500 Hz.
    power = np.square(np.abs(np.fft.rfft(clip.astype(np.float64), 2**16)))
    hz = np.fft.rfftfreq(2**16, 1 / 48_000)
    within = power[(hz >= 300) & (hz <= 3000)].sum() / power.sum()
    low = power[(hz >= 300) & (hz <= 1500)].sum() / power.sum()
    assert within > 0.98
    assert low > 0.5


@every_sound
def test_a_sound_that_is_kept_cannot_be_spoiled(clip: Samples) -> None:
    with pytest.raises(ValueError, match="read-only"):
        clip[0] = 1.0


def test_sounds_that_matter_alike_are_alike_in_level() -> None:
    levels_db = [a_level_db(clip) for clip in MATTERING.values()]

    assert max(levels_db) - min(levels_db) < 1


def test_sounds_that_accompany_are_8_db_softer() -> None:
    levels_db = [a_level_db(clip) for clip in ACCOMPANYING.values()]

    assert levels_db == pytest.approx([a_level_db(named.fall()) - 8] * len(levels_db), abs=0.5)


# ISO 16: E4 329.63 Hz, E5 659.26 Hz; a window sees the mean of a glide over its own length.
def test_a_fall_sinks_an_octave() -> None:
    start_hz, end_hz = fundamental_hz(named.fall())

    assert start_hz == pytest.approx(659.26, rel=0.05)
    assert end_hz == pytest.approx(329.63, rel=0.05)


def test_a_rise_climbs_an_octave() -> None:
    start_hz, end_hz = fundamental_hz(named.rise())

    assert start_hz == pytest.approx(329.63, rel=0.05)
    assert end_hz == pytest.approx(659.26, rel=0.05)


def test_a_snap_climbs_in_a_third_of_the_time_of_a_rise() -> None:
    start_hz, end_hz = fundamental_hz(named.snap(), window_ms=20)

    assert end_hz > 1.6 * start_hz
    assert 3 * named.snap().size < named.rise().size


@pytest.mark.parametrize(
    ("height", "hz"),
    [(0.0, 329.6276), (5 / 12, 440.0), (1.0, 659.2551)],
    ids=["E4", "A4", "E5"],
)
@pytest.mark.parametrize("sound", [named.level, named.step])
def test_a_height_is_a_pitch_between_e4_and_e5(
    sound: Callable[[float], Samples], height: float, hz: float
) -> None:
    # ISO 16.
    start_hz, end_hz = fundamental_hz(sound(height), window_ms=30)

    assert start_hz == pytest.approx(hz, rel=0.02)
    assert end_hz == pytest.approx(hz, rel=0.02)


@pytest.mark.parametrize("sound", [named.level, named.step])
@pytest.mark.parametrize("height", [-0.01, 1.01, float("nan")])
def test_a_height_outside_the_octave_is_refused(
    sound: Callable[[float], Samples], height: float
) -> None:
    with pytest.raises(ValueError, match=r"from 0 \(bottom\) to 1 \(top\)"):
        sound(height)


@pytest.mark.parametrize("sound", [named.fall, named.rise, named.snap], ids=lambda s: s.__name__)
def test_twice_is_the_whole_movement_in_half_the_time_and_again(
    sound: Callable[..., Samples],
) -> None:
    once, twice = sound(), sound(twice=True)

    gap = 48 * 30
    first, second = twice[: once.size // 2], twice[once.size // 2 + gap :]
    np.testing.assert_array_equal(first, second)
    assert not twice[once.size // 2 : once.size // 2 + gap].any()
    window_ms = first.size // 48 // 5
    whole_hz = fundamental_hz(once, window_ms=2 * window_ms)
    assert fundamental_hz(first, window_ms=window_ms) == pytest.approx(whole_hz, rel=0.1)


def test_each_sound_has_its_own_rhythm() -> None:
    assert strokes_ms(named.fall()) == [350]
    assert strokes_ms(named.snap()) == [100]
    assert strokes_ms(named.level(0.5)) == [250]
    assert strokes_ms(named.step(0.5)) == [60]
    assert len(strokes_ms(named.fall(twice=True))) == 2
    assert len(strokes_ms(named.level(0.5, twice=True))) == 2
    assert len(strokes_ms(named.notice())) == 2
    assert strokes_ms(named.close()) == [140, 140, 620]


def test_a_sound_is_made_once() -> None:
    assert named.fall() is named.fall()
    assert named.level(0.25) is named.level(0.25)
