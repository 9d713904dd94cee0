"""Spoken words and numbers, each with the moment at which it is felt to begin."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from sounds_gen.samples import SAMPLE_RATE_HZ, Samples

CLIPS_FILE = "words.npz"
STORED_RATE_HZ = 16_000
STORED_FULL_SCALE = 511
"""What 1.0 is stored as: ten bits, with noise far below the speech, halve the compressed file."""

PHRASES = (
    "lower",
    "pause",
    "raise",
    "top",
    "last rep",
    "rack it",
    "ten seconds",
    "next set",
    "left",
    "right",
)
HIGHEST_NUMBER = 100
HIGHEST_IN_ONE_CLIP = 30
"""Up to here, and at whole tens, a number is one clip; others are put together from two."""

RISE_WINDOW_MS = 40
"""Length of the Hann window that smooths the energy: long beside the voice's pitch periods, so that
no single one makes the rise, and short beside a syllable."""
RISE_SHARE = 0.5
"""Share of the peak of the smoothed energy at which the energy has risen."""

Stored: TypeAlias = npt.NDArray[np.int16]
"""Shape ``(n,)``, int16, range [-511, 511], 16 kHz."""


@dataclass(frozen=True, slots=True, eq=False)
class Spoken:
    """A spoken word and the sample of it that belongs on the beat."""

    clip: Samples
    """Read-only."""
    beat: int
    """Index of the energy rise: a word is felt to begin there, not at its first sample."""


@lru_cache(maxsize=len(PHRASES))
def word(name: str) -> Spoken:
    """Return a phrase.

    Parameters
    ----------
    name
        One of `PHRASES`.

    Returns
    -------
    Spoken
        Shape ``(n,)``, float32, range [-1, 1], at the A-weighted level ``named.LOUD_DB``; at most
        450 ms, or 700 ms where it is two words.

    Raises
    ------
    ValueError
        There is no such phrase.
    """
    if name not in PHRASES:
        raise ValueError(f"the voice says {', '.join(PHRASES)}, not {name!r}")
    return _spoken(name)


@lru_cache(maxsize=HIGHEST_NUMBER)
def number(value: int) -> Spoken:
    """Return a number.

    Parameters
    ----------
    value
        From 1 to 100.

    Returns
    -------
    Spoken
        Shape ``(n,)``, float32, range [-1, 1], at the A-weighted level ``named.LOUD_DB``; at most
        400 ms, or 550 ms where it is put together from two words.

    Raises
    ------
    ValueError
        The number is not from 1 to 100.
    """
    if not 1 <= value <= HIGHEST_NUMBER:
        raise ValueError(f"the voice counts from 1 to {HIGHEST_NUMBER}, not {value}")
    tens, units = divmod(value, 10)
    if value <= HIGHEST_IN_ONE_CLIP or not units:
        return _spoken(str(value))
    return _spoken(tens_key(tens), units_key(units))


def tens_key(tens: int) -> str:
    """Return the name under which the quick form of 30 to 90 is stored, to go before units."""
    return f"{tens}0-"


def units_key(units: int) -> str:
    """Return the name under which the quick form of 1 to 9 is stored, to go behind tens."""
    return f"-{units}"


def upsampled(clip: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Return a clip of 16 kHz at 48 kHz.

    Parameters
    ----------
    clip
        Shape ``(n,)``, float64, zero at both ends, n at least 2.

    Returns
    -------
    NDArray[np.float64]
        Shape ``(3 * n,)``; its spectrum is that of the clip, with zeros above 8 kHz.
    """
    factor = SAMPLE_RATE_HZ // STORED_RATE_HZ
    return np.fft.irfft(np.fft.rfft(clip), factor * clip.size) * factor


def energy_rise(clip: npt.NDArray[np.float64], *, rate_hz: int) -> int:
    """Return where a clip is felt to begin.

    Parameters
    ----------
    clip
        Shape ``(n,)``, float64, not silent.
    rate_hz
        Samples a second.

    Returns
    -------
    int
        The first sample at which the squared clip, smoothed by a centred Hann window of 40 ms,
        reaches half of its highest value.
    """
    window = np.hanning(rate_hz * RISE_WINDOW_MS // 1000)
    energy = np.convolve(np.square(clip), window, mode="same")
    return int(np.argmax(energy >= RISE_SHARE * energy.max()))


def _spoken(*keys: str) -> Spoken:
    stored = np.concatenate([_clips()[key] for key in keys]) / STORED_FULL_SCALE
    clip = upsampled(stored).astype(np.float32)
    clip.flags.writeable = False
    # At the stored rate a convolution is nine times cheaper; a third of its samples is exact to
    # 0.06 ms.
    beat = energy_rise(stored, rate_hz=STORED_RATE_HZ) * SAMPLE_RATE_HZ // STORED_RATE_HZ
    return Spoken(clip, beat)


@lru_cache(maxsize=1)
def _clips() -> MappingProxyType[str, Stored]:
    with files("sounds_gen.voice").joinpath(CLIPS_FILE).open("rb") as file, np.load(file) as clips:
        return MappingProxyType(dict(clips))
