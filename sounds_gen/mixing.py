"""Clips laid out on one track: one layer of them, or several that give way to one another."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import TypeAlias

import numpy as np

from sounds_gen.fades import cut_short, rising
from sounds_gen.samples import SAMPLE_RATE_HZ, Samples, sample_at
from sounds_gen.voice.words import Spoken

PEAK = 10 ** (-1 / 20)
"""Highest sample of a finished track: -1 dBFS."""
DUCKED = 10 ** (-12 / 20)
"""What is left of a layer while one that matters more sounds."""
DUCKING_MS = 15
"""How long a layer takes to give way before that, and to come back behind it."""

Laid: TypeAlias = tuple[int, Samples]
"""The sample at which a clip begins, which may lie before the track, and the clip."""


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
    track = _silence(length_ms)
    _add(track, _layer(_on_the_beat(placed), length_ms=length_ms))
    return track


def mix(
    marks: Iterable[tuple[int, Samples]],
    *,
    glides: Iterable[tuple[int, Samples]] = (),
    speech: Iterable[tuple[int, Spoken]] = (),
    length_ms: int,
    volume: float = 1.0,
) -> Samples:
    """Return a finished track of up to three layers.

    What matters more is heard over what matters less: glides are 12 dB softer while a mark or a
    word sounds, marks while a word does. The gain moves along raised cosines of 15 ms that lie
    just before and just behind that sound. Within a layer a clip gives way to the next.

    Parameters
    ----------
    marks
        As for `lay_out`.
    glides
        Likewise, for what sounds beneath.
    speech
        Likewise, but a word begins before its moment, so that its beat falls on it. What of it
        would lie before the track is left out.
    length_ms
        Length of the track, 0 ms or more.
    volume
        Amplitude of the finished track, from 0 to 1.

    Returns
    -------
    Samples
        Shape ``(48 * length_ms,)``, float32; its highest sample is `PEAK` times the volume,
        unless it is silent. No other array of its length is made.

    Raises
    ------
    ValueError
        As for `lay_out`, or the volume is not from 0 to 1.
    """
    if not 0 <= volume <= 1:
        raise ValueError(f"a volume lies from 0 to 1, not at {volume}")
    track = _silence(length_ms)
    tones = _layer(_on_the_beat(marks), length_ms=length_ms)
    words = _layer(speech, length_ms=length_ms)
    _add(track, _layer(_on_the_beat(glides), length_ms=length_ms))
    _duck(track, beneath=tones)
    _add(track, tones)
    _duck(track, beneath=words)
    _add(track, words)
    _finish(track, peak=PEAK * volume)
    return track


def _silence(length_ms: int) -> Samples:
    if length_ms < 0:
        raise ValueError(f"a track lasts 0 ms or more, not {length_ms} ms")
    return np.zeros(sample_at(length_ms), dtype=np.float32)


def _layer(placed: Iterable[tuple[int, Spoken]], *, length_ms: int) -> list[Laid]:
    """Return what is heard of the clips of one layer, in the order of time."""
    clips = list(placed)
    for at_ms, _ in clips:
        if not 0 <= at_ms < length_ms:
            raise ValueError(f"no clip can begin at {at_ms} ms on a track of {length_ms} ms")
    for (at_ms, _), (next_ms, _) in pairwise(clips):
        if next_ms <= at_ms:
            raise ValueError(f"a clip at {next_ms} ms can't follow one at {at_ms} ms")
    heard: list[Laid] = []
    end = sample_at(length_ms)
    # From the last to the first, since a word may begin before one that has an earlier moment.
    for at_ms, spoken in reversed(clips):
        onset, clip = sample_at(at_ms) - spoken.beat, spoken.clip
        if onset < 0:
            onset, clip = 0, _begun(clip, at=-onset)
        room = end - onset
        if room > 0:
            heard.append((onset, clip if clip.size <= room else cut_short(clip, length=room)))
            end = onset
    return heard[::-1]


def _on_the_beat(clips: Iterable[tuple[int, Samples]]) -> Iterator[tuple[int, Spoken]]:
    return ((at_ms, Spoken(clip, beat=0)) for at_ms, clip in clips)


def _begun(clip: Samples, *, at: int) -> Samples:
    """Return the rest of a clip, swelling from exactly zero."""
    return cut_short(clip[::-1], length=clip.size - at)[::-1]


def _add(track: Samples, layer: Iterable[Laid]) -> None:
    for onset, clip in layer:
        track[onset : onset + clip.size] += clip


def _duck(track: Samples, *, beneath: Iterable[Laid]) -> None:
    ramp = sample_at(DUCKING_MS)
    falling = 1 - np.float32(1 - DUCKED) * rising(ramp)
    for start, end in _stretches(beneath, gap=2 * ramp):
        before = track[max(0, start - ramp) : start]
        before *= falling[ramp - before.size :]
        track[start:end] *= np.float32(DUCKED)
        behind = track[end : end + ramp]
        behind *= falling[::-1][: behind.size]


def _stretches(layer: Iterable[Laid], *, gap: int) -> list[tuple[int, int]]:
    """Return where a layer sounds, taking no notice of silences up to the gap."""
    stretches: list[tuple[int, int]] = []
    for onset, clip in layer:
        begins = onset
        if stretches and onset - stretches[-1][1] <= gap:
            begins = stretches.pop()[0]
        stretches.append((begins, onset + clip.size))
    return stretches


def _finish(track: Samples, *, peak: float) -> None:
    # A second at a time: silence is only read, and nothing else of the track's length is made.
    parts = [track[at : at + SAMPLE_RATE_HZ] for at in range(0, track.size, SAMPLE_RATE_HZ)]
    peaks = [max(float(part.max()), -float(part.min())) for part in parts]
    loudest = max(peaks, default=0.0)
    for part, highest in zip(parts, peaks, strict=True):
        if highest:
            np.multiply(part, np.float32(peak / loudest), out=part)
