from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest

from tempo_coach.core.cautions import RESERVE_CHECK
from tempo_coach.core.facts import Fact, line_of
from tempo_coach.storage.places import memory_path
from tempo_coach.storage.remembered import Memory
from tests.tempo_coach.cli.conftest import Command, max_line
from tests.tempo_coach.core.reserve_tests import attempt_made, reserve_begun
from tests.tempo_coach.fakes import HandClock

PLAN = """\
name = "Block"
start = 2026-03-02
weeks = 2
[[lifters]]
name = "Mirela Oude"
overload = true
[[lifters.maxes]]
exercise = "front squat"
load = "80 kg"
on = 2026-02-21
[[lifters]]
name = "Jonne Tarval"
overload = false
[[lifters]]
name = "Sabine Ihle"
[[days]]
day = "Monday"
[[days.work]]
line = "chin-up 3x5 @ bw 3-0-1-0"
"""
RESERVE = ("reserve", "front squat", "--lifter", "Mirela Oude", "--silent")


@pytest.fixture(autouse=True)
def clock(monkeypatch: pytest.MonkeyPatch) -> HandClock:
    shared = HandClock()
    monkeypatch.setattr("tempo_coach.bootstrap.SystemClock", lambda: shared)
    return shared


@pytest.fixture
def log(home: Path) -> Path:
    return home / "own.jsonl"


@pytest.fixture
def plan(home: Path) -> Path:
    path = home / "winter.toml"
    path.write_text(PLAN, encoding="utf-8")
    return path


def typed(monkeypatch: pytest.MonkeyPatch, *lines: str) -> None:
    """Type lines one after the other; behind the last nobody is there any more."""
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))


def facts(log: Path, kind: str) -> list[dict[str, Any]]:
    if not log.exists():
        return []
    read = [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]
    return [fact for fact in read if fact["kind"] == kind]


def attempts(log: Path) -> list[tuple[float, bool, float | None]]:
    made = facts(log, "attempt_made")
    return [(one["load_kg"], one["held"], one["lowered_s"]) for one in made]


def words(text: str) -> str:
    return " ".join(text.split())


# A whole test.


