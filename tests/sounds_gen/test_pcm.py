from __future__ import annotations

import io
import wave
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp
from scipy.io import wavfile

from sounds_gen import named
from sounds_gen.pcm import Pcm, from_pcm, read_wav, to_pcm, write_wav

PCM = hnp.arrays(np.int16, st.integers(0, 200), elements=st.integers(-32_767, 32_767))


@pytest.mark.parametrize(
    ("value", "number"),
    [(0.0, 0), (1.0, 32_767), (-1.0, -32_767), (0.5, 16_384), (1.7, 32_767), (-9.0, -32_767)],
)
def test_values_are_clipped_then_rounded(value: float, number: int) -> None:
    pcm = to_pcm(np.array([value], dtype=np.float32))

    assert pcm.dtype == np.int16
    assert pcm.tolist() == [number]


def test_the_samples_are_fresh_and_in_one_piece() -> None:
    every_other = named.fall()[::2]

    pcm = to_pcm(every_other)

    assert pcm.flags.c_contiguous
    assert pcm.flags.owndata
    assert pcm.flags.writeable


@given(pcm=PCM)
def test_16_bit_samples_come_back_as_they_were(pcm: Pcm) -> None:
    np.testing.assert_array_equal(to_pcm(from_pcm(pcm)), pcm)


def test_the_lowest_16_bit_sample_stays_in_range() -> None:
    assert from_pcm(np.array([-32_768], dtype=np.int16)).tolist() == [-1.0]


def test_another_reader_finds_what_was_written(tmp_path: Path) -> None:
    path = tmp_path / "fall.wav"

    write_wav(named.fall(), to=path)

    # scipy.io.wavfile as the outside reader.
    rate_hz, samples = wavfile.read(path)
    assert rate_hz == 48_000
    assert samples.dtype == np.int16
    np.testing.assert_array_equal(samples, to_pcm(named.fall()))


def test_what_another_writer_wrote_is_read(tmp_path: Path) -> None:
    path = tmp_path / "rise.wav"
    wavfile.write(path, 48_000, to_pcm(named.rise()))

    np.testing.assert_array_equal(to_pcm(read_wav(path)), to_pcm(named.rise()))


@given(pcm=PCM)
def test_a_file_object_is_written_read_and_left_open(pcm: Pcm) -> None:
    file = io.BytesIO()

    write_wav(from_pcm(pcm), to=file)
    file.seek(0)
    track = read_wav(file)

    assert not file.closed
    np.testing.assert_array_equal(to_pcm(track), pcm)


def test_a_file_that_cannot_be_opened_is_an_os_error(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        write_wav(named.fall(), to=tmp_path / "nowhere" / "fall.wav")
    with pytest.raises(FileNotFoundError):
        read_wav(tmp_path / "fall.wav")


@pytest.mark.parametrize(
    ("rate_hz", "channels", "bits"), [(44_100, 1, 16), (48_000, 2, 16), (48_000, 1, 8)]
)
def test_another_form_of_sound_is_refused(rate_hz: int, channels: int, bits: int) -> None:
    file = io.BytesIO()
    with wave.open(file, "wb") as writer:
        writer.setframerate(rate_hz)
        writer.setnchannels(channels)
        writer.setsampwidth(bits // 8)
        writer.writeframes(bytes(channels * bits // 8))
    file.seek(0)

    with pytest.raises(ValueError, match=f"not {rate_hz}, {channels}, {bits}"):
        read_wav(file)


@pytest.mark.parametrize("content", [b"", b"RIFF", b"a text that is no sound at all"])
def test_a_file_that_is_no_wav_is_refused(content: bytes) -> None:
    with pytest.raises(ValueError, match="not a WAV file"):
        read_wav(io.BytesIO(content))
