"""The device player, recorded from the card it plays on."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from sounds_gen import named
from sounds_gen.mixing import lay_out
from sounds_gen.pcm import Pcm, to_pcm
from sounds_gen.samples import Samples, sample_at
from tests.audio.play_track import Played
from tests.audio.recording import Recorder, onsets
from tests.audio.sound_server import SoundServer

pytestmark = pytest.mark.audio

ROOT = Path(__file__).parents[2]
FALLS_MS = [0, 1500, 4001, 6567, 9999]
RISES_MS = [750, 3333, 5750, 8123]
TRACK = lay_out(
    sorted(
        [(at_ms, named.fall()) for at_ms in FALLS_MS]
        + [(at_ms, named.rise()) for at_ms in RISES_MS],
        key=lambda placed: placed[0],
    ),
    length_ms=11_000,
)
DRONE = lay_out([(at_ms, named.level(0.5)) for at_ms in range(0, 4000, 200)], length_ms=4000)
NEVER_S = 60.0


def played(
    track: Samples, *, server: SoundServer, folder: Path, silence_after_s: float = NEVER_S
) -> tuple[Played, Recorder]:
    file = folder / "track.npy"
    np.save(file, track)
    command = [sys.executable, "-m", "tests.audio.play_track", str(file), str(silence_after_s)]
    with Recorder(server) as recorder:
        done = subprocess.run(
            command, cwd=ROOT, env=server.env, check=True, capture_output=True, text=True
        )
        # What the server still holds is heard before the recorder stops.
        time.sleep(0.3)
    return Played(**json.loads(done.stdout)), recorder


def sounding(pcm: Pcm) -> Pcm:
    heard = np.flatnonzero(pcm)
    return pcm[heard[0] : heard[-1] + 1]


def test_what_is_heard_is_the_track_bit_by_bit_and_each_onset_in_its_place(
    sound_server: SoundServer, tmp_path: Path
) -> None:
    _, recorder = played(TRACK, server=sound_server, folder=tmp_path)

    falls = onsets(recorder.pcm, of=named.fall())
    rises = onsets(recorder.pcm, of=named.rise())
    start = falls[0]
    assert [onset - start for onset in falls] == [sample_at(at_ms) for at_ms in FALLS_MS]
    assert [onset - start for onset in rises] == [sample_at(at_ms) for at_ms in RISES_MS]
    np.testing.assert_array_equal(sounding(recorder.pcm), sounding(to_pcm(TRACK)))


def test_the_first_sample_is_heard_when_the_lag_says(
    sound_server: SoundServer, tmp_path: Path
) -> None:
    # The recorder's clock and the server's blocks leave an uncertainty of about 20 ms; sound and
    # picture are felt to part at 45 ms (ITU-R BT.1359-1).
    track = TRACK[: sample_at(700)]

    playback, recorder = played(track, server=sound_server, folder=tmp_path)

    [onset] = onsets(recorder.pcm, of=named.fall())
    lag_ms = 1000 * (recorder.moment_s(onset) - playback.returned_s)
    assert lag_ms == pytest.approx(playback.lag_ms, abs=40)


@pytest.mark.parametrize("after_s", [0.9, 2.27])
def test_a_silenced_track_is_silent_within_150_ms(
    sound_server: SoundServer, tmp_path: Path, after_s: float
) -> None:
    playback, recorder = played(
        DRONE, server=sound_server, folder=tmp_path, silence_after_s=after_s
    )

    last_s = recorder.moment_s(int(np.flatnonzero(recorder.pcm)[-1]))
    first_s = recorder.moment_s(int(np.flatnonzero(recorder.pcm)[0]))
    assert first_s < playback.silenced_s
    assert last_s - playback.silenced_s < 0.150


def test_a_track_sounds_until_it_has_been_heard_and_no_longer(
    sound_server: SoundServer, tmp_path: Path
) -> None:
    playback, _ = played(DRONE, server=sound_server, folder=tmp_path)

    sounded_s = playback.ended_s - playback.returned_s
    assert sounded_s == pytest.approx(4.0 + playback.lag_ms / 1000, abs=0.5)


def test_an_empty_track_is_heard_as_silence(sound_server: SoundServer, tmp_path: Path) -> None:
    playback, recorder = played(np.zeros(0, dtype=np.float32), server=sound_server, folder=tmp_path)

    assert playback.ended_s - playback.returned_s < 2.0
    assert not recorder.pcm.any()
