"""Raised-cosine fades: what lets a clip begin and end, or be cut, without a click."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from sounds_gen.samples import Samples, sample_at

SHORTEST_FADE_MS = 5
LONGEST_FADE_MS = 10
FADE_MS = 8
"""Between the two: splatter about 70 dB down, and the onset still clear."""


@lru_cache(maxsize=16)
def rising(length: int) -> Samples:
    """Return the ramp of a fade-in.

    Parameters
    ----------
    length
        Number of samples, 1 or more.

    Returns
    -------
    Samples
        Shape ``(length,)``, float32, from exactly 0 to exactly 1 (a single sample is 0),
        ``(1 - cos(pi * k / (length - 1))) / 2``; read-only, since it is kept.

    Raises
    ------
    ValueError
        The length is below 1.
    """
    if length < 1:
        raise ValueError(f"a fade has 1 sample or more, not {length}")
    ramp = (0.5 - 0.5 * np.cos(np.linspace(0.0, np.pi, length))).astype(np.float32)
    ramp.flags.writeable = False
    return ramp


def faded(clip: Samples, *, fade_ms: int = FADE_MS) -> Samples:
    """Return a copy that swells from exactly zero and dies away to exactly zero.

    Parameters
    ----------
    clip
        Shape ``(n,)``, float32, range [-1, 1]; at least two fades long.
    fade_ms
        Length of each fade, 5 to 10 ms.

    Returns
    -------
    Samples
        Shape ``(n,)``, float32, range [-1, 1]; its first and last samples are 0.

    Raises
    ------
    ValueError
        The fade is not 5 to 10 ms long, or two fades are longer than the clip.
    """
    if not SHORTEST_FADE_MS <= fade_ms <= LONGEST_FADE_MS:
        raise ValueError(
            f"a fade lasts {SHORTEST_FADE_MS} to {LONGEST_FADE_MS} ms, not {fade_ms} ms"
        )
    fade = rising(sample_at(fade_ms))
    if clip.size < 2 * fade.size:
        raise ValueError(f"a clip of {clip.size} samples is too short for two {fade_ms} ms fades")
    shaped = clip.copy()
    shaped[: fade.size] *= fade
    shaped[-fade.size :] *= fade[::-1]
    return shaped


def cut_short(clip: Samples, *, length: int) -> Samples:
    """Return the beginning of a clip, dying away to exactly zero at its last sample.

    Parameters
    ----------
    clip
        Shape ``(n,)``, float32, range [-1, 1].
    length
        Number of samples to keep, 1 to n; of these the last 8 ms, or all if fewer, fade.

    Returns
    -------
    Samples
        Shape ``(length,)``, float32, range [-1, 1]; a copy.

    Raises
    ------
    ValueError
        The length is below 1 or above n.
    """
    if not 1 <= length <= clip.size:
        raise ValueError(f"a clip of {clip.size} samples can't be cut to {length}")
    kept = clip[:length].copy()
    fade = rising(min(length, sample_at(FADE_MS)))
    kept[-fade.size :] *= fade[::-1]
    return kept
