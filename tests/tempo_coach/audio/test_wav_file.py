from __future__ import annotations

import resource
from pathlib import Path

import numpy as np
import pytest

from sounds_gen import named
from sounds_gen.mixing import lay_out
from sounds_gen.pcm import read_wav, to_pcm
from tempo_coach.audio.wav_file import WavFilePlayer
from tempo_coach.core.ports import Player
from tempo_coach.errors import FileProblem

SECOND = lay_out([(0, named.fall())], length_ms=1000)


def test_the_track_is_in_the_file_and_nothing_else_in_the_folder(tmp_path: Path) -> None:
    path = tmp_path / "set.wav"
    player: Player = WavFilePlayer(path)

    playback = player.play(SECOND)

    np.testing.assert_array_equal(to_pcm(read_wav(path)), to_pcm(SECOND))
    assert list(tmp_path.iterdir()) == [path]
    assert playback.lag_ms == 0
    assert not playback.is_sounding()


def test_silencing_leaves_the_file_alone(tmp_path: Path) -> None:
    path = tmp_path / "set.wav"
    playback = WavFilePlayer(path).play(SECOND)

    playback.silence()

    assert read_wav(path).size == SECOND.size


def test_a_second_track_takes_the_place_of_the_first(tmp_path: Path) -> None:
    player = WavFilePlayer(tmp_path / "set.wav")
    player.play(SECOND)

    player.play(named.rise())

    assert read_wav(tmp_path / "set.wav").size == named.rise().size


def test_an_empty_track_is_a_file_without_samples(tmp_path: Path) -> None:
    WavFilePlayer(tmp_path / "set.wav").play(SECOND[:0])

    assert read_wav(tmp_path / "set.wav").size == 0


def test_a_folder_that_does_not_exist_is_named(tmp_path: Path) -> None:
    path = tmp_path / "nowhere" / "set.wav"

    with pytest.raises(FileProblem, match="No such file or directory") as caught:
        WavFilePlayer(path).play(SECOND)

    assert caught.value.path == path
    assert str(path) in caught.value.message
    assert "folder that exists" in caught.value.hint


def test_a_folder_in_the_place_of_the_file_stays_and_no_part_is_left(tmp_path: Path) -> None:
    path = tmp_path / "set.wav"
    path.mkdir()

    with pytest.raises(FileProblem):
        WavFilePlayer(path).play(SECOND)

    assert list(tmp_path.iterdir()) == [path]


def test_a_track_that_does_not_fit_leaves_the_old_file_whole(tmp_path: Path) -> None:
    path = tmp_path / "set.wav"
    WavFilePlayer(path).play(named.rise())
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)

    # The kernel refuses what a file would have beyond 40,000 bytes, as a full disk would.
    resource.setrlimit(resource.RLIMIT_FSIZE, (40_000, hard))
    try:
        with pytest.raises(FileProblem, match="File too large"):
            WavFilePlayer(path).play(SECOND)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))

    np.testing.assert_array_equal(to_pcm(read_wav(path)), to_pcm(named.rise()))
    assert list(tmp_path.iterdir()) == [path]
