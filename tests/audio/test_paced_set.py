"""Whole sets through the real program, recorded from the card."""

from __future__ import annotations

import fcntl
import json
import os
import pty
import signal
import struct
import subprocess
import sys
import termios
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np
import pytest

from sounds_gen import named
from sounds_gen.pcm import Pcm, to_pcm
from sounds_gen.samples import sample_at
from tempo_coach.core.cue_sets import set_track
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.settings import parse_cues
from tempo_coach.core.spoken_cues import spoken_cues
from tempo_coach.core.timeline import Timeline
from tests.audio.recording import Recorder, onsets
from tests.audio.sound_server import SoundServer

pytestmark = pytest.mark.audio

ROOT = Path(__file__).parents[2]
LINE = "squat 1x2 @ 60 kg 2-1-X-1"
TIMELINE = Timeline.of(parse_prescription(LINE), setup_ms=3000)
# A key just after the screen has changed may be one held down, so it is left out.
STEADY_S = 1.5
PAGE_DOWN, QUIT = b"\x1b[6~", b"\x11"
# Sound early by 45 ms or late by 125 ms against a picture is noticed (ITU-R BT.1359-1).
EARLY_S, LATE_S = 0.045, 0.125


@contextmanager
def started(
    server: SoundServer, log: Path, *arguments: str, terminal: int | None = None
) -> Iterator[subprocess.Popen[str]]:
    """Run the program beside the block, with nothing remembered from before."""
    end = subprocess.PIPE if terminal is None else terminal
    with subprocess.Popen(
        [sys.executable, "-m", "tempo_coach", *arguments],
        cwd=ROOT,
        env=server.env
        | {
            "TEMPO_COACH_LOG": str(log),
            "TEMPO_COACH_LIFTER": "Mirela Oude",
            "TERM": "xterm-256color",
            "XDG_STATE_HOME": str(log.parent),
            "TEMPO_COACH_SOUND_CHECK": "false",
            "TEMPO_COACH_SORENESS_CHECK": "false",
        },
        stdin=subprocess.DEVNULL if terminal is None else terminal,
        stdout=end,
        stderr=end,
        text=True,
        start_new_session=True,
    ) as process:
        try:
            yield process
        finally:
            process.kill()


@contextmanager
def pseudo_terminal() -> Iterator[tuple[int, int, bytearray]]:
    """Yield the two ends of an 80x24 terminal, and all that has been drawn on it."""
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    drawn = bytearray()

    def draw() -> None:
        try:
            while piece := os.read(ours, 65536):
                drawn.extend(piece)
        except OSError:
            return  # how Linux says that the other end is closed

    reader = threading.Thread(target=draw, daemon=True)
    reader.start()
    try:
        yield ours, theirs, drawn
    finally:
        os.close(theirs)
        reader.join(timeout=5)
        os.close(ours)


def wait_for(drawn: bytearray, text: bytes) -> None:
    deadline = time.monotonic() + 30
    while text not in drawn:
        assert time.monotonic() < deadline, f"{text!r} was never drawn"
        time.sleep(0.01)


def start_first_set(ours: int, drawn: bytearray) -> None:
    """Go past the cautions, take the line as it is, and start."""
    for shown, key in (
        (b"diagnose", b"\r"),
        (b"lower first", b"\r"),
        (b"Space or Page Down starts", PAGE_DOWN),
    ):
        wait_for(drawn, shown)
        time.sleep(STEADY_S)
        os.write(ours, key)


def facts(log: Path) -> list[dict[str, object]]:
    return [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]


def sounding(pcm: Pcm) -> Pcm:
    heard = np.flatnonzero(pcm)
    return pcm[heard[0] : heard[-1] + 1]


def check_whole_set(recorded: Pcm) -> None:
    """Every cue is there, in its place to the sample, and nothing else."""
    track = to_pcm(set_track(TIMELINE))
    np.testing.assert_array_equal(sounding(recorded), sounding(track))
    zero = int(np.flatnonzero(recorded)[0] - np.flatnonzero(track)[0])
    heard = {
        name: [onset - zero for onset in onsets(recorded, of=clip)]
        for name, clip in {
            "ready": named.call(),
            "lower": named.fall(),
            "lower, last": named.fall(twice=True),
            "second": named.step(0.5),
            "pause": named.level(0.0),
            "raise X": named.snap(),
            "top": named.level(1.0),
            "end": named.close(),
        }.items()
    }
    due_ms = {
        "ready": [0, 1000, 2000],
        "lower": [3000],
        "lower, last": [8000],
        "second": [4000, 9000],
        "pause": [5000, 10_000],
        "raise X": [6000, 11_000],
        "top": [7000, 12_000],
        "end": [13_000],
    }
    assert heard == {name: [sample_at(at_ms) for at_ms in due] for name, due in due_ms.items()}


def test_a_plain_set_is_heard_to_the_sample_and_each_line_comes_with_its_sound(
    sound_server: SoundServer, tmp_path: Path
) -> None:
    log = tmp_path / "log.jsonl"
    command = ("set", LINE, "--plain", "--yes", "--setup", "3")

    with Recorder(sound_server) as recorder, started(sound_server, log, *command) as process:
        assert process.stdout is not None
        printed = [(time.monotonic(), line) for line in process.stdout]
        _, err = process.communicate(timeout=10)

    assert (process.returncode, err) == (0, "")
    check_whole_set(recorder.pcm)
    (fact,) = facts(log)
    assert fact["seconds"] == {"lower": 4.0, "pause": 2.0, "raise": 2.0, "top": 2.0}
    assert fact["reps_done"] == 2
    zero_s = recorder.moment_s(int(np.flatnonzero(recorder.pcm)[0]))
    lowers = [at_s for at_s, line in printed if line.startswith("rep ") and "lower" in line]
    for at_s, due_s in zip(lowers, (3.0, 8.0), strict=True):
        assert -LATE_S < at_s - (zero_s + due_s) < EARLY_S


