from __future__ import annotations

import numpy as np
import pytest

from sounds_gen.samples import Samples
from sounds_gen.weighting import a_level_db, a_weighting_db, levelled


def sine(hz: float, *, amplitude: float = 1.0, seconds: int = 1) -> Samples:
    moments_s = np.arange(48_000 * seconds) / 48_000
    return (amplitude * np.sin(2 * np.pi * hz * moments_s)).astype(np.float32)


@pytest.mark.parametrize(
    ("tenths_of_a_decade", "db"),
    [
        (-10, -19.1),
        (-7, -10.9),
        (-4, -4.8),
        (-3, -3.2),
        (-2, -1.9),
        (-1, -0.8),
        (0, 0.0),
        (1, 0.6),
        (2, 1.0),
        (3, 1.2),
        (4, 1.3),
        (5, 1.2),
        (6, 1.0),
        (9, -1.1),
    ],
)
def test_the_weighting_is_that_of_iec_61672_1(tenths_of_a_decade: int, db: float) -> None:
    # IEC 61672-1, table of frequency weightings, at the exact base-ten frequencies. The table is
    # rounded to 0.1 dB, hence 0.05.
    frequency_hz = np.array([1000 * 10 ** (tenths_of_a_decade / 10)])

    assert a_weighting_db(frequency_hz) == pytest.approx(db, abs=0.05 + 1e-3)


def test_a_frequency_of_zero_has_no_weighting() -> None:
    with pytest.raises(ValueError, match="above 0 Hz"):
        a_weighting_db(np.array([100.0, 0.0]))


def test_a_full_sine_at_1000_hz_is_3_db_below_a_mean_square_of_1() -> None:
    # The mean square of a sine is half the square of its peak.
    assert a_level_db(sine(1000.0)) == pytest.approx(10 * np.log10(0.5), abs=0.01)


@pytest.mark.parametrize(("hz", "db"), [(100.0, -19.1), (500.0, -3.2), (4000.0, 1.0)])
def test_the_level_of_other_sines_differs_by_the_weighting(hz: float, db: float) -> None:
    # IEC 61672-1, at nominal frequencies, hence 0.15.
    assert a_level_db(sine(hz)) - a_level_db(sine(1000.0)) == pytest.approx(db, abs=0.15)


def test_half_the_amplitude_is_6_db_less() -> None:
    difference_db = a_level_db(sine(700.0)) - a_level_db(sine(700.0, amplitude=0.5))

    assert difference_db == pytest.approx(20 * np.log10(2), abs=1e-3)


def test_silence_around_a_clip_lowers_its_level() -> None:
    clip = sine(1000.0)

    padded = np.concatenate([clip, np.zeros_like(clip)])

    assert a_level_db(clip) - a_level_db(padded) == pytest.approx(10 * np.log10(2), abs=0.01)


@pytest.mark.parametrize("length", [0, 1, 100])
def test_silence_has_no_level(length: int) -> None:
    with pytest.raises(ValueError, match="silence"):
        a_level_db(np.zeros(length, dtype=np.float32))


@pytest.mark.parametrize("level_db", [-40.0, -12.0, -3.1])
def test_a_levelled_clip_has_its_level_and_its_form(level_db: float) -> None:
    clip = sine(1000.0, amplitude=0.3)

    loud = levelled(clip, level_db=level_db)

    assert loud.dtype == np.float32
    assert a_level_db(loud) == pytest.approx(level_db, abs=1e-3)
    np.testing.assert_allclose(loud / np.abs(loud).max(), clip / np.abs(clip).max(), atol=1e-6)


def test_a_level_out_of_reach_is_refused() -> None:
    with pytest.raises(ValueError, match="without leaving"):
        levelled(sine(1000.0), level_db=-2.0)
