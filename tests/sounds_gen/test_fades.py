from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.signal.windows import hann

from sounds_gen.fades import cut_short, faded, rising
from sounds_gen.samples import Samples


def sine(*, hz: float = 1000.0, length_ms: int = 100) -> Samples:
    return np.sin(2 * np.pi * hz * np.arange(48 * length_ms) / 48_000).astype(np.float32)


def splatter_db(clip: Samples) -> float:
    """Return the share of the energy that lies outside 500 to 1500 Hz."""
    # Padded, so that what lies between the bins of 100 ms is seen too.
    power = np.square(np.abs(np.fft.rfft(clip.astype(np.float64), 2**18)))
    hz = np.fft.rfftfreq(2**18, 1 / 48_000)
    outside = (hz < 500) | (hz > 1500)
    return float(10 * np.log10(power[outside].sum() / power.sum()))


def ones(length: int) -> Samples:
    return np.ones(length, dtype=np.float32)


@pytest.mark.parametrize(("fade_ms", "db"), [(5, -65), (10, -76)])
def test_a_faded_tone_stays_in_its_band(fade_ms: int, db: float) -> None:
    # Raised-cosine fades on 100 ms of 1 kHz, computed apart from this project, to whole dB.
    assert splatter_db(faded(sine(), fade_ms=fade_ms)) == pytest.approx(db, abs=1)


def test_the_same_tone_without_fades_splatters() -> None:
    assert splatter_db(sine()) > -30


def test_a_fade_is_half_a_hann_window() -> None:
    # scipy.signal.windows.hann, symmetric, as the outside form of the raised cosine.
    np.testing.assert_allclose(rising(240), hann(479)[:240], atol=1e-7)


@given(fade_ms=st.integers(5, 10), extra=st.integers(0, 2000))
def test_a_faded_clip_is_zero_at_both_ends_and_whole_between(fade_ms: int, extra: int) -> None:
    length = 2 * 48 * fade_ms + extra

    clip = faded(ones(length), fade_ms=fade_ms)

    middle = clip[48 * fade_ms : length - 48 * fade_ms]
    assert clip.dtype == np.float32
    assert clip.size == length
    assert clip[0] == 0
    assert clip[-1] == 0
    assert (middle == 1).all()


def test_fading_leaves_the_clip_it_was_given_alone() -> None:
    clip = ones(4800)

    faded(clip)

    assert (clip == 1).all()


@pytest.mark.parametrize("fade_ms", [4, 11])
def test_a_fade_of_another_length_is_refused(fade_ms: int) -> None:
    with pytest.raises(ValueError, match="5 to 10 ms"):
        faded(ones(4800), fade_ms=fade_ms)


def test_a_clip_without_room_for_two_fades_is_refused() -> None:
    with pytest.raises(ValueError, match="too short"):
        faded(ones(767), fade_ms=8)


@given(length=st.integers(1, 2000))
def test_a_cut_clip_keeps_its_beginning_and_ends_at_zero(length: int) -> None:
    cut = cut_short(ones(2000), length=length)

    assert cut.size == length
    assert cut[-1] == 0
    assert (cut[: max(0, length - 384)] == 1).all()
    assert (np.diff(cut) <= 0).all()


@pytest.mark.parametrize("length", [0, -1, 101])
def test_a_clip_is_not_cut_to_nothing_or_to_more_than_it_has(length: int) -> None:
    with pytest.raises(ValueError, match="can't be cut"):
        cut_short(ones(100), length=length)


def test_a_fade_without_samples_is_refused() -> None:
    with pytest.raises(ValueError, match="1 sample or more"):
        rising(0)
