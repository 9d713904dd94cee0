from __future__ import annotations

import os
import sys
from collections.abc import Iterator

import numpy as np
import pytest

from sounds_gen.named import LOUD_DB
from sounds_gen.voice import record
from sounds_gen.voice.words import PHRASES, Stored, energy_rise, upsampled
from sounds_gen.weighting import a_level_db

SPEAKER = """#!{python}
import sys, wave

options = dict(zip(sys.argv[1::2], sys.argv[2::2]))
length = 90 * 22050 // int(options["-s"])
# A buzz of 120 Hz with silence around it.
pulse = b"\\x00\\x40" + bytes(2 * 183)
buzz = (pulse * (length // 184 + 1))[: 2 * length]
with wave.open(options["-w"], "wb") as file:
    file.setnchannels(1)
    file.setsampwidth(2)
    file.setframerate(22050)
    file.writeframes(bytes(4000) + buzz + bytes(4000))
"""
"""Says everything as a buzz, which takes 90 s divided by the words a minute."""


@pytest.fixture(scope="module")
def buzzer(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    program = tmp_path_factory.mktemp("bin") / record.PROGRAM
    program.write_text(SPEAKER.format(python=sys.executable), encoding="utf-8")
    program.chmod(0o755)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("PATH", str(program.parent), prepend=os.pathsep)
        yield


@pytest.fixture(scope="module")
def stored(buzzer: None) -> Stored:  # noqa: ARG001  # it needs the program, which has no value
    return record.recorded(record.Line("1", "one", 400))


def test_everything_that_is_stored_has_its_line() -> None:
    keys = [line.key for line in record.lines()]

    assert keys[:30] == [str(value) for value in range(1, 31)]
    assert keys[30:37] == ["40", "50", "60", "70", "80", "90", "100"]
    assert keys[37:53] == [
        *(f"{tens}0-" for tens in range(3, 10)),
        *(f"-{n}" for n in range(1, 10)),
    ]
    assert tuple(keys[53:]) == PHRASES


def test_numbers_are_spelled_as_they_are_said() -> None:
    said = {line.key: line.text for line in record.lines()}

    assert [said[key] for key in ("1", "19", "20", "27", "30", "90-", "-9", "100")] == [
        "one",
        "nineteen",
        "twenty",
        "twenty seven",
        "thirty",
        "ninety",
        "nine",
        "one hundred",
    ]


def test_a_word_is_spoken_as_slowly_as_its_time_allows(stored: Stored) -> None:
    # 90 s / 240 is 375 ms; at the next slower speed it is 391 ms, and with the margins too long.
    assert 360 < stored.size / 16 <= 400


def test_a_word_is_levelled_limited_and_without_rumble(stored: Stored) -> None:
    clip = upsampled(stored / 511).astype(np.float32)
    power = np.square(np.abs(np.fft.rfft(stored, 16_000)))
    assert a_level_db(clip) == pytest.approx(LOUD_DB, abs=0.1)
    assert np.abs(clip).max() <= 1
    assert stored[0] == stored[-1] == 0
    assert power[:250].sum() < 0.01 * power.sum()
    assert energy_rise(stored / 511, rate_hz=16_000) < 16 * 20


@pytest.mark.usefixtures("buzzer")
def test_what_cannot_be_said_in_its_time_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(record, "SLOWEST_WPM", record.FASTEST_WPM)
    with pytest.raises(ValueError, match="'one' can't be said in 150 ms"):
        record.recorded(record.Line("1", "one", 150))