@pytest.mark.parametrize("cues", ["glide", "voice", "tick+glide+voice"])
def test_every_cue_set_is_heard_to_the_sample(
    sound_server: SoundServer, tmp_path: Path, cues: str
) -> None:
    log = tmp_path / "log.jsonl"
    command = ("set", LINE, "--plain", "--yes", "--setup", "3", "--cues", cues)

    with Recorder(sound_server) as recorder, started(sound_server, log, *command) as process:
        _, err = process.communicate(timeout=30)

    assert (process.returncode, err) == (0, "")
    track = to_pcm(set_track(TIMELINE, cues=parse_cues(cues)))
    np.testing.assert_array_equal(sounding(recorder.pcm), sounding(track))
    if "voice" in cues:
        zero = int(np.flatnonzero(recorder.pcm)[0] - np.flatnonzero(track)[0])
        for at_ms, spoken in spoken_cues(TIMELINE, count="up"):
            first = zero + sample_at(at_ms) - spoken.beat
            word = recorder.pcm[max(first, 0) :][: spoken.clip.size].astype(np.float64)
            likeness = np.corrcoef(word, spoken.clip[max(-first, 0) :][: word.size])[0, 1]
            assert likeness > 0.95


def test_a_set_that_runs_until_stopped_is_silent_within_150_ms_and_logs_what_was_done(
    sound_server: SoundServer, tmp_path: Path
) -> None:
    log = tmp_path / "log.jsonl"
    command = ("set", "chin-up 1xmax @ bw 0.4-0-0.4-0", "--plain", "--yes", "--setup", "3")

    with (
        Recorder(sound_server) as recorder,
        started(sound_server, log, *command, "--cues", "glide+voice") as process,
    ):
        assert process.stdout is not None
        for line in process.stdout:
            if line.startswith("rep 4: lower"):
                break
        stopped_s = time.monotonic()
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=10)
        time.sleep(0.5)

    last_s = recorder.moment_s(int(np.flatnonzero(recorder.pcm)[-1]))
    assert last_s - stopped_s < 0.150
    (fact,) = facts(log)
    assert (fact["reps_done"], fact["reps_prescribed"]) == (3, None)


def test_ctrl_c_is_silent_within_150_ms_and_logs_what_was_done(
    sound_server: SoundServer, tmp_path: Path
) -> None:
    log = tmp_path / "log.jsonl"
    command = ("set", "squat 1x20 0.3-0-0.3-0", "--plain", "--yes", "--setup", "3")

    with Recorder(sound_server) as recorder, started(sound_server, log, *command) as process:
        assert process.stdout is not None
        for line in process.stdout:
            if line.startswith("rep 3 of 20: raise"):
                break
        stopped_s = time.monotonic()
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=10)
        time.sleep(0.5)

    assert process.returncode == 130
    last_s = recorder.moment_s(int(np.flatnonzero(recorder.pcm)[-1]))
    assert last_s - stopped_s < 0.150
    (fact,) = facts(log)
    assert fact["reps_done"] == 2


def test_the_app_in_a_terminal_is_heard_to_the_sample_and_logs_the_set(
    sound_server: SoundServer, tmp_path: Path
) -> None:
    log = tmp_path / "log.jsonl"

    with (
        Recorder(sound_server) as recorder,
        pseudo_terminal() as (ours, theirs, drawn),
        started(sound_server, log, "--setup", "3", "set", LINE, terminal=theirs) as process,
    ):
        start_first_set(ours, drawn)
        wait_for(drawn, b"Saved")
        (fact,) = facts(log)
        time.sleep(1.5)
        os.write(ours, QUIT)
        process.wait(timeout=10)

    assert process.returncode == 0
    check_whole_set(recorder.pcm)
    assert fact["seconds"] == {"lower": 4.0, "pause": 2.0, "raise": 2.0, "top": 2.0}
    assert b"ALSA" not in drawn


def test_page_down_stops_the_app_s_set_and_is_silent_within_150_ms(
    sound_server: SoundServer, tmp_path: Path
) -> None:
    log = tmp_path / "log.jsonl"
    command = ("--setup", "3", "set", "squat 1x50 0.3-0-0.3-0")

    with (
        Recorder(sound_server) as recorder,
        pseudo_terminal() as (ours, theirs, drawn),
        started(sound_server, log, *command, terminal=theirs) as process,
    ):
        start_first_set(ours, drawn)
        time.sleep(6)
        stopped_s = time.monotonic()
        os.write(ours, PAGE_DOWN)
        wait_for(drawn, b"Saved")
        time.sleep(0.5)
        os.write(ours, QUIT)
        process.wait(timeout=10)

    last_s = recorder.moment_s(int(np.flatnonzero(recorder.pcm)[-1]))
    assert last_s - stopped_s < 0.150
    (fact,) = facts(log)
    assert 0 < int(str(fact["reps_done"])) < 10


def test_a_terminal_that_is_closed_in_mid_set_leaves_the_set_in_the_log(
    sound_server: SoundServer, tmp_path: Path
) -> None:
    log = tmp_path / "log.jsonl"
    command = ("--setup", "3", "set", "squat 1x50 0.3-0-0.3-0")

    with (
        pseudo_terminal() as (ours, theirs, drawn),
        started(sound_server, log, *command, terminal=theirs) as process,
    ):
        start_first_set(ours, drawn)
        time.sleep(6)
        process.send_signal(signal.SIGHUP)
        process.wait(timeout=10)

    assert process.returncode == 129
    (fact,) = facts(log)
    assert int(str(fact["reps_done"])) > 0
