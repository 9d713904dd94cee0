from __future__ import annotations

import io
import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from scipy.io import wavfile

from tests.tempo_coach.cli.conftest import Command
from tests.tempo_coach.fakes import HandClock

GOLDEN = Path(__file__).parent / "golden"
LINE = "front squat 4x2 @ 80 kg 2-1-X-1 rest 3:00"


def test_the_cues_of_a_set_are_listed_as_json(command: Command) -> None:
    outcome = command("track", LINE, "--list", "--json", "--setup", "5")

    assert outcome.code == 0
    assert outcome.data == json.loads((GOLDEN / "cues.json").read_text(encoding="utf-8"))


def test_the_cues_of_a_set_are_listed_as_a_table(command: Command) -> None:
    outcome = command("track", LINE, "--list", "--setup", "5")

    assert outcome.out == (GOLDEN / "cues.txt").read_text(encoding="utf-8")


def test_a_track_is_48_khz_mono_16_bit_and_begins_with_the_set(
    command: Command, home: Path
) -> None:
    wav = home / "set.wav"

    outcome = command("track", LINE, "-o", wav, "--setup", "5")

    rate, samples = wavfile.read(wav)
    assert outcome.out == f"wrote {wav}\n"
    assert (outcome.code, rate, str(samples.dtype), samples.ndim) == (0, 48_000, "int16", 1)
    assert len(samples) >= 48_000 * (5 + 2 * 5)
    first = np.flatnonzero(samples)[0]
    assert 2 * 48_000 <= first <= 2 * 48_000 + 48
    lower = samples[5 * 48_000 :]
    assert np.flatnonzero(lower)[0] <= 48


def test_a_track_never_takes_the_place_of_a_file_unless_told_to(
    command: Command, home: Path
) -> None:
    wav = home / "set.wav"
    wav.write_text("mine", encoding="utf-8")

    refused = command("track", LINE, "-o", wav)
    told = command("track", LINE, "-o", wav, "--replace")

    assert refused.code == 73
    assert refused.err == f"tempo-coach: {wav} is there already; --replace writes over it\n"
    assert told.code == 0
    assert wav.read_bytes()[:4] == b"RIFF"


def test_a_track_for_a_folder_that_is_missing_is_refused(command: Command, home: Path) -> None:
    outcome = command("track", LINE, "-o", home / "nowhere" / "set.wav")

    assert outcome.code == 73
    assert outcome.err.count("\n") == 1
    assert "nowhere" in outcome.err


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("track", LINE), 64, "nothing to do; give -o FILE, --list or both"),
        (("track", LINE, "--json"), 64, "--json goes with --list"),
        (("track", LINE, "--list", "--setup", "2"), 64, "'2' is not possible; give 3 to 60"),
        (("track", LINE, "--list", "--setup", "nan"), 64, "'nan' is not possible"),
        (("track", "squat 1x100 30-0-0-0", "--list"), 65, "100 reps of 30 s take 3000 s"),
        (("track", "squat 4x5 2:4", "--list"), 65, "column 11: '2:4' does not say which phase"),
        (("track", "", "--list"), 65, "column 1: the line is empty"),
        (("set", LINE), 64, "the app needs a terminal"),
        (("set", LINE, "--yes"), 64, "--yes goes with --plain"),
        (("set", LINE, "--plain", "--lifter", " "), 64, "the name of the lifter is empty"),
        (("set", LINE, "--plain", "--lifter", "\udc80"), 64, "the lifter is not valid text"),
        (("set",), 64, "Missing argument 'LINE'"),
        (("demo",), 64, "the demo needs a terminal"),
        ((), 64, "the app needs a terminal"),
        (("juggle",), 64, "No such command 'juggle'"),
    ],
)
def test_a_call_that_makes_no_sense_is_refused_in_one_line(
    command: Command, arguments: tuple[str, ...], code: int, said: str
) -> None:
    outcome = command(*arguments)

    assert (outcome.code, outcome.out) == (code, "")
    assert said in outcome.err
    assert outcome.err.startswith("tempo-coach: ")
    assert outcome.err.count("\n") == 1


