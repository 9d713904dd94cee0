"""A set with every sound in it, found again in noise as loud as itself."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.fft import irfft, next_fast_len, rfft

from sounds_gen import named
from sounds_gen.mixing import mix
from sounds_gen.samples import Samples
from sounds_gen.voice.words import number, word
from sounds_gen.weighting import a_level_db

REPS = 20
REP_MS = 4750
KEPT = 6
"""Of the samples one in six is looked at: 8 kHz, enough for what lies below 3400 Hz."""
RATE_HZ = 48_000 // KEPT
BAND_HZ = (300, 3400)
SLACK_MS = 40
"""How far sounds found may overlap; those laid out never do."""

Wave = npt.NDArray[np.float32]


@dataclass(frozen=True)
class Heard:
    """A sound at the moment of its first sample."""

    at_ms: float
    kind: str


MARKS = {
    "call": named.call(),
    "fall": named.fall(),
    "fall twice": named.fall(twice=True),
    "rise": named.rise(),
    "rise twice": named.rise(twice=True),
    "snap": named.snap(),
    "snap twice": named.snap(twice=True),
    "level low": named.level(0.0),
    "level low twice": named.level(0.0, twice=True),
    "level high": named.level(1.0),
    "level high twice": named.level(1.0, twice=True),
    "close": named.close(),
}
WORDS = {str(value): number(value) for value in range(1, REPS + 1)} | {
    name: word(name)
    for name in ("lower", "pause", "raise", "top", "last rep", "rack it", "next set")
}
KINDS = MARKS | {name: spoken.clip for name, spoken in WORDS.items()}


def laid_out() -> tuple[Samples, list[Heard]]:
    """Return a set in which marks and words never sound together, and where each begins."""
    marks: list[tuple[int, str]] = []
    words: list[tuple[int, str]] = [(500, "next set")]
    marks += [(at_ms, "call") for at_ms in (1000, 2000, 3000)]
    for rep in range(1, REPS + 1):
        begins_ms = 4000 + (rep - 1) * REP_MS
        twice = " twice" if rep > REPS - 4 else ""
        raised = "snap" if rep % 2 else "rise"
        marks += [
            (begins_ms, "fall" + twice),
            (begins_ms + 1750, "level low" + twice),
            (begins_ms + 2750, raised + twice),
            (begins_ms + 3900, "level high" + twice),
        ]
        words += [
            (begins_ms + 550, "last rep" if rep == REPS else str(rep)),
            (begins_ms + 1250, "lower"),
            (begins_ms + 2200, "pause"),
            (begins_ms + 3300, "raise"),
            (begins_ms + 4350, "top"),
        ]
    ends_ms = 4000 + REPS * REP_MS
    words.append((ends_ms + 1200, "rack it"))
    marks.append((ends_ms, "close"))
    track = mix(
        [(at_ms, MARKS[kind]) for at_ms, kind in marks],
        speech=[(at_ms, WORDS[kind]) for at_ms, kind in words],
        length_ms=ends_ms + 2500,
    )
    begun = [Heard(at_ms, kind) for at_ms, kind in marks]
    begun += [Heard(at_ms - WORDS[kind].beat / 48, kind) for at_ms, kind in words]
    return track, sorted(begun, key=lambda heard: heard.at_ms)


def pink_noise(length: int, *, seed: int) -> Samples:
    """Return noise whose power falls as the frequency rises, down to 20 Hz."""
    white = rfft(np.random.default_rng(seed).standard_normal(length, np.float32))
    hz = np.fft.rfftfreq(length, 1 / 48_000)
    return np.asarray(
        irfft(white / np.sqrt(np.maximum(hz, 20)).astype(np.float32), length), dtype=np.float32
    )


def a_level_while_sounding_db(track: Samples) -> float:
    """Return the A-weighted level over the 10 ms stretches that are not silent."""
    tenths = track[: track.size // 480 * 480].reshape(-1, 480)
    share = np.mean(np.abs(tenths).max(axis=1) > 1e-3)
    return a_level_db(track) - float(10 * np.log10(share))


def in_band(wave: Samples) -> Wave:
    """Return what a listener to this band has, with pink noise made white, at 8 kHz."""
    length = next_fast_len(wave.size, real=True)
    length += -length % KEPT
    spectrum = rfft(wave, length)
    hz = np.fft.rfftfreq(length, 1 / 48_000)
    spectrum *= np.where((hz > BAND_HZ[0]) & (hz < BAND_HZ[1]), np.sqrt(hz), 0).astype(np.float32)
    return np.asarray(irfft(spectrum[: length // KEPT // 2 + 1], length // KEPT))


def matches(heard: Wave) -> Wave:
    """Return how well each kind of sound fits each moment, a row a kind.

    It is the output of a matched filter: the correlation with the sound, divided by the root of
    the sound's energy. In white noise it then has the same spread for every sound, long or short,
    and its square is the energy that the sound explains.
    """
    length = next_fast_len(heard.size + RATE_HZ, real=True)
    spectrum = rfft(heard, length)
    rows = []
    for clip in KINDS.values():
        sought = in_band(np.pad(clip, (0, 480)))
        crossed = irfft(spectrum * np.conj(rfft(sought, length)), length)
        rows.append(crossed[: heard.size] / np.sqrt(np.sum(np.square(sought))))
    return np.array(rows)


def found(fits: Wave, *, count: int) -> list[Heard]:
    """Return the best fits of any kind, so many, none within the time that a better one takes."""
    fits = fits.copy()
    best = fits.max(axis=0)
    lengths = [clip.size // KEPT - SLACK_MS * RATE_HZ // 1000 for clip in KINDS.values()]
    results = []
    for _ in range(count):
        at = int(best.argmax())
        kind = int(fits[:, at].argmax())
        results.append(Heard(at * 1000 / RATE_HZ, list(KINDS)[kind]))
        for row, length in enumerate(lengths):
            fits[row, max(0, at - length) : at + lengths[kind]] = -np.inf
        near = slice(max(0, at - max(lengths)), at + lengths[kind])
        best[near] = fits[:, near].max(axis=0)
    return results


def test_sounds_are_found_and_told_apart_in_noise_as_loud_as_they_are() -> None:
    track, begun = laid_out()
    half_a_minute = pink_noise(48_000 * 30, seed=1)
    gain_db = a_level_while_sounding_db(track) - a_level_db(half_a_minute)
    noise = np.resize(half_a_minute, track.size) * np.float32(10 ** (gain_db / 20))
    fits = matches(in_band(track + noise))

    results = found(fits, count=len(begun))

    near = [min(results, key=lambda result: abs(result.at_ms - one.at_ms)) for one in begun]
    in_time = [abs(result.at_ms - one.at_ms) < 10 for result, one in zip(near, begun, strict=True)]
    right = [result.kind == one.kind for result, one in zip(near, begun, strict=True)]
    assert np.mean(in_time) >= 0.99
    assert np.mean(np.logical_and(in_time, right)) >= 0.95
