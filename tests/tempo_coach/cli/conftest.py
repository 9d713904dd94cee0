from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from tempo_coach.cli import main


@dataclass(frozen=True)
class Outcome:
    code: int
    out: str
    err: str

    @property
    def data(self) -> Any:
        return json.loads(self.out)


Command = Callable[..., Outcome]


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A user's home of its own, without any settings."""
    for name in ("DATA", "CONFIG", "STATE"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(tmp_path / name.lower()))
    for name in ("TEMPO_COACH_LOG", "TEMPO_COACH_LIFTER", "NO_COLOR"):
        monkeypatch.delenv(name, raising=False)
    return tmp_path


@pytest.fixture
def command(home: Path, capsys: pytest.CaptureFixture[str]) -> Command:
    """Run the command as the shell would, in this process."""
    assert home.is_dir()

    def run(*arguments: str | Path) -> Outcome:
        with pytest.raises(SystemExit) as left:
            main([str(argument) for argument in arguments])
        assert isinstance(left.value.code, int)
        captured = capsys.readouterr()
        return Outcome(left.value.code, captured.out, captured.err)

    return run


@pytest.fixture
def written_log(home: Path) -> Path:
    """The log of two lifters, over the turn of a year, with every sort of line."""
    path = home / "written.jsonl"
    path.write_text("".join(line + "\n" for line in LINES), encoding="utf-8")
    return path


@pytest.fixture
def maxes_log(written_log: Path) -> Path:
    """The same log with maxes that were tested, one of them struck, and two weeks of squats."""
    path = written_log.with_name("maxes.jsonl")
    path.write_text("".join(line + "\n" for line in (*LINES, *MAX_LINES)), encoding="utf-8")
    return path


def set_line(**changes: Any) -> str:
    fact: dict[str, Any] = {
        "v": 1,
        "kind": "set_done",
        "id": "aa01",
        "lifter": "Mirela Oude",
        "started_at": "2026-11-25T18:00:10.000+01:00",
        "ended_at": "2026-11-25T18:00:45.000+01:00",
        "exercise": "front squat",
        "lead": "lower",
        "tempo": "4-1-X-1",
        "load_kg": 80.0,
        "load_as_written": "80 kg",
        "reps_prescribed": 5,
        "reps_done": 5,
        "seconds": {"lower": 20.0, "pause": 5.0, "raise": 5.0, "top": 5.0},
        "timing": "paced",
        "method": None,
        "effort": None,
        "note": "",
    }
    return json.dumps(fact | changes, ensure_ascii=False)


def max_line(**changes: Any) -> str:
    fact: dict[str, Any] = {
        "v": 1,
        "kind": "max_tested",
        "id": "cc01",
        "lifter": "mirela oude",
        "at": "2026-11-20T17:30:00+01:00",
        "exercise": "front squat",
        "what": "lifted",
        "load_kg": 90.0,
        "load_as_written": "90 kg",
        "lower_s": 2.0,
        "note": "",
    }
    return json.dumps(fact | changes, ensure_ascii=False)


LINES = (
    set_line(),
    set_line(id="aa02", started_at="2026-11-25T18:04:00.000+01:00"),
    set_line(
        id="ab03",
        started_at="2026-11-19T18:04:00.000+01:00",
        exercise="Front Squat",
        tempo="2-0-2-0",
        seconds={"lower": 10.0, "pause": 0.0, "raise": 10.0, "top": 0.0},
    ),
    set_line(id="bb01", lifter="Jonne Tarval", exercise="chin-up", load_kg=None),
    set_line(id="bb02", lifter="Jonne Tarval", exercise="struck"),
    '{"v":1,"kind":"set_corrected","id":"aa02","at":"2026-11-25T19:00:00+01:00",'
    '"changes":{"effort":8.5,"note":"belt"}}',
    '{"v":1,"kind":"set_struck","id":"bb02","at":"2026-11-25T19:00:00+01:00","why":"warm-up"}',
)
MAX_LINES = (
    set_line(
        id="dd01",
        started_at="2026-11-11T18:00:00.000+01:00",
        load_kg=72.5,
        load_as_written="72.5 kg",
        effort=8.0,
    ),
    set_line(
        id="dd02",
        started_at="2026-11-11T18:05:00.000+01:00",
        load_kg=75.0,
        load_as_written="75 kg",
        effort=8.5,
    ),
    max_line(),
    max_line(id="cc02", at="2026-10-02T17:30:00+02:00", load_kg=85.0, load_as_written="85 kg"),
    max_line(
        id="cc03", what="lowered", load_kg=97.5, load_as_written="97.5 kg", lower_s=3.0, note="pins"
    ),
    max_line(id="cc04", load_kg=140.0, load_as_written="140 kg"),
    max_line(
        id="cc05",
        lifter="Sabine Ihle",
        exercise="bench press",
        load_kg=49.89516072,
        load_as_written="110 lb",
        lower_s=None,
    ),
    '{"v":1,"kind":"max_struck","id":"cc04","at":"2026-11-20T18:00:00+01:00","why":"slip"}',
)
