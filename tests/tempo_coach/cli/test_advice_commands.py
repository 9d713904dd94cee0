from __future__ import annotations

from pathlib import Path

import pytest

from tempo_coach.core.prescription import parse_prescription
from tests.tempo_coach.cli.conftest import Command, set_line

GOLDEN = Path(__file__).parent / "golden"
PLAN = GOLDEN / "season.toml"


@pytest.fixture
def slow_log(home: Path) -> Path:
    """Four weeks of slow front squats, of one lifter."""
    path = home / "slow.jsonl"
    days = ("2026-11-05", "2026-11-12", "2026-11-19", "2026-11-25")
    lines = [
        set_line(
            id=f"{day}{number}",
            started_at=f"{day}T18:0{number}:00+01:00",
            ended_at=f"{day}T18:0{number}:40+01:00",
            effort=7.0,
        )
        for day in days
        for number in range(3)
    ]
    path.write_text("".join(line + "\n" for line in lines), encoding="utf-8")
    return path


def test_each_criterion_stands_with_its_evidence_and_what_is_missing(
    command: Command, slow_log: Path
) -> None:
    outcome = command(
        "ready", "front squat", PLAN, slow_log, "--lifter", "mirela oude", "--on", "2026-11-27"
    )

    assert outcome.code == 0
    assert "Mirela Oude, overloaded lowering of front squat: not yet" in outcome.out
    assert "Mirela Oude, fast lowering of front squat: not yet" in outcome.out
    assert "  met: 4 weeks in a row with a lower of 4 s or more" in outcome.out
    assert "the plan says nothing; missing: the coach's word, in the plan" in outcome.out
    assert max(map(len, outcome.out.splitlines())) <= 80


def test_readiness_for_machines_says_what_can_t_be_told(command: Command, slow_log: Path) -> None:
    data = command("ready", "front squat", PLAN, slow_log, "--on", "2026-11-27", "--json").data

    assert [one["lifter"] for one in data["lifters"]] == [
        "Mirela Oude",
        "Sabine Ihle",
        "Jonne Tarval",
    ]
    [overload, _] = data["lifters"][0]["ways"]
    assert [one["met"] for one in overload["criteria"]] == [True, None, False, False, True, False]


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (("front squatt",), "'front squatt'; the nearest is 'front squat'"),
        (("zercher",), "'zercher'; known are front squat"),
        (("zercher", "--json"), "'zercher'; known are front squat"),
        (
            ("zercher", "--lifter", "mirela oude"),
            "'zercher' for Mirela Oude; known are front squat",
        ),
    ],
)
def test_an_exercise_that_neither_plan_nor_logs_name_is_refused_before_anything_is_said(
    command: Command, slow_log: Path, asked: tuple[str, ...], said: str
) -> None:
    exercise, *options = asked

    outcome = command("ready", exercise, PLAN, slow_log, "--on", "2026-11-27", *options)

    assert (outcome.code, outcome.out) == (65, "")
    assert outcome.err == f"tempo-coach: neither plan nor logs name {said}\n"


def test_an_exercise_that_is_planned_has_its_criteria_before_it_was_ever_done(
    command: Command,
) -> None:
    outcome = command("ready", "FRONT squat", PLAN, "--on", "2026-09-07", "--json")

    [overload, _] = outcome.data["lifters"][2]["ways"]
    assert outcome.code == 0
    assert overload["verdict"] == "not yet"
    assert [one["met"] for one in overload["criteria"]] == [False, None, False, False, True, False]


def test_next_week_is_proposed_as_lines_that_can_be_read(command: Command, slow_log: Path) -> None:
    data = command("next", PLAN, slow_log, "--on", "2026-11-27", "--json").data

    [line] = data["lifters"][0]["lines"]
    assert (line["step"], line["line"]) == ("add", "front squat 4x5 @ 80 kg 4-1-X-1")
    assert parse_prescription(line["line"]).sets == 4
    assert data["lifters"][2] == {
        "lifter": "Jonne Tarval",
        "follows": None,
        "caution": None,
        "limits": [
            {"amount": pytest.approx(240 * 1.08), "unit": "s", "group": None},
            {"amount": pytest.approx(18_000 * 1.08), "unit": "kg·s", "group": None},
        ],
        "lines": [],
    }


def test_a_proposal_says_why_and_what_was_done(command: Command, slow_log: Path) -> None:
    outcome = command("next", PLAN, slow_log, "--on", "2026-11-27", "--lifter", "Mirela Oude")

    assert (
        "a proposal for next week, from the work of 2026-W48; lowering emphasis up to 140 s, "
        "10,498 kg·s"
    ) in outcome.out
    assert "easy at an effort of 7" in outcome.out


def test_a_proposal_from_work_of_long_ago_says_so(command: Command, slow_log: Path) -> None:
    asked = ("next", PLAN, slow_log, "--on", "2027-01-15", "--lifter", "Mirela Oude")

    outcome = command(*asked)

    assert "a proposal for next week, from the work of 2026-W48;" in outcome.out
    assert "\nThat work is 7 weeks old: who comes back begins with less load" in outcome.out
    assert command(*asked, "--json").data["lifters"][0]["follows"] == "2026-W48"


def test_with_no_sets_there_is_no_proposal(command: Command) -> None:
    outcome = command("next", PLAN, "--on", "2026-11-27", "--lifter", "Mirela Oude")

    assert outcome.out == (
        "Mirela Oude: no sets to go by, lowering emphasis up to 259 s, 19,440 kg·s\n"
    )


@pytest.mark.parametrize("words", [("ready", "front squat"), ("next",)])
def test_a_plan_that_is_missing_is_said_so(
    command: Command, home: Path, words: tuple[str, ...]
) -> None:
    outcome = command(*words, home / "none.toml")

    assert outcome.code == 66
    assert "none.toml" in outcome.err
