"""Clips laid out on one track, one at a time."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import numpy as np

from sounds_gen.fades import cut_short
from sounds_gen.samples import Samples, sample_at


def lay_out(placed: Iterable[tuple[int, Samples]], *, length_ms: int) -> Samples:
    """Return a track on which each clip begins at its moment and gives way to the next.

    Clips are never summed, so the track is nowhere louder than the loudest clip. Silence is not
    touched: a minute with 100 clips takes a few milliseconds.

    Parameters
    ----------
    placed
        Moments in ms from the start of the track, each later than the one before, and the clip
        that begins there: shape ``(n,)``, float32, range [-1, 1].
    length_ms
        Length of the track, 0 ms or more.

    Returns
    -------
    Samples
        Shape ``(48 * length_ms,)``, float32, range [-1, 1]. Each clip begins at exactly
        ``sample_at(at_ms)``. A clip still sounding when the next begins, or when the track ends,
        is cut so that its last sample before that is 0.

    Raises
    ------
    ValueError
        A moment lies outside the track or is not later than the one before it, or the length
        is below 0.
    """
    if length_ms < 0:
        raise ValueError(f"a track lasts 0 ms or more, not {length_ms} ms")
    track = np.zeros(sample_at(length_ms), dtype=np.float32)
    clips = list(placed)
    for at_ms, _ in clips:
        if not 0 <= at_ms < length_ms:
            raise ValueError(f"no clip can begin at {at_ms} ms on a track of {length_ms} ms")
    nothing = np.zeros(0, dtype=np.float32)
    for (at_ms, clip), (next_ms, _) in pairwise([*clips, (length_ms, nothing)]):
        if next_ms <= at_ms:
            raise ValueError(f"a clip at {next_ms} ms can't follow one at {at_ms} ms")
        onset = sample_at(at_ms)
        room = sample_at(next_ms) - onset
        heard = clip if clip.size <= room else cut_short(clip, length=room)
        track[onset : onset + heard.size] = heard
    return track
