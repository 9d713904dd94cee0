"""The device player on a device that is a file, and on none at all."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from sounds_gen import named
from sounds_gen.pcm import to_pcm
from sounds_gen.samples import Samples
from tempo_coach.audio.device import DevicePlayer
from tempo_coach.core.ports import Playback, Player
from tempo_coach.errors import SoundUnavailable

# ALSA's own kinds: what is played is written to a file, and taken as fast as it comes.
FILE_DEVICE = """
pcm.!default {{
    type file
    file "{file}"
    format "raw"
    slave.pcm {{ type null }}
}}
"""
NO_DEVICE = "# No device has a name here.\n"

# For what ALSA and the interpreter keep for life, a process of its own.
PLAY = """
import numpy as np
from tempo_coach.audio import device
from tempo_coach.errors import SoundUnavailable
{before}
for _ in range(2):
    try:
        device.DevicePlayer().play(np.zeros(4800, dtype=np.float32))
    except SoundUnavailable as error:
        print(error)
"""
LONGEST_WAIT_S = 10.0


def use(config: str, *, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = folder / "alsa.conf"
    path.write_text(config)
    monkeypatch.setenv("ALSA_CONFIG_PATH", str(path))


def play_apart(*, before: str, folder: Path) -> subprocess.CompletedProcess[str]:
    config = folder / "alsa.conf"
    config.write_text(NO_DEVICE)
    return subprocess.run(
        [sys.executable, "-c", PLAY.format(before=before)],
        env=os.environ | {"ALSA_CONFIG_PATH": str(config), "PYTHONPATH": os.pathsep.join(sys.path)},
        check=True,
        capture_output=True,
        text=True,
    )


def wait_for_end(playback: Playback) -> None:
    deadline_s = time.monotonic() + LONGEST_WAIT_S
    while playback.is_sounding():
        assert time.monotonic() < deadline_s, "the device did not take the track"
        time.sleep(0.001)


@pytest.mark.parametrize("track", [named.fall(), named.fall()[:0]], ids=["a fall", "nothing"])
def test_the_device_is_given_300_ms_of_silence_and_then_the_track(
    track: Samples, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "played.raw"
    use(FILE_DEVICE.format(file=file), folder=tmp_path, monkeypatch=monkeypatch)
    player: Player = DevicePlayer()

    playback = player.play(track)
    wait_for_end(playback)

    taken = np.fromfile(file, dtype="<i2")
    assert not taken[:14_400].any()
    np.testing.assert_array_equal(taken[14_400 : 14_400 + track.size], to_pcm(track))
    assert not taken[14_400 + track.size :].any()
    assert playback.lag_ms >= 300


def test_silencing_what_has_ended_does_no_harm(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    use(FILE_DEVICE.format(file=os.devnull), folder=tmp_path, monkeypatch=monkeypatch)
    playback = DevicePlayer().play(named.snap())
    wait_for_end(playback)

    playback.silence()
    playback.silence()

    assert not playback.is_sounding()


def test_without_a_device_each_try_says_what_to_do_and_nothing_is_drawn_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    use(NO_DEVICE, folder=tmp_path, monkeypatch=monkeypatch)

    for _ in range(2):
        with pytest.raises(SoundUnavailable, match="take the track: No such file") as caught:
            DevicePlayer().play(named.fall())
        assert "--silent" in caught.value.hint

    assert capfd.readouterr().err == ""


def test_a_fresh_process_is_kept_quiet_too(tmp_path: Path) -> None:
    done = play_apart(before="", folder=tmp_path)

    assert done.stdout.count("did not take the track") == 2
    assert done.stderr == ""


def test_alsa_itself_would_have_drawn_over_the_screen(tmp_path: Path) -> None:
    done = play_apart(before="device.ALSA_LIBRARY = 'libabsent.so.0'", folder=tmp_path)

    assert done.stdout.count("did not take the track") == 2
    assert "ALSA lib" in done.stderr


def test_a_sound_library_that_cannot_be_loaded_is_a_lack_of_sound(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # Python's own way to say that a module can't be imported.
    monkeypatch.setitem(sys.modules, "simpleaudio", None)

    with pytest.raises(SoundUnavailable, match="sound can't be used") as caught:
        DevicePlayer().play(named.fall())

    assert "--silent" in caught.value.hint