def test_the_sounds_are_named_and_then_a_slow_rep_is_told_as_it_is_heard(
    command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tempo_coach.bootstrap.SystemClock", HandClock)

    outcome = command("sounds", "--silent", "--cues", "voice+glide")

    named, slow = outcome.out.split("one slow rep, glide+voice:\n")
    assert [line.split(":")[0] for line in named.splitlines()] == [
        "ready", "lower", "lowering second", "pause", "raise", "raise X", "top", "last rep",
        "end", "rest", "glide", "voice",
    ]  # fmt: skip
    assert [line.strip() for line in slow.splitlines()] == [
        "ready 3", "ready 2", "ready 1",
        "lower 4 s", "lower, second 2", "lower, second 3", "lower, second 4",
        "pause 1 s", "raise 2 s", "raise, second 2", "top 1 s", "end: rack it",
    ]  # fmt: skip


def _start(home: Path, *arguments: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "tempo_coach", *arguments],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=os.environ | {"HOME": str(home), "TEMPO_COACH_LOG": str(home / "log.jsonl")},
    )


@pytest.mark.slow
def test_a_signal_stops_the_set_and_what_was_done_is_logged(home: Path) -> None:
    codes = {signal.SIGINT: 130, signal.SIGTERM: 143, signal.SIGHUP: 129}
    started = {
        number: _start(
            home, "set", "squat 3x5 0.4-0-9-0 rest 60", "--plain", "--silent", "--yes",
            "--setup", "3", "--lifter", number.name,
        )
        for number in codes
    }  # fmt: skip

    for number, process in started.items():
        assert process.stdout is not None
        for line in process.stdout:
            if line.startswith("rep 1 of 5: raise"):
                process.send_signal(number)
                break
    outputs = {number: process.communicate(timeout=10) for number, process in started.items()}

    assert {number: process.returncode for number, process in started.items()} == codes
    facts = list(map(json.loads, (home / "log.jsonl").read_text(encoding="utf-8").splitlines()))
    assert {fact["lifter"] for fact in facts} == {number.name for number in codes}
    for fact in facts:
        assert (fact["reps_done"], fact["reps_prescribed"]) == (0, 5)
        assert fact["seconds"]["lower"] == 0.4
        assert 0 <= fact["seconds"]["raise"] < 5
    for out, _ in outputs.values():
        assert "saved: 0 of 5 reps, lowering 0.4 s" in out


@pytest.mark.slow
def test_a_name_is_asked_for_once_and_kept(home: Path) -> None:
    line = ("set", "squat 1x1 0.1-0-0-0", "--plain", "--silent", "--setup", "3")

    first = _start(home, *line)
    out, err = first.communicate("Mirela  Oude\n\n", timeout=20)
    second = _start(home, *line)
    _, nobody_asks = second.communicate("", timeout=20)

    assert first.returncode == 0, err
    assert "Who is lifting? " in err
    assert "Enter starts set 1 of 1." in out
    (fact,) = map(json.loads, (home / "log.jsonl").read_text(encoding="utf-8").splitlines())
    assert fact["lifter"] == "Mirela Oude"
    assert second.returncode == 64
    assert nobody_asks.startswith("tempo-coach: nobody is there to press Enter")


