from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.signal import ShortTimeFFT, butter, periodogram, sosfiltfilt, zoom_fft
from scipy.signal.windows import blackmanharris, hann

from sounds_gen.glide import GLIDE_DB, Span, glide
from sounds_gen.named import LOUD_DB
from sounds_gen.samples import Samples
from sounds_gen.weighting import a_level_db

E4_HZ = 329.6276
"""ISO 16; E5 is an octave above."""

FOUR_ONE_ONE_ONE: list[Span] = [(1, 0, 4000), (0, 0, 1000), (0, 1, 1000), (1, 1, 1000)]
WITH_DECIMALS: list[Span] = [(1, 0, 2500), (0, 1, 1250)]
RAISE_ONLY: list[Span] = [(0, 1, 1000)]

HEIGHTS = st.floats(0, 1)
CYCLES = st.lists(st.tuples(HEIGHTS, HEIGHTS, st.integers(1, 400)), min_size=1, max_size=5)


def height_track_hz(spans: list[Span], *, repeats: int) -> npt.NDArray[np.float64]:
    """Return the pitch at every sample by ISO 16: equal intervals in equal times."""
    courses = [np.linspace(a, b, 48 * ms, endpoint=False) for a, b, ms in spans]
    return E4_HZ * 2 ** np.tile(np.concatenate(courses), repeats)


def strongest_hz(track: Samples) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.float64]]:
    """Return samples, and the frequency of the first harmonic around each."""
    # scipy.signal.ShortTimeFFT; the first harmonic is the strongest line.
    stft = ShortTimeFFT(hann(2400), hop=2400, fs=48_000, mfft=16_000)
    power = stft.spectrogram(track.astype(np.float64))
    at = np.arange(power.shape[1]) * 2400 + stft.p_min * 2400
    inside = (at >= 2400) & (at < track.size - 2400)
    return at[inside], stft.f[power.argmax(axis=0)][inside]


def splatter_db(track: Samples) -> float:
    """Return the highest 10 ms of what lies above 6 kHz, beside the whole."""
    sos = butter(6, 6000, "highpass", fs=48_000, output="sos")
    beyond = np.square(sosfiltfilt(sos, track.astype(np.float64)))
    middle = slice(960, -960)
    loudest = np.convolve(beyond, np.full(480, 1 / 480), mode="same")[middle].max()
    return float(10 * np.log10(loudest / np.mean(np.square(track[middle]))))


@pytest.mark.parametrize(
    "spans", [FOUR_ONE_ONE_ONE, WITH_DECIMALS], ids=["4-1-1-1", "2.5-0-1.25-0"]
)
def test_the_pitch_follows_the_height(spans: list[Span]) -> None:
    track = glide(spans, repeats=2)

    at, found_hz = strongest_hz(track)
    expected_hz = height_track_hz(spans, repeats=2)[at]
    # Lines 3 Hz apart, and the mean of a bend over 50 ms, hence 1.2 %; an octave is 100 %.
    np.testing.assert_allclose(found_hz, expected_hz, rtol=0.012)


@pytest.mark.parametrize("height", [0.0, 5 / 12, 1.0], ids=["E4", "A4", "E5"])
@pytest.mark.parametrize("lasts_ms", [1000, 1003, 2777])
def test_a_steady_pitch_is_true_within_3_cents(height: float, lasts_ms: int) -> None:
    track = glide([(height, height, lasts_ms)], repeats=4)

    expected_hz = E4_HZ * 2**height
    # scipy.signal.zoom_fft: lines a fiftieth of a hertz apart, 0.1 cents at E4.
    window = blackmanharris(track.size)
    spectrum = np.abs(zoom_fft(track * window, [expected_hz - 2, expected_hz + 2], 201, fs=48_000))
    found_hz = expected_hz - 2 + 0.02 * spectrum.argmax()
    assert abs(1200 * np.log2(found_hz / expected_hz)) < 3


def test_the_harmonics_are_four_and_lie_where_signals_carry() -> None:
    for height in (0.0, 1.0):
        track = glide([(height, height, 2000)], repeats=1)

        hz, power = periodogram(track.astype(np.float64), fs=48_000, window="blackmanharris")
        [peaks] = np.nonzero(power > 1e-4 * power.max())
        assert set(np.rint(hz[peaks] / (E4_HZ * 2**height))) == {1, 2, 3, 4}
        # ISO 7731: 300 to 3000 Hz, with enough of it below 1500 Hz.
        assert power[(hz < 300) | (hz > 3000)].sum() < 1e-4 * power.sum()
        assert power[hz < 1500].sum() > 0.5 * power.sum()


