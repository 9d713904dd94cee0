"""The named sounds: told apart by direction and rhythm, alike in loudness.

Each lies within one octave, low enough for its four partials to stay between 300 and 3000 Hz with
energy below 1500 Hz, where signals carry best in noise (ISO 7731). All are kept once made, and so
read-only.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import accumulate

from sounds_gen.fades import faded
from sounds_gen.mixing import lay_out
from sounds_gen.pitch import NOTES_AN_OCTAVE, height_hz
from sounds_gen.samples import Samples
from sounds_gen.tones import tone
from sounds_gen.weighting import levelled

FIFTH = 7 / NOTES_AN_OCTAVE
"""Height of B4, which goes with both."""

LOUD_DB = -11.0
"""A-weighted level of the sounds that matter, spoken words among them.

It is what words reach within [-1, 1] without being limited beyond recognition: their peaks stand
11 dB above their level, those of tones 6 dB. `mixing.mix` brings a finished track to full level.
"""
SOFT_DB = LOUD_DB - 8.0
"""A-weighted level of the sounds that only accompany."""

GLIDE_MS = 350
HOLD_MS = 250
SHARP_MS = 100
BLIP_MS = 120
TICK_MS = 60
NOTE_MS = 140
LAST_NOTE_MS = 620
GAP_MS = 30
"""Silence between the strokes of a sound that has several."""


def fall(*, twice: bool = False) -> Samples:
    """Return a sound that sinks from top to bottom.

    Parameters
    ----------
    twice
        It is heard two times, each in half the time: the rhythm marks it.

    Returns
    -------
    Samples
        Shape ``(n,)``, float32, range [-0.9, 0.9], 350 ms (380 ms if twice); read-only.
    """
    return _loud(Stroke(1.0, 0.0, GLIDE_MS), twice=twice)


def rise(*, twice: bool = False) -> Samples:
    """Return a sound that climbs from bottom to top.

    Parameters
    ----------
    twice
        As for `fall`.

    Returns
    -------
    Samples
        Shape ``(n,)``, float32, range [-0.9, 0.9], 350 ms (380 ms if twice); read-only.
    """
    return _loud(Stroke(0.0, 1.0, GLIDE_MS), twice=twice)


def snap(*, twice: bool = False) -> Samples:
    """Return a short, sharp rise.

    Parameters
    ----------
    twice
        As for `fall`.

    Returns
    -------
    Samples
        Shape ``(n,)``, float32, range [-0.9, 0.9], 100 ms (130 ms if twice); read-only.
    """
    return _loud(Stroke(0.0, 1.0, SHARP_MS), twice=twice)


def level(height: float, *, twice: bool = False) -> Samples:
    """Return a steady sound.

    Parameters
    ----------
    height
        Its pitch, from 0 (bottom, E4) to 1 (top, E5), by equal intervals.
    twice
        As for `fall`.

    Returns
    -------
    Samples
        Shape ``(n,)``, float32, range [-0.9, 0.9], 250 ms (280 ms if twice); read-only.

    Raises
    ------
    ValueError
        The height is not from 0 to 1.
    """
    return _loud(Stroke(height, height, HOLD_MS), twice=twice)


def step(height: float) -> Samples:
    """Return a short soft tick.

    Parameters
    ----------
    height
        Its pitch, as for `level`.

    Returns
    -------
    Samples
        Shape ``(2880,)``, float32, range [-0.5, 0.5], 60 ms; read-only.

    Raises
    ------
    ValueError
        The height is not from 0 to 1.
    """
    return _sound(Stroke(height, height, TICK_MS), level_db=SOFT_DB)


def call() -> Samples:
    """Return one blip that says: make ready.

    Returns
    -------
    Samples
        Shape ``(5760,)``, float32, range [-0.9, 0.9], 120 ms; read-only.
    """
    return _loud(Stroke(1.0, 1.0, BLIP_MS), twice=False)


def close() -> Samples:
    """Return the sound that ends everything: three notes stepping down, the last held.

    Returns
    -------
    Samples
        Shape ``(46080,)``, float32, range [-0.9, 0.9], 960 ms; read-only.
    """
    return _sound(
        Stroke(1.0, 1.0, NOTE_MS),
        Stroke(FIFTH, FIFTH, NOTE_MS),
        Stroke(0.0, 0.0, LAST_NOTE_MS),
        level_db=LOUD_DB,
    )


def notice() -> Samples:
    """Return two soft notes stepping up: something begins soon.

    Returns
    -------
    Samples
        Shape ``(14880,)``, float32, range [-0.5, 0.5], 310 ms; read-only.
    """
    return _sound(Stroke(FIFTH, FIFTH, NOTE_MS), Stroke(1.0, 1.0, NOTE_MS), level_db=SOFT_DB)


@dataclass(frozen=True)
class Stroke:
    """One unbroken tone of a sound."""

    from_height: float
    to_height: float
    length_ms: int

    def samples(self) -> Samples:
        """Return the tone with its fades."""
        return faded(
            tone(
                height_hz(self.from_height),
                to_hz=height_hz(self.to_height),
                length_ms=self.length_ms,
            )
        )

    def in_half_the_time(self) -> Stroke:
        """Return the same movement, twice as quick."""
        return replace(self, length_ms=self.length_ms // 2)


def _loud(stroke: Stroke, *, twice: bool) -> Samples:
    if twice:
        quick = stroke.in_half_the_time()
        return _sound(quick, quick, level_db=LOUD_DB)
    return _sound(stroke, level_db=LOUD_DB)


# A set asks for the same dozen over and over; heights between them could make more.
@lru_cache(maxsize=64)
def _sound(*strokes: Stroke, level_db: float) -> Samples:
    onsets_ms = list(accumulate((s.length_ms + GAP_MS for s in strokes), initial=0))
    joined = lay_out(
        zip(onsets_ms, (s.samples() for s in strokes), strict=False),
        length_ms=onsets_ms[-1] - GAP_MS,
    )
    sound = levelled(joined, level_db=level_db)
    sound.flags.writeable = False
    return sound
