from __future__ import annotations

import io
import json
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tempo_coach.cli.soreness_command import ask_soreness
from tempo_coach.coach import Coach
from tempo_coach.core.history import fold
from tempo_coach.core.settings import Settings
from tempo_coach.core.soreness_facts import SorenessTold
from tests.tempo_coach.cli.conftest import Command, set_line
from tests.tempo_coach.fakes import HandClock, MemoryLog, RecordingPlayer

SLOW = "front squat 1x1 @ 60 kg 3-0-1-0"


class Terminal(io.StringIO):
    """Somebody who types these lines."""

    def isatty(self) -> bool:
        return True


def coach(*, soreness_check: bool = True) -> Coach:
    return Coach(
        log=MemoryLog(),
        rescue=MemoryLog("beside"),
        player=RecordingPlayer(),
        clock=HandClock(),
        new_id=iter("abcdef").__next__,
        settings=Settings(soreness_check=soreness_check),
    )


def asked(
    monkeypatch: pytest.MonkeyPatch, typed: io.StringIO, made: Coach | None = None
) -> list[int]:
    made = made or coach()
    monkeypatch.setattr("sys.stdin", typed)
    ask_soreness(made, made.history(), lifter="Ana")
    return [one.soreness for one in made.history().soreness.told]


def test_an_answer_is_a_line_of_the_log_and_the_latest_counts(command: Command, home: Path) -> None:
    log = home / "sore.jsonl"
    first = command("soreness", "7", "--lifter", "Mirela Oude", "--log", log)
    command("soreness", "2", "--lifter", "mirela oude", "--log", log)

    listed = command("soreness", "--log", log)

    assert first.code == 0
    assert first.out.startswith("recorded: Mirela Oude, soreness 7 of 10, ")
    assert "Soreness today is 7 of 10, above 5" in first.err
    [line, _] = map(json.loads, log.read_text(encoding="utf-8").splitlines())
    assert (line["kind"], line["soreness"]) == ("soreness_told", 7)
    assert listed.out.splitlines()[1].split() == [line["at"][:10], "mirela", "oude", "2"]


@pytest.mark.parametrize("given", ["11", "5.5", "much", "٣", ""])
def test_what_is_no_soreness_is_refused_with_what_is_one(command: Command, given: str) -> None:
    outcome = command("soreness", given, "--lifter", "Ana")

    assert outcome.code == 65
    assert outcome.err.count("\n") == 1
    assert "is no soreness; a whole number from 0, not at all, to 10" in outcome.err


def test_somebody_has_to_be_named(command: Command) -> None:
    outcome = command("soreness", "3")

    assert outcome.code == 64
    assert "--lifter NAME" in outcome.err


def test_with_nothing_told_the_list_says_how_to(command: Command) -> None:
    assert "'tempo-coach soreness 6' does" in command("soreness").out


def test_at_a_terminal_it_is_asked_before_the_first_set_of_a_day(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert asked(monkeypatch, Terminal("twelve\n12\n6\n")) == [6]
    assert capsys.readouterr().err.count("How sore are you today") == 3


@pytest.mark.parametrize("typed", [Terminal("\n"), Terminal(""), io.StringIO("6\n")])
def test_enter_the_end_and_a_pipe_go_on_without_an_answer(
    monkeypatch: pytest.MonkeyPatch, typed: io.StringIO
) -> None:
    assert asked(monkeypatch, typed) == []


def test_the_setting_and_an_answer_of_today_keep_it_from_asking(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    told = coach()
    told.tell_soreness("ana", 1)

    assert asked(monkeypatch, Terminal("6\n"), coach(soreness_check=False)) == []
    assert asked(monkeypatch, Terminal("6\n"), told) == [1]


@pytest.mark.slow
def test_a_plain_set_is_told_what_the_log_knows_and_is_paced(command: Command, home: Path) -> None:
    log = home / "sore.jsonl"
    begun = datetime.now().astimezone() - timedelta(hours=20)
    log.write_text(
        set_line(id="a", started_at=begun.isoformat(), ended_at=begun.isoformat()) + "\n",
        encoding="utf-8",
    )
    command("soreness", "9", "--lifter", "Mirela Oude", "--log", log)

    outcome = command(
        "set", SLOW, "--plain", "--yes", "--silent", "--setup", "3",
        "--lifter", "Mirela Oude", "--log", log,
    )  # fmt: skip

    said = " ".join(outcome.err.split())
    assert outcome.code == 0
    assert "note: 20 h since lowering emphasis for the knee extensors" in said
    assert "note: Soreness today is 9 of 10" in said
    assert "note: Dark urine" in said
    assert "saved: 1 of 1 reps" in outcome.out


def test_a_check_names_answers_that_disagree(command: Command, home: Path) -> None:
    log = home / "sore.jsonl"
    at = datetime.fromisoformat("2026-11-30T07:00:00+01:00")
    lines = [
        SorenessTold(id="a", at=at, lifter="Ana", soreness=level).model_dump_json()
        for level in (2, 3)
    ]
    log.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")

    outcome = command("log", "check", log)

    assert outcome.code == 65
    assert "soreness answer a: the logs disagree; the later one counts" in outcome.out
    assert len(fold(SorenessTold.model_validate_json(line) for line in lines).soreness.told) == 1
