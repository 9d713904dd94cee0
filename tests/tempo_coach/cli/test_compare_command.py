from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tests.tempo_coach.cli.conftest import Command

LINE = "front squat 1x5 4-1-X-1"


@pytest.fixture
def trace(command: Command, home: Path) -> Path:
    path = home / "trace.csv"
    assert command("simulate", LINE, "-o", path, "--fatigue", "20", "--seed", "3").code == 0
    return path


def test_a_trace_is_set_beside_the_line_rep_by_rep(command: Command, trace: Path) -> None:
    outcome = command("compare", trace, LINE)

    lines = [line.split() for line in outcome.out.splitlines()]
    assert outcome.code == 0
    assert ["line", "4.00", "1.00", "X", "1.00"] in lines
    assert [line[0] for line in lines[4:9]] == ["1", "2", "3", "4", "5"]
    assert "Speed lost over the raise" in outcome.out


def test_another_number_of_reps_than_prescribed_is_said_and_not_forced(
    command: Command, trace: Path
) -> None:
    outcome = command("compare", trace, "front squat 1x6 4-1-X-1", "--json")

    assert outcome.data["reps_found"] == len(outcome.data["reps"]) == 5
    assert "5 reps found, 6 prescribed." in outcome.data["remarks"]


def test_without_scipy_one_sentence_says_how_to_get_it(
    command: Command, trace: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in [name for name in sys.modules if name.startswith(("tempo_coach.trace.", "scipy"))]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "scipy", None)

    outcome = command("compare", trace, LINE)

    assert outcome.code == 69
    assert outcome.err.startswith("tempo-coach: a trace needs scipy")
    assert "pip install 'tempo-coach[trace]'" in outcome.err


def test_a_trace_that_is_not_there_is_a_file_that_cant_be_read(command: Command) -> None:
    outcome = command("compare", "none.csv", LINE)

    assert outcome.code == 66
    assert "there is no such file" in outcome.err


def test_a_made_up_table_says_so_in_its_first_line(command: Command) -> None:
    outcome = command("simulate", "squat 1x2 2-0-X-0", "-o", "-")

    first, heading, *rows = outcome.out.splitlines()
    assert first == "# simulated by tempo-coach, not measured: squat 1x2 2-0-X-0; seed 1"
    assert heading == "time (s),height (m)"
    assert len(rows) > 500
