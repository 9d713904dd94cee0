from __future__ import annotations

import hashlib
import re
from importlib.resources import files

import numpy as np
import pytest
from scipy.signal import butter, hilbert, resample_poly, sosfiltfilt

from sounds_gen.mixing import mix
from sounds_gen.named import LOUD_DB
from sounds_gen.voice.words import PHRASES, Spoken, energy_rise, number, upsampled, word
from sounds_gen.weighting import a_level_db

NUMBERS = {str(value): number(value) for value in range(1, 101)}
EVERY = NUMBERS | {name: word(name) for name in PHRASES}
PACKAGE = files("sounds_gen.voice")

PUT_TOGETHER = ("31", "42", "53", "64", "75", "86", "97", "38", "49", "66")
"""Of the numbers put together, with all tens and all units, and the sharpest: 66."""
STORED = [name for name in EVERY if not name.isdigit() or int(name) <= 30 or int(name) % 10 == 0]

every_word = pytest.mark.parametrize(
    "spoken", [pytest.param(EVERY[name], id=name) for name in (*STORED, *PUT_TOGETHER)]
)


@every_word
def test_every_word_begins_and_ends_at_zero_and_stays_in_range(spoken: Spoken) -> None:
    assert spoken.clip.dtype == np.float32
    # Between the stored samples, the first and last of which are 0, next to nothing is left.
    assert np.abs(spoken.clip[[0, -1]]).max() < 1e-3
    assert np.abs(spoken.clip).max() <= 1


@every_word
def test_every_word_is_as_loud_as_a_tone_that_matters(spoken: Spoken) -> None:
    assert a_level_db(spoken.clip) == pytest.approx(LOUD_DB, abs=0.2)


@every_word
def test_most_of_every_word_lies_where_signals_carry(spoken: Spoken) -> None:
    # ISO 7731: 300 to 3000 Hz, with enough of it below 1500 Hz.
    power = np.square(np.abs(np.fft.rfft(spoken.clip.astype(np.float64), 2**16)))
    hz = np.fft.rfftfreq(2**16, 1 / 48_000)
    assert power[(hz >= 300) & (hz <= 3000)].sum() > 0.6 * power.sum()
    assert power[hz < 1500].sum() > 0.5 * power.sum()
    assert power[hz < 250].sum() < 0.01 * power.sum()


def test_every_number_of_one_clip_fits_400_ms_and_every_other_550() -> None:
    clips = {value: number(value).clip.size for value in range(1, 101)}
    single = {value for value in clips if value <= 30 or value % 10 == 0}
    assert max(clips[value] for value in single) <= 48 * 400
    assert max(clips.values()) <= 48 * 550


@pytest.mark.parametrize("name", PHRASES)
def test_a_phrase_fits_700_ms_and_a_single_word_450(name: str) -> None:
    assert word(name).clip.size <= 48 * (700 if " " in name else 450)


def test_no_two_words_are_the_same() -> None:
    assert len({spoken.clip.tobytes() for spoken in EVERY.values()}) == len(EVERY)


def test_a_number_above_30_is_its_tens_and_its_units() -> None:
    forty_two, forty_nine, sixty_two = number(42).clip, number(49).clip, number(62).clip

    # Away from the joint, where the one rings into the other.
    np.testing.assert_allclose(forty_two[:7200], forty_nine[:7200], atol=2e-3)
    np.testing.assert_allclose(forty_two[-4800:], sixty_two[-4800:], atol=2e-3)


@pytest.mark.parametrize("low_hz", [20, 25, 30])
def test_the_beats_of_an_even_row_are_even_within_10_ms(low_hz: int) -> None:
    moments_ms = [1000 * place for place in range(1, len(EVERY) + 1)]
    track = mix(
        [], speech=zip(moments_ms, EVERY.values(), strict=True), length_ms=1000 * (len(EVERY) + 2)
    )

    # Independent of this project: the envelope of scipy.signal.hilbert, squared and smoothed by a
    # Butterworth low-pass in both directions; its rise to half of the word's peak. One sample in
    # three is enough, since the clips hold nothing above 8 kHz.
    low = butter(2, low_hz, fs=16_000, output="sos")
    late_ms = []
    for at_ms in moments_ms:
        around = track[48 * (at_ms - 300) : 48 * (at_ms + 700) : 3].astype(np.float64)
        energy = sosfiltfilt(low, np.square(np.abs(hilbert(around))))
        late_ms.append(np.argmax(energy >= energy.max() / 2) / 16 - 300)
    assert max(late_ms) - min(late_ms) < 10


def test_without_their_beats_words_are_not_even() -> None:
    beats_ms = [spoken.beat / 48 for spoken in EVERY.values()]

    assert max(beats_ms) - min(beats_ms) > 60


def test_the_energy_rise_of_a_step_is_the_step() -> None:
    step = np.concatenate([np.zeros(4800), np.ones(9600)])

    # Half of the window lies behind the step when half of the energy is reached.
    assert energy_rise(step, rate_hz=48_000) == pytest.approx(4800, abs=2)


def test_upsampling_agrees_with_another() -> None:
    moments_s = np.arange(1600) / 16_000
    clip = np.hanning(1600) * np.sin(2 * np.pi * 1000 * moments_s)

    # scipy.signal.resample_poly, whose filter droops a little.
    np.testing.assert_allclose(upsampled(clip), resample_poly(clip, 3, 1), atol=2e-3)


def test_the_clips_are_those_of_their_origin_and_small() -> None:
    clips = PACKAGE.joinpath("words.npz").read_bytes()

    stated = re.search(r"SHA-256: `([0-9a-f]{64})`", PACKAGE.joinpath("ORIGIN.md").read_text())
    assert stated
    assert stated[1] == hashlib.sha256(clips).hexdigest()
    assert sum(len(file.read_bytes()) for file in PACKAGE.iterdir() if file.is_file()) < 600_000


def test_a_word_is_made_once_and_cannot_be_spoiled() -> None:
    assert number(17) is number(17)
    assert word("lower") is word("lower")
    with pytest.raises(ValueError, match="read-only"):
        word("lower").clip[0] = 1.0


@pytest.mark.parametrize("value", [0, -1, 101])
def test_a_number_that_is_never_counted_is_refused(value: int) -> None:
    with pytest.raises(ValueError, match=f"from 1 to 100, not {value}"):
        number(value)


def test_an_unknown_word_is_refused_with_those_there_are() -> None:
    with pytest.raises(ValueError, match=r"lower, pause, .* not 'squeeze'"):
        word("squeeze")
