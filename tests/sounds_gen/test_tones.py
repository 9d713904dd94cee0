from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.signal import periodogram, spectrogram

from sounds_gen.tones import tone


@pytest.mark.parametrize("pitch_hz", [330.0, 440.0, 660.0])
def test_a_steady_tone_is_its_first_four_harmonics_and_nothing_else(pitch_hz: float) -> None:
    clip = tone(pitch_hz, to_hz=pitch_hz, length_ms=1000)

    # scipy.signal.periodogram; in one second each harmonic falls on a bin of its own.
    hz, power = periodogram(clip.astype(np.float64), fs=48_000)
    [peaks] = np.nonzero(power > 1e-6 * power.max())
    assert hz[peaks].tolist() == [pitch_hz * order for order in (1, 2, 3, 4)]


@pytest.mark.parametrize(("from_hz", "to_hz"), [(330.0, 660.0), (660.0, 330.0)])
def test_a_glide_passes_equal_intervals_in_equal_times(from_hz: float, to_hz: float) -> None:
    clip = tone(from_hz, to_hz=to_hz, length_ms=2000)

    # scipy.signal.spectrogram: the strongest line is the fundamental.
    hz, seconds, power = spectrogram(
        clip.astype(np.float64), fs=48_000, nperseg=4800, noverlap=2400, nfft=48_000
    )
    expected_hz = from_hz * (to_hz / from_hz) ** (seconds / 2)
    np.testing.assert_allclose(hz[power.argmax(axis=0)], expected_hz, rtol=0.01)


def test_a_glide_has_no_joint() -> None:
    clip = tone(330.0, to_hz=660.0, length_ms=350).astype(np.float64)

    # The steepest that four harmonics of 660 Hz can be, all rising together.
    steepest = 2 * np.pi * 660 * (1.0 + 2 * 0.8 + 3 * 0.6 + 4 * 0.5) / 1.53 / 48_000
    assert np.abs(np.diff(clip)).max() < steepest


@given(from_hz=st.floats(20, 5999), to_hz=st.floats(20, 5999), length_ms=st.integers(1, 60))
def test_a_tone_has_its_length_and_stays_in_range(
    from_hz: float, to_hz: float, length_ms: int
) -> None:
    clip = tone(from_hz, to_hz=to_hz, length_ms=length_ms)

    assert clip.dtype == np.float32
    assert clip.shape == (48 * length_ms,)
    assert np.abs(clip).max() <= 1


def test_a_tone_all_but_fills_the_range() -> None:
    assert np.abs(tone(330.0, to_hz=330.0, length_ms=100)).max() > 0.99


def test_the_crest_of_a_tone_is_low() -> None:
    clip = tone(330.0, to_hz=330.0, length_ms=1000).astype(np.float64)

    crest_db = 20 * np.log10(np.abs(clip).max() / np.sqrt(np.mean(np.square(clip))))
    assert crest_db < 3.3


def test_the_same_tone_is_made_twice_alike() -> None:
    once, again = (tone(440.0, to_hz=500.0, length_ms=50) for _ in range(2))

    np.testing.assert_array_equal(once, again)


@pytest.mark.parametrize("pitch_hz", [0.0, -1.0, 6000.0, float("nan")])
def test_a_pitch_that_cannot_be_sampled_is_refused_at_either_end(pitch_hz: float) -> None:
    with pytest.raises(ValueError, match="between 0 and 6000 Hz"):
        tone(pitch_hz, to_hz=440.0, length_ms=100)
    with pytest.raises(ValueError, match="between 0 and 6000 Hz"):
        tone(440.0, to_hz=pitch_hz, length_ms=100)


def test_a_tone_without_length_is_refused() -> None:
    with pytest.raises(ValueError, match="1 ms or more"):
        tone(440.0, to_hz=440.0, length_ms=0)
