"""A soft tone that goes on and on, its pitch following a height."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import exp, expm1, log

import numpy as np
import numpy.typing as npt
from numpy.polynomial import chebyshev, polynomial

from sounds_gen.fades import FADE_MS, rising
from sounds_gen.named import LOUD_DB
from sounds_gen.pitch import height_hz
from sounds_gen.samples import SAMPLE_RATE_HZ, Samples, sample_at
from sounds_gen.tones import PARTIALS
from sounds_gen.weighting import a_weighting_db

GLIDE_DB = LOUD_DB - 11.0
"""A-weighted level at every height: marks and speech stand out over it."""

SLUR_MS = 8
"""How long a jump of the height takes: to the ear at once, but without a click."""
SHORTEST_TILE_MS = 1000
"""A tile holds 329 periods or more, so that rounding them to a whole number bends the pitch by at
most half a period in 329, which is 2.7 cents."""
BLOCK = 8192
"""Samples made at a time: few enough for every step between to stay in the cache."""

Span = tuple[float, float, int]
"""Height at the beginning, height at the end, and length in ms."""


def glide(spans: Sequence[Span], *, repeats: int) -> Samples:
    """Return a tone that follows a cycle of heights as often as wanted.

    Only a cycle is made, and laid end to end: a cycle shorter than a second is first joined to
    others of its kind. Its pitch is corrected by less than 3 cents, so that a whole number of
    periods fits and the phase runs through every joint.

    Parameters
    ----------
    spans
        The cycle: in each span the height goes evenly from one value to another, from 0 (bottom,
        E4) to 1 (top, E5), and the pitch by equal intervals in equal times. Where a span does not
        begin at the height at which the one before it ended, the pitch slides there within 8 ms,
        or all of the span if that is shorter.
    repeats
        How often the cycle is heard, 1 or more.

    Returns
    -------
    Samples
        Shape ``(48 * repeats * cycle_ms,)``, float32, range [-0.2, 0.2], four partials, at the
        A-weighted level `GLIDE_DB` throughout; zero at both ends, which fade 8 ms. The
        fundamental is ``f(t) = f0 * r ** (t / T)`` in a span of length T.

    Raises
    ------
    ValueError
        There are no spans, one is shorter than 1 ms, a height is not from 0 to 1, or the cycle is
        to be heard less than once.
    """
    if repeats < 1:
        raise ValueError(f"a cycle is heard once or more, not {repeats} times")
    if not spans or any(lasts_ms < 1 for _, _, lasts_ms in spans):
        raise ValueError("a cycle has one span or more, and a span lasts 1 ms or more")
    cycle_ms = sum(lasts_ms for _, _, lasts_ms in spans)
    tile = _tile(_slurred(spans), cycles=-(-SHORTEST_TILE_MS // cycle_ms))
    track: Samples = np.resize(tile, sample_at(cycle_ms) * repeats)
    fade = rising(min(sample_at(FADE_MS), track.size // 2))
    track[: fade.size] *= fade
    track[-fade.size :] *= fade[::-1]
    return track


def _slurred(spans: Sequence[Span]) -> Iterator[Span]:
    """Yield the spans with a slur before each that does not begin where the last one ended."""
    height = spans[-1][1]
    for begins, ends, lasts_ms in spans:
        if begins == height:
            yield begins, ends, lasts_ms
        elif lasts_ms <= SLUR_MS:
            yield height, ends, lasts_ms
        else:
            reached = begins + (ends - begins) * SLUR_MS / lasts_ms
            yield height, reached, SLUR_MS
            yield reached, ends, lasts_ms - SLUR_MS
        height = ends


def _tile(spans: Iterator[Span], *, cycles: int) -> Samples:
    parts = list(spans) * cycles
    turns = sum(_turns(part) for part in parts)
    correction = round(turns) / turns
    tile = np.empty(sample_at(sum(lasts_ms for _, _, lasts_ms in parts)), dtype=np.float32)
    begun, turned = 0, 0.0
    for part in parts:
        samples = sample_at(part[2])
        _fill(tile[begun : begun + samples], part, turned=turned, correction=correction)
        begun += samples
        turned = (turned + correction * _turns(part)) % 1
    return tile


def _turns(span: Span) -> float:
    """Return the periods of the fundamental in a span: the integral of its frequency."""
    begins, ends, lasts_ms = span
    bend = log(height_hz(ends) / height_hz(begins))
    stretch = expm1(bend) / bend if bend else 1.0
    return height_hz(begins) * lasts_ms / 1000 * stretch


def _fill(target: Samples, span: Span, *, turned: float, correction: float) -> None:
    """Write a span, whose first sample has turned so many periods."""
    begins, ends, _ = span
    hz, bend = height_hz(begins), log(height_hz(ends) / height_hz(begins)) / target.size
    steps = np.arange(min(BLOCK, target.size) + 1, dtype=np.float64)
    # The course of every block is the same but for its scale: frequencies are geometric.
    course = (np.expm1(bend * steps) / bend if bend else steps) * (correction / SAMPLE_RATE_HZ)
    for start in range(0, target.size, BLOCK):
        block = target[start : start + BLOCK]
        scale = hz * exp(bend * start)
        turns = turned + scale * course[: block.size + 1]
        turned = float(turns[-1] % 1)
        block[:] = _wave(turns[:-1])
        # Even for a whole octave in one block a line is within 0.3 dB of the right gain.
        last = hz * exp(bend * (start + block.size))
        block *= np.linspace(_gain(scale), _gain(last), block.size, dtype=np.float32)


# cos(n x) is the Chebyshev polynomial T_n of cos(x), and sin(n x) is sin(x) T_n'(cos x) / n, so
# that four harmonics with phases of their own are P(cos x) + sin(x) Q(cos x).
_ORDERS = np.arange(1.0, len(PARTIALS) + 1)
_STRENGTHS = np.array([partial.strength for partial in PARTIALS])
_PHASES = np.pi * np.array([partial.turn for partial in PARTIALS])
_P = chebyshev.cheb2poly([0.0, *(_STRENGTHS * np.cos(_PHASES))]).astype(np.float32)
_Q = polynomial.polyder(
    chebyshev.cheb2poly([0.0, *(-_STRENGTHS * np.sin(_PHASES) / _ORDERS)])
).astype(np.float32)


def _wave(turns: npt.NDArray[np.float64]) -> Samples:
    """Return the harmonics at the given turns of the fundamental."""
    # Whole turns are dropped before the precision is: float32 then errs by less than -130 dB.
    phase = (turns - np.rint(turns)).astype(np.float32) * np.float32(2 * np.pi)
    cosine = np.cos(phase)
    wave: Samples = np.sin(phase) * _horner(_Q, at=cosine)
    wave += _horner(_P, at=cosine)
    return wave


def _horner(coefficients: Samples, *, at: Samples) -> Samples:
    value = np.full_like(at, coefficients[-1])
    for coefficient in coefficients[-2::-1]:
        value *= at
        value += coefficient
    return value


def _gain(pitch_hz: float) -> float:
    """Return what brings the harmonics of a fundamental to the level, by the A-weighting."""
    weights = 10 ** (a_weighting_db(pitch_hz * _ORDERS) / 10)
    return float(10 ** (GLIDE_DB / 20) / np.sqrt(np.sum(weights * np.square(_STRENGTHS) / 2)))
