from __future__ import annotations

import numpy as np
import pyloudnorm  # type: ignore[import-untyped]  # ships neither types nor stubs
import pytest

from sounds_gen import named
from sounds_gen.samples import Samples
from sounds_gen.voice.words import PHRASES, number, word

MATTERING = {
    "fall": named.fall(),
    "fall twice": named.fall(twice=True),
    "rise": named.rise(),
    "rise twice": named.rise(twice=True),
    "snap": named.snap(),
    "snap twice": named.snap(twice=True),
    "level at the bottom": named.level(0.0),
    "level at the top": named.level(1.0),
    "call": named.call(),
    "close": named.close(),
}
SPOKEN = {name: word(name).clip for name in PHRASES} | {
    str(value): number(value).clip for value in (*range(1, 31), *range(40, 101, 7))
}


def loudness_lufs(clip: Samples) -> float:
    """Return the loudness by ITU-R BS.1770, as pyloudnorm measures it."""
    # It refuses less than 400 ms, so the clip is heard over and over for a second or more.
    tiled = np.tile(clip.astype(np.float64), -(-48_000 // clip.size))
    return float(pyloudnorm.Meter(48_000).integrated_loudness(tiled))


def test_the_meter_reads_a_full_sine_as_the_standard_says() -> None:
    # ITU-R BS.1770: 997 Hz, full scale, one channel; pyloudnorm reads -3.05.
    sine = np.sin(2 * np.pi * 997 * np.arange(96_000) / 48_000).astype(np.float32)

    assert loudness_lufs(sine) == pytest.approx(-3.05, abs=0.02)


def test_tones_that_matter_alike_are_alike_in_loudness() -> None:
    loudnesses_lufs = [loudness_lufs(clip) for clip in MATTERING.values()]

    assert max(loudnesses_lufs) - min(loudnesses_lufs) < 1.5


def test_every_word_is_as_loud_as_the_middle_of_the_tones() -> None:
    tones_lufs = [loudness_lufs(clip) for clip in MATTERING.values()]
    words_lufs = {name: loudness_lufs(clip) for name, clip in SPOKEN.items()}

    middle_lufs = (max(tones_lufs) + min(tones_lufs)) / 2
    assert words_lufs == pytest.approx(dict.fromkeys(words_lufs, middle_lufs), abs=1.5)
