"""How the clips of the voice are made: eSpeak NG speaks, and each word is made to fit.

``python -m sounds_gen.voice.record`` writes the clips and their origin anew. It needs SciPy and
the program ``espeak-ng``, neither of which is needed to use the clips.
"""

from __future__ import annotations

import hashlib
import subprocess
import tempfile
import wave
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

import numpy as np
import numpy.typing as npt
from scipy.ndimage import minimum_filter1d
from scipy.signal import butter, hilbert, resample_poly, sosfiltfilt

from sounds_gen.named import LOUD_DB
from sounds_gen.voice.words import (
    CLIPS_FILE,
    HIGHEST_IN_ONE_CLIP,
    HIGHEST_NUMBER,
    PHRASES,
    STORED_FULL_SCALE,
    STORED_RATE_HZ,
    Stored,
    tens_key,
    units_key,
    upsampled,
)
from sounds_gen.weighting import a_level_db

Wave: TypeAlias = npt.NDArray[np.float64]
"""Shape ``(n,)``, float64, 16 kHz."""

PROGRAM = "espeak-ng"
VOICE = "en-us+klatt4"
"""Of nine tried, the one that a recogniser (PocketSphinx, with 48 words to choose from, most of
them these) understood best: 47 as spoken at leisure, 37 quick, limited and without highs."""
SLOWEST_WPM = 180
FASTEST_WPM = 450
STEP_WPM = 10

NUMBER_MS = 400
TENS_MS = 280
UNITS_MS = 270
"""The parts of a number that is put together: in 400 ms for both, a recogniser lost most."""
WORD_MS = 450
SIDE_MS = 290
"""Left and right are told apart quickly, and this keeps the file below 500 kB."""
PHRASE_MS = 700

LOWEST_HZ = 300
HIGHEST_HZ = 4500
"""Of a slope so gentle that most energy lies below 3000 Hz, and still s, f and t can be heard."""
SILENT_DB = -30.0
"""Beside the loudest moment; what is softer at either end is cut off."""
MARGIN_MS = 3
SMOOTHING_MS = 20
LIMITER_MS = 1
PEAK = 0.99
"""Highest sample: room for the rounding of the stored form."""
THRESHOLD = 0.92
"""Where limiting begins, a little lower, since filtering lifts peaks again."""
MOST_ROUNDS = 60
FADE_MS = 6

UNITS = (
    *("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen"),
    *("eighteen", "nineteen"),
)
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")

ORIGIN = """# Origin of the clips

`{file}` holds the voice: spoken numbers and phrases, mono, {rate_hz} Hz, int16 with {scale} for
full scale.

- Made by: `python -m sounds_gen.voice.record` (needs SciPy and `{program}`), which writes this
  page too.
- Spoken by: {version}, voice `{voice}`, each word in a process of its own.
- Licence of that program: GPL-3.0. It was run as a separate program; nothing of it is linked,
  imported or shipped.
- Then, with NumPy and SciPy: cut to its sounding part, band-limited from {low_hz} Hz with a gentle
  slope above {high_hz} Hz, peaks limited, and brought to the A-weighted level of the tones.
  Each word is spoken as slowly as its time allows.
- Made again with the same versions, the bytes are the same.

SHA-256: `{sha256}`
"""


@dataclass(frozen=True, slots=True)
class Line:
    """Something to be said, and in how much time."""

    key: str
    text: str
    most_ms: int


