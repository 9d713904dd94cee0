"""No command opens a socket: what the log holds stays on the machine."""

from __future__ import annotations

import io
import socket
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import NoReturn

import pytest

from tempo_coach.core.bar_simulator import simulated_set
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.trace_writing import simulated_table
from tests.tempo_coach.cli.conftest import Command
from tests.tempo_coach.fakes import HandClock
from tests.test_documentation import COMMANDS

GOLDEN = Path(__file__).parent / "golden"
LINE = "squat 1x1 1-0-0-0"
TRACED = "squat 1x2 2-1-X-1"
CALLS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "set": ("set", LINE, "--plain", "--yes", "--silent", "--lifter", "Mirela"),
        "track": ("track", LINE, "-o", "set.wav"),
        "week": ("week", "written.jsonl", "--roster", "--pseudonyms"),
        "export": ("export", "written.jsonl", "--pseudonyms", "-o", "all.xlsx"),
        "report": ("report", "written.jsonl", "--pseudonyms", "-o", "week.pdf"),
        "log": ("log", "--log", "written.jsonl"),
        "log check": ("log", "check", "written.jsonl"),
        "log schema": ("log", "schema"),
        "log correct": ("log", "correct", "aa01", "--reps", "4", "--log", "written.jsonl"),
        "log strike": ("log", "strike", "aa01", "--log", "written.jsonl"),
        "max": ("max", "maxes.jsonl"),
        "max list": ("max", "list", "maxes.jsonl"),
        "max add": ("max", "add", "squat", "90 kg", "--lifter", "Mirela"),
        "max strike": ("max", "strike", "cc01", "--log", "maxes.jsonl"),
        "max estimate": ("max", "estimate", "80 kg", "5"),
        "plan": ("plan",),
        "plan new": ("plan", "new", "-o", "new.toml"),
        "plan check": ("plan", "check", str(GOLDEN / "plan.toml")),
        "plan show": ("plan", "show", str(GOLDEN / "plan.toml")),
        "plan schema": ("plan", "schema"),
        "plan import": ("plan", "import", "table.csv", "-o", "made.toml"),
        "load": ("load", "87.5", "--from", "80"),
        "season": ("season", str(GOLDEN / "season.toml"), "written.jsonl"),
        "ready": ("ready", "front squat", str(GOLDEN / "season.toml"), "written.jsonl"),
        "next": ("next", str(GOLDEN / "season.toml"), "written.jsonl"),
        "soreness": ("soreness", "6", "--lifter", "Mirela"),
        "methods": ("methods",),
        "prescribe": ("prescribe", "squat", "slow-lowering", "--max", "100 kg"),
        "reserve": ("reserve", "squat", "--max", "100 kg", "--lifter", "Mirela Oude", "--silent"),
        "compare": ("compare", "trace.csv", TRACED),
        "adherence": ("adherence", "written.jsonl"),
        "simulate": ("simulate", TRACED, "-o", "made.csv"),
        "sounds": ("sounds", "--silent"),
        "demo": ("demo", "--silent"),
        "settings": ("settings",),
        "where": ("where",),
        "cautions": ("cautions",),
        "completion": ("completion", "bash"),
    }
)
CODES = {"demo": 64, "plan check": 65}
"""The demo needs a terminal, and the plan has faults; all others are done."""


def test_every_command_is_called_below() -> None:
    assert set(CALLS) == set(COMMANDS)


@pytest.mark.parametrize(
    "name",
    # A PDF takes as long as all others together.
    [pytest.param(name, marks=pytest.mark.slow if name == "report" else ()) for name in CALLS],
)
def test_no_command_opens_a_socket(
    command: Command,
    written_log: Path,
    maxes_log: Path,
    home: Path,
    monkeypatch: pytest.MonkeyPatch,
    name: str,
) -> None:
    opened = []

    def refuse(*arguments: object, **options: object) -> NoReturn:
        opened.append((arguments, options))
        raise OSError("sockets are forbidden here")

    (home / "table.csv").write_text("day,exercise,sets,reps,tempo\nMon,squat,3,5,4-0-1-0\n")
    made = simulated_set(parse_prescription(TRACED), seed=1).trace
    (home / "trace.csv").write_text("".join(simulated_table(made, line=TRACED, seed=1)))
    assert written_log.parent == maxes_log.parent == home
    monkeypatch.chdir(home)
    monkeypatch.setattr("tempo_coach.bootstrap.SystemClock", HandClock)
    monkeypatch.setattr(socket, "socket", refuse)
    # Only the reserve test asks; it begins, and its first load is lost.
    monkeypatch.setattr("sys.stdin", io.StringIO("yes\n\nl\n\n"))

    outcome = command(*CALLS[name])

    assert outcome.code == CODES.get(name, 0), outcome.err
    assert opened == []
