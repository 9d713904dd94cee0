"""How loud a clip is to the ear: A-weighting and levels."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from sounds_gen.samples import SAMPLE_RATE_HZ, Samples

POLES_HZ = (20.598997, 107.65265, 737.86223, 12194.217)
"""f1 to f4 of IEC 61672-1."""
OFFSET_DB = 2.0
"""What brings the curve to 0 dB at 1000 Hz."""


def a_weighting_db(frequency_hz: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Return the A-weighting of frequencies by IEC 61672-1.

    Parameters
    ----------
    frequency_hz
        Any shape, float64, Hz, above 0.

    Returns
    -------
    NDArray[np.float64]
        The same shape, dB; ``20 log10 R + 2.00``, where ``R = f4**2 f**4 / ((f**2 + f1**2)
        * sqrt((f**2 + f2**2) * (f**2 + f3**2)) * (f**2 + f4**2))``.

    Raises
    ------
    ValueError
        A frequency is not above 0.
    """
    if not np.all(frequency_hz > 0):
        raise ValueError("A-weighting is defined for frequencies above 0 Hz")
    f1, f2, f3, f4 = (pole_hz**2 for pole_hz in POLES_HZ)
    f = np.square(frequency_hz)
    response = f4 * f**2 / ((f + f1) * np.sqrt((f + f2) * (f + f3)) * (f + f4))
    return np.asarray(20 * np.log10(response) + OFFSET_DB, dtype=np.float64)


def a_level_db(clip: Samples) -> float:
    """Return the A-weighted level of a clip, averaged over its whole length.

    Parameters
    ----------
    clip
        Shape ``(n,)``, float32, range [-1, 1], n at least 2.

    Returns
    -------
    float
        dB, 0 being a mean square of 1: a 1000 Hz sine that just fills the range is at -3.01.
        The squared spectrum is weighted and summed (Parseval).

    Raises
    ------
    ValueError
        The clip is silent, or shorter than 2 samples.
    """
    if clip.size < 2 or not clip.any():
        raise ValueError("silence has no level")
    amplitudes = np.abs(np.fft.rfft(clip.astype(np.float64)))[1:]
    frequencies_hz = np.arange(1, amplitudes.size + 1, dtype=np.float64) * (
        SAMPLE_RATE_HZ / clip.size
    )
    weighted = np.square(amplitudes) * 10 ** (a_weighting_db(frequencies_hz) / 10)
    # Twice, since each bin stands for its mirror image too. The topmost bin of an even length has
    # none, but sounds made to be heard hold nothing at 24 kHz.
    return float(10 * np.log10(2 * np.sum(weighted) / clip.size**2))


def levelled(clip: Samples, *, level_db: float) -> Samples:
    """Return a clip made louder or softer to an A-weighted level.

    Parameters
    ----------
    clip
        Shape ``(n,)``, float32, range [-1, 1], n at least 2.
    level_db
        dB as in `a_level_db`.

    Returns
    -------
    Samples
        Shape ``(n,)``, float32, range [-1, 1].

    Raises
    ------
    ValueError
        The clip is silent, or would have to leave [-1, 1] to be that loud.
    """
    gain = 10 ** ((level_db - a_level_db(clip)) / 20)
    if gain * np.max(np.abs(clip)) > 1:
        raise ValueError(f"this clip can't reach {level_db} dB without leaving [-1, 1]")
    return (clip * np.float32(gain)).astype(np.float32)