@pytest.mark.parametrize("spans", [FOUR_ONE_ONE_ONE, WITH_DECIMALS, RAISE_ONLY])
def test_the_level_is_even_along_the_travel(spans: list[Span]) -> None:
    track = glide(spans, repeats=2)

    pieces = track[2400:-2400][: (track.size - 4800) // 4800 * 4800].reshape(-1, 4800)
    levels_db = [a_level_db(piece) for piece in pieces]
    assert max(levels_db) - min(levels_db) < 1
    assert levels_db == pytest.approx([GLIDE_DB] * len(levels_db), abs=0.5)


def test_it_is_11_db_softer_than_what_matters() -> None:
    assert a_level_db(glide(FOUR_ONE_ONE_ONE, repeats=1)) == pytest.approx(LOUD_DB - 11, abs=0.1)


@pytest.mark.parametrize(
    "spans",
    [FOUR_ONE_ONE_ONE, WITH_DECIMALS, [(0.3, 0.3, 1003)], [(1, 0, 333), (0, 1, 334)]],
    ids=["4-1-1-1", "2.5-0-1.25-0", "steady", "shorter than a tile"],
)
def test_no_joint_clicks(spans: list[Span]) -> None:
    track = glide(spans, repeats=3)

    # The fourth harmonic of the top lies at 2637 Hz; beyond 6000 Hz there is only rounding.
    assert splatter_db(track) < -95


def test_a_jump_of_the_height_does_not_click_either() -> None:
    track = glide(RAISE_ONLY, repeats=3)

    assert splatter_db(track) < -85


def test_a_click_would_be_found() -> None:
    track = glide(FOUR_ONE_ONE_ONE, repeats=1)
    track[24_000:] *= -1

    assert splatter_db(track) > -40


@settings(deadline=None, max_examples=25)
@given(spans=CYCLES, repeats=st.integers(1, 6))
def test_no_sample_is_far_from_the_one_before(spans: list[Span], repeats: int) -> None:
    track = glide(spans, repeats=repeats)

    assert track.dtype == np.float32
    assert track.shape == (48 * repeats * sum(lasts_ms for _, _, lasts_ms in spans),)
    assert track[0] == track[-1] == 0
    assert np.abs(track).max() <= 0.2
    # The steepest that four harmonics of 660 Hz can be, all rising together, at the gain of the
    # top; the gain of the bottom is higher as the pitch is lower.
    steepest = 2 * np.pi * 660 * (1.0 + 2 * 0.8 + 3 * 0.6 + 4 * 0.5) / 48_000
    assert np.abs(np.diff(track)).max() < 0.1 * steepest


@settings(deadline=None, max_examples=25)
@given(spans=CYCLES, repeats=st.integers(2, 6))
def test_every_cycle_lasts_as_long(spans: list[Span], repeats: int) -> None:
    cycle_ms = sum(lasts_ms for _, _, lasts_ms in spans)
    together = -(-1000 // cycle_ms)
    track = glide(spans, repeats=together * repeats)

    tiles = track.reshape(repeats, -1)
    faded = 48 * 8
    np.testing.assert_array_equal(tiles[0, faded:-faded], tiles[-1, faded:-faded])


def test_a_cycle_may_be_as_short_as_a_millisecond() -> None:
    track = glide([(0.5, 0.5, 1)], repeats=1)

    assert track.size == 48


@pytest.mark.parametrize("height", [-0.01, 1.01, float("nan")])
def test_a_height_outside_the_octave_is_refused(height: float) -> None:
    with pytest.raises(ValueError, match=r"from 0 \(bottom\) to 1 \(top\)"):
        glide([(height, 0.5, 1000)], repeats=1)
    with pytest.raises(ValueError, match=r"from 0 \(bottom\) to 1 \(top\)"):
        glide([(0.5, height, 1000)], repeats=1)


@pytest.mark.parametrize("spans", [[], [(1.0, 0.0, 0)], [(1.0, 0.0, 1000), (0.0, 1.0, -1)]])
def test_a_cycle_without_length_is_refused(spans: list[Span]) -> None:
    with pytest.raises(ValueError, match="1 ms or more"):
        glide(spans, repeats=1)


def test_a_cycle_is_heard_once_or_more() -> None:
    with pytest.raises(ValueError, match="not 0 times"):
        glide(RAISE_ONLY, repeats=0)