def test_a_log_that_takes_nothing_leaves_the_set_beside_it(
    command: Command, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not Path("/dev/full").exists():
        pytest.skip("this system has no device that is always full")
    monkeypatch.setattr("tempfile.tempdir", str(home))
    monkeypatch.setattr("tempo_coach.bootstrap.SystemClock", HandClock)

    outcome = command(
        "set", "squat 1x1 0.1-0-0-0", "--plain", "--silent", "--yes", "--setup", "3",
        "--lifter", "Mirela", "--log", "/dev/full",
    )  # fmt: skip

    assert outcome.code == 74
    assert "kept in memory: 1 of 1 reps" in outcome.out
    assert "the log /dev/full can't be written: the disk is full" in outcome.err
    (beside,) = home.glob("tempo-coach-unsaved-*.jsonl")
    assert str(beside) in outcome.err
    assert json.loads(beside.read_text(encoding="utf-8"))["reps_done"] == 1


@pytest.mark.slow
def test_output_that_nobody_reads_any_more_is_no_error(written_log: Path) -> None:
    nobody, output = os.pipe()
    os.close(nobody)

    process = subprocess.run(
        [sys.executable, "-m", "tempo_coach", "log", "--log", str(written_log)],
        stdout=output,
        stderr=subprocess.PIPE,
        timeout=20,
        check=False,
    )
    os.close(output)

    assert (process.returncode, process.stderr) == (0, b"")


OVERLOAD = "bench press 1x1 @ 110% 1-0-A-0 lowering only"


@pytest.fixture
def hand_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pace without waiting."""
    monkeypatch.setattr("tempo_coach.bootstrap.SystemClock", HandClock)


@pytest.mark.usefixtures("hand_clock")
def test_yes_alone_does_not_begin_what_was_never_tested_and_the_load_spelt_out_does(
    command: Command,
) -> None:
    given = ("set", OVERLOAD, "--plain", "--yes", "--silent", "--lifter", "Ana")
    refused = command(*given)
    wrong = command(*given, "--lowering", "100%")
    done = command(*given, "--lowering", "110%")

    assert (refused.code, refused.out) == (64, "")
    assert "110% is to be lowered: more than can be lifted, and no lowered max" in refused.err
    assert "spotters who know their job or safety pins" in refused.err
    assert "--yes does not answer this; --lowering '110%' says that it is meant" in refused.err
    assert (wrong.code, wrong.out) == (65, "")
    assert "'100%' is not the load to be lowered; type 110%" in wrong.err
    assert done.code == 0
    assert "saved: 1 of 1 reps" in done.out


@pytest.mark.usefixtures("hand_clock")
@pytest.mark.parametrize(
    ("typed", "code", "said"),
    [
        ("yes\n110\n\n", 0, "'yes' is not the load to be lowered; type 110%"),
        ("100 kg\n", 64, "nobody is there to type the load; --lowering '110%' does"),
    ],
)
def test_the_load_is_typed_before_the_set(
    command: Command, monkeypatch: pytest.MonkeyPatch, typed: str, code: int, said: str
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(typed))
    outcome = command("set", OVERLOAD, "--plain", "--silent", "--lifter", "Ana")

    assert outcome.code == code
    assert "Type 110% to go on" in outcome.err
    assert said in outcome.err


@pytest.mark.usefixtures("hand_clock")
def test_a_line_outside_its_method_is_remarked_on_and_paced(command: Command) -> None:
    line = "squat 1x1 @ 95% 1-0-1-0 method slow-lowering"
    outcome = command("set", line, "--plain", "--yes", "--silent", "--lifter", "Ana")

    assert outcome.code == 0
    assert "remark: load 95%: slow-lowering has load 60 to 85% of the 1RM" in outcome.err


def test_the_app_asks_for_the_load_itself(command: Command) -> None:
    outcome = command("set", OVERLOAD, "--lowering", "110%")
    assert outcome.code == 64
    assert "--lowering goes with --plain; the app asks for the load" in outcome.err


@pytest.mark.usefixtures("hand_clock")
def test_what_was_lowered_in_a_test_is_begun_without_typing_and_more_is_not(
    command: Command,
) -> None:
    command("max", "add", "bench press", "100 kg", "--lifter", "Ana", "--lower-s", "3")
    command(
        *("max", "add", "bench press", "115 kg", "--lowered", "--lifter", "Ana"),
        *("--lower-s", "3"),
    )
    given = ("--plain", "--yes", "--silent", "--lifter", "Ana")

    tested = command("set", "bench press 1x1 @ 115 kg 3-0-A-0 lowering only", *given)
    more = command("set", "bench press 1x1 @ 117.5 kg 3-0-A-0 lowering only", *given)

    assert tested.code == 0
    assert more.code == 64
    assert "more than the most lowered under control, 115 kg (the log's max, lowered in 3 s" in (
        " ".join(more.err.split())
    )