def lines() -> Iterator[Line]:
    """Yield everything that the voice says, in the order in which it is recorded."""
    for value in (*range(1, HIGHEST_IN_ONE_CLIP + 1), *range(40, HIGHEST_NUMBER + 1, 10)):
        yield Line(str(value), _spelled(value), NUMBER_MS)
    for tens in range(HIGHEST_IN_ONE_CLIP // 10, 10):
        yield Line(tens_key(tens), _spelled(10 * tens), TENS_MS)
    for units in range(1, 10):
        yield Line(units_key(units), _spelled(units), UNITS_MS)
    for phrase in PHRASES:
        yield Line(phrase, phrase, _phrase_ms(phrase))


def recorded(line: Line) -> Stored:
    """Return the clip of a line, spoken as slowly as its time allows.

    Returns
    -------
    Stored
        Shape ``(n,)``, int16, range [-511, 511], 16 kHz, zero at both ends.

    Raises
    ------
    ValueError
        It can't be said in that time.
    OSError
        The program can't be run.
    """
    for wpm in range(SLOWEST_WPM, FASTEST_WPM + 1, STEP_WPM):
        trimmed = _trimmed(_in_band(_spoken(line.text, wpm=wpm)))
        if trimmed.size <= line.most_ms * STORED_RATE_HZ // 1000:
            return np.rint(_levelled(_faded(trimmed)) * STORED_FULL_SCALE).astype(np.int16)
    raise ValueError(f"{line.text!r} can't be said in {line.most_ms} ms")


def main() -> None:
    """Write the clips and their origin beside this module."""
    folder = Path(__file__).parent
    clips = {line.key: recorded(line) for line in lines()}
    np.savez_compressed(
        folder / CLIPS_FILE,
        **clips,  # type: ignore[arg-type] # the names are keywords, taken for its one option
    )
    (folder / "ORIGIN.md").write_text(
        ORIGIN.format(
            file=CLIPS_FILE,
            rate_hz=STORED_RATE_HZ,
            scale=STORED_FULL_SCALE,
            program=PROGRAM,
            version=_run("--version").split("  Data at")[0],
            voice=VOICE,
            low_hz=LOWEST_HZ,
            high_hz=HIGHEST_HZ,
            sha256=hashlib.sha256((folder / CLIPS_FILE).read_bytes()).hexdigest(),
        ),
        encoding="utf-8",
    )


def _phrase_ms(phrase: str) -> int:
    if phrase in ("left", "right"):
        return SIDE_MS
    return PHRASE_MS if " " in phrase else WORD_MS


def _spelled(value: int) -> str:
    if value == HIGHEST_NUMBER:
        return "one hundred"
    if value <= len(UNITS):
        return UNITS[value - 1]
    tens, units = divmod(value, 10)
    return f"{TENS[tens - 2]} {UNITS[units - 1]}" if units else TENS[tens - 2]


def _run(*arguments: str) -> str:
    done = subprocess.run(  # noqa: S603 - a constant program with constant words
        [PROGRAM, *arguments], check=True, capture_output=True, text=True
    )
    return done.stdout.strip()


def _spoken(text: str, *, wpm: int) -> Wave:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "word.wav")
        # A process for each word: within one, the program does not repeat itself exactly.
        _run("-v", VOICE, "-s", str(wpm), "-w", str(path), text)
        with wave.open(str(path)) as file:
            spoken = np.frombuffer(file.readframes(file.getnframes()), dtype="<i2")
            rate_hz = file.getframerate()
    clip = resample_poly(spoken.astype(np.float64), STORED_RATE_HZ, rate_hz)
    return np.pad(clip, STORED_RATE_HZ // 20)


def _in_band(clip: Wave) -> Wave:
    gentle = butter(1, HIGHEST_HZ, "lowpass", fs=STORED_RATE_HZ, output="sos")
    return _without_rumble(np.asarray(sosfiltfilt(gentle, clip)))


def _without_rumble(clip: Wave) -> Wave:
    steep = butter(4, LOWEST_HZ, "highpass", fs=STORED_RATE_HZ, output="sos")
    return np.asarray(sosfiltfilt(steep, clip))


def _trimmed(clip: Wave) -> Wave:
    energy = _smoothed(np.square(clip), window_ms=SMOOTHING_MS)
    [sounding] = np.nonzero(energy > energy.max() * 10 ** (SILENT_DB / 10))
    margin = MARGIN_MS * STORED_RATE_HZ // 1000
    return clip[max(0, sounding[0] - margin) : sounding[-1] + margin]


def _levelled(clip: Wave) -> Wave:
    # Limiting lowers the level and filtering raises peaks again, so both go on until they agree.
    for _ in range(MOST_ROUNDS):
        loud = clip * 10 ** ((LOUD_DB - a_level_db(upsampled(clip).astype(np.float32))) / 20)
        if np.max(np.abs(upsampled(loud))) <= PEAK:
            return loud
        clip = _faded(_without_rumble(_limited(loud, peak=THRESHOLD)))
    raise ValueError(f"this word can't reach {LOUD_DB} dB")


def _limited(clip: Wave, *, peak: float) -> Wave:
    length = LIMITER_MS * STORED_RATE_HZ // 1000
    gain = np.minimum(1.0, peak / np.maximum(np.abs(hilbert(clip)), peak))
    held = np.pad(minimum_filter1d(gain, length), length, mode="edge")
    return clip * _smoothed(held, window_ms=LIMITER_MS)[length:-length]


def _smoothed(values: Wave, *, window_ms: int) -> Wave:
    window = np.hanning(window_ms * STORED_RATE_HZ // 1000 + 2)
    return np.convolve(values, window / window.sum(), mode="same")


def _faded(clip: Wave) -> Wave:
    ramp = 0.5 - 0.5 * np.cos(np.linspace(0.0, np.pi, FADE_MS * STORED_RATE_HZ // 1000))
    shaped = clip.copy()
    shaped[: ramp.size] *= ramp
    shaped[-ramp.size :] *= ramp[::-1]
    return shaped


if __name__ == "__main__":
    main()