def test_it_leads_from_the_max_to_the_first_loss_and_logs_each_attempt(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes", "", "h 4.8", "", "held", "", "l", "")

    outcome = command(*RESERVE, "--max", "100 kg", "--log", log)

    assert outcome.code == 0
    assert attempts(log) == [(100, True, 4.8), (105, True, None), (110, False, None)]
    sets = facts(log, "set_done")
    assert [one["load_kg"] for one in sets] == [100, 105, 110]
    assert {one["tempo"] for one in sets} == {"5-0-A-0"}
    assert {(one["shape"], one["method"]) for one in sets} == {("lowering only", "reserve-test")}
    assert [one["set"] for one in facts(log, "attempt_made")] == [one["id"] for one in sets]
    assert "reserve 105 ÷ 100 kg = 1.050: +5.0 % of the 1RM, +5.0 kg" in words(outcome.out)
    assert "attempt 2: 105 kg, 105.0 % of the 1RM; on a bar: 25 + 15 + 2.5 kg a side; put on" in (
        words(outcome.out)
    )
    assert outcome.out.count("rest 4:00; Enter ends it") == 2
    assert words(RESERVE_CHECK) in words(outcome.err)


def test_the_ceiling_ends_it_too(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes", "", "h", "", "h", "")

    outcome = command(*RESERVE, "--max", "100 kg", "--ceiling", "105%", "--log", log)

    assert outcome.code == 0
    assert "the ceiling was held" in outcome.out
    assert command("max", "--log", log).out.count("reserve test") == 1


def test_a_measured_lower_that_is_short_counts_as_lost(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes", "", "h 3.2", "")

    outcome = command(*RESERVE, "--max", "100 kg", "--log", log)

    assert attempts(log) == [(100, False, 3.2)]
    assert "3.2 s is less than 4.5 s: this counts as lost" in outcome.out
    (corrected,) = facts(log, "set_corrected")
    assert corrected["changes"]["seconds"]["lower"] == 3.2
    assert "below 100.0 % of the 1RM" in outcome.out


def test_an_answer_can_be_taken_back_until_the_next_start(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes", "", "l", "u", "h", "u", "h 5", "", "l", "")

    outcome = command(*RESERVE, "--max", "100 kg", "--log", log)

    assert outcome.code == 0
    data = command(*RESERVE, "--result", "--json", "--log", log).data
    assert [(one["load_kg"], one["held"]) for one in data["attempts"]] == [
        (100, True),
        (105, False),
    ]
    assert data["attempts"][0]["lowered_s"] == 5
    assert len(facts(log, "set_done")) == 2


def test_the_coach_may_type_another_load_within_the_largest_step(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes", "90", "", "h", "101", "bw", "97.5 kg", "", "l", "")

    outcome = command(*RESERVE, "--max", "100 kg", "--log", log)

    assert [kg for kg, _, _ in attempts(log)] == [90, 97.5]
    assert "101 kg is not possible for this attempt; above 90 kg, at most 100 kg" in outcome.err


def test_a_load_that_could_not_be_lifted_out_is_lost_without_a_set(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes", "l", "n", "l", "l")

    outcome = command(*RESERVE, "--max", "100 kg", "--log", log)

    assert outcome.code == 0
    assert facts(log, "attempt_made")[0]["set"] is None
    assert facts(log, "set_done") == []


def test_an_unclear_answer_is_asked_again(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes", "", "", "maybe", "h 121", "l", "")

    outcome = command(*RESERVE, "--max", "100 kg", "--log", log)

    assert "an answer is needed" in outcome.err
    assert "'maybe' is no answer; h for held or l for lost" in outcome.err
    assert attempts(log) == [(100, False, None)]


# Before it begins.


@pytest.mark.parametrize("answer", ["", "y", "no"])
def test_it_begins_only_after_a_whole_yes(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch, answer: str
) -> None:
    typed(monkeypatch, answer)

    outcome = command(*RESERVE, "--max", "100 kg", "--log", log)

    assert outcome.code == 65
    assert "the test was not begun; only 'yes' begins it" in outcome.err
    assert not log.exists()


def test_there_is_no_option_that_answers_the_check(command: Command) -> None:
    assert command(*RESERVE, "--yes").code == 64


def test_the_coachs_word_is_the_one_lock(
    command: Command, log: Path, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes")
    outcome = command(
        "reserve", "squat", "--lifter", "Jonne Tarval", "--max", "100 kg", "--plan", plan,
        "--log", log,
    )  # fmt: skip
    assert outcome.code == 65
    assert "Jonne Tarval is not cleared for lowering more than can be lifted" in outcome.err


def test_the_coachs_word_holds_in_the_plan_that_was_opened_last_too(
    command: Command, log: Path, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Memory(memory_path()).keep(plan=str(plan))
    typed(monkeypatch, "yes")
    jonne = ("reserve", "squat", "--lifter", "Jonne Tarval", "--max", "100 kg", "--log", log)

    outcome = command(*jonne)

    assert outcome.code == 65
    assert "plan: Block, as it was opened last" in outcome.err
    assert "Jonne Tarval is not cleared" in outcome.err


@pytest.mark.parametrize(("lifter", "is_warned"), [("Mirela Oude", False), ("Sabine Ihle", True)])
def test_a_plan_that_says_nothing_is_warned_of(
    command: Command,
    plan: Path,
    log: Path,
    monkeypatch: pytest.MonkeyPatch,
    lifter: str,
    is_warned: bool,
) -> None:
    typed(monkeypatch)
    outcome = command(
        "reserve", "squat", "--lifter", lifter, "--max", "100 kg", "--plan", plan, "--log", log
    )
    assert ("Nothing says that a coach has cleared" in outcome.err) is is_warned


def test_the_max_comes_from_the_log_or_the_plan_and_is_named(
    command: Command, log: Path, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch)
    planned = command(*RESERVE, "--plan", plan, "--log", log)
    assert "1RM: 80 kg (the plan's max, tested 2026-02-21)" in planned.out

    log.write_text(max_line() + "\n", encoding="utf-8")
    typed(monkeypatch)
    logged = command(*RESERVE, "--log", log)
    assert "1RM: 90 kg (the log's max, lowered in 2 s, tested 2026-11-20)" in logged.out


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ((), "no 1RM of Mirela Oude is known for front squat; give --max"),
        (("--max", "100 kg", "--step", "11%"), "steps of 11 kg are not possible; 1 to 10 %"),
        (("--max", "100 kg", "--ceiling", "170 kg"), "a ceiling of 170 kg is not possible"),
        (("--max", "100 kg", "--step", "five"), "'five' is no load"),
        (("--max", "72%"), "72% is no max"),
        (("--max", "100 kg", "--rest", "never"), "'never' is no rest"),
        (("--max", "100 kg", "--lower-s", "31"), "31"),
        (("--max", "100 kg", "--resume"), "leave out what sets them"),
        (("--resume",), "there is no test of today to go on with"),
        (("--result",), "no reserve test of 'Mirela Oude' is known for 'front squat'"),
        (("--json",), "--json goes with --result"),
    ],
)
def test_what_can_not_be_is_refused_in_one_sentence(
    command: Command,
    log: Path,
    monkeypatch: pytest.MonkeyPatch,
    options: tuple[str, ...],
    said: str,
) -> None:
    typed(monkeypatch, "yes")
    outcome = command(*RESERVE, *options, "--log", log)
    assert outcome.code in (64, 65)
    assert said in outcome.err.splitlines()[-1]
    assert not log.exists()


def test_nobody_there_to_answer_is_said(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch)
    outcome = command(*RESERVE, "--max", "100 kg", "--log", log)
    assert outcome.code == 64
    assert "nobody is there to answer" in outcome.err.splitlines()[-1]


def test_the_check_of_a_log_tells_of_tests_that_disagree_or_have_no_beginning(
    command: Command, home: Path
) -> None:
    written: tuple[Fact, ...] = (
        reserve_begun(),
        reserve_begun(max_kg=102.0),
        attempt_made(1, 105, held=True, test="gone"),
    )
    path = home / "odd.jsonl"
    path.write_bytes(b"".join(map(line_of, written)))

    outcome = command("log", "check", path)

    assert outcome.code == 65
    assert outcome.out.splitlines() == [
        "reserve test e5e5: the logs disagree; the later one counts",
        "reserve test gone: attempts, but its beginning is not in these logs",
        "0 sets count, 1 faults",
    ]


# Going on.


def test_a_test_that_was_left_goes_on_with_all_its_attempts(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes", "", "h")
    left = command(*RESERVE, "--max", "100 kg", "--log", log)
    assert "The test is not over; --resume goes on with it today." in left.err

    typed(monkeypatch, "yes", "", "l", "")
    outcome = command(*RESERVE, "--resume", "--log", log)

    assert outcome.code == 0
    assert attempts(log) == [(100, True, None), (105, False, None)]
    assert len(facts(log, "reserve_begun")) == 1


def test_an_attempt_left_before_its_question_is_asked_about(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes", "")
    command(*RESERVE, "--max", "100 kg", "--log", log)
    assert (len(facts(log, "set_done")), attempts(log)) == (1, [])

    typed(monkeypatch, "", "yes", "h", "", "l", "")
    outcome = command(*RESERVE, "--log", log)

    assert "A test of today is not over: 1RM 100 kg, nothing held yet." in outcome.err
    assert "The attempt with 100 kg has no answer yet." in outcome.out
    assert [(kg, held) for kg, held, _ in attempts(log)] == [(100, True), (105, False)]


def test_a_new_one_can_be_begun_in_its_place(
    command: Command, log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    log.write_text(max_line() + "\n", encoding="utf-8")
    typed(monkeypatch, "yes", "", "h")
    command(*RESERVE, "--max", "100 kg", "--log", log)

    typed(monkeypatch, "n", "yes", "", "l", "")
    command(*RESERVE, "--log", log)

    assert [one["max_kg"] for one in facts(log, "reserve_begun")] == [100, 90]


def test_another_day_has_its_own_test(
    command: Command, log: Path, clock: HandClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, "yes", "", "h")
    command(*RESERVE, "--max", "100 kg", "--log", log)
    clock.advance(24 * 3_600_000)

    outcome = command(*RESERVE, "--resume", "--log", log)

    assert outcome.code == 65
    assert "there is no test of today" in outcome.err
