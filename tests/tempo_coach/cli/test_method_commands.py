from __future__ import annotations

from pathlib import Path

import pytest

from tempo_coach.core.method_catalogue import METHODS
from tempo_coach.core.prescription import parse_prescription
from tests.tempo_coach.cli.conftest import Command
from tests.tempo_coach.core.plans import TEXT

GOLDEN = Path(__file__).parent / "golden"
WIDTH = 80


def golden(name: str) -> str:
    return (GOLDEN / name).read_text(encoding="utf-8")


@pytest.fixture
def plan(home: Path) -> Path:
    """The plan of two lifters, of whom one has a max."""
    path = home / "winter.toml"
    path.write_text(TEXT, encoding="utf-8")
    return path


# Methods.


def test_the_methods_are_listed(command: Command) -> None:
    assert command("methods").out == golden("methods.txt")


def test_a_method_is_told_in_full(command: Command) -> None:
    assert command("methods", "Accentuated Lowering").out == golden("method.txt")


@pytest.mark.parametrize("name", METHODS)
def test_every_card_fits_into_80_columns(command: Command, name: str) -> None:
    outcome = command("methods", name)
    assert outcome.code == 0
    assert max(map(len, outcome.out.splitlines())) <= WIDTH
    assert "no source" in outcome.out


def test_a_method_is_told_as_json(command: Command) -> None:
    outcome = command("methods", "first-rep-accentuated", "--json")
    assert outcome.out == golden("method.json")
    assert [one["name"] for one in command("methods", "--json").data] == list(METHODS)


def test_a_method_that_is_none_is_refused_with_the_nearest(command: Command) -> None:
    outcome = command("methods", "slow-lower")
    assert (outcome.code, outcome.out) == (64, "")
    assert "'slow-lower' is no method to train by; the nearest is 'slow-lowering'" in outcome.err


# Prescribe.


def test_lines_are_written_with_each_number_explained(command: Command) -> None:
    outcome = command("prescribe", "bench press", "accentuated-lowering", "--max", "125 kg")
    assert (outcome.code, outcome.err) == (0, "")
    assert outcome.out == golden("prescribe.txt")


@pytest.mark.parametrize("name", METHODS)
def test_set_takes_each_line_as_it_is(command: Command, name: str) -> None:
    outcome = command("prescribe", "front squat", name, "--max", "120 kg", "--json")
    printed = command("prescribe", "front squat", name, "--max", "120 kg").out.splitlines()

    for one in outcome.data["lines"]:
        assert str(parse_prescription(one["line"])) == one["line"]
        assert one["line"] in printed
        assert command("track", one["line"], "--list").code == 0


def test_loads_are_worked_out_from_the_plan(command: Command, plan: Path) -> None:
    given = ("prescribe", "front squat", "slow-lowering", "--plan", plan)
    outcome = command(*given, "--lifter", "mirela oude")
    assert "\nfront squat 4x6 @ 55 kg 4-0-1-0 rest 2:30 method slow-lowering\n" in outcome.out
    assert "60% of 90 kg = 54, loadable 55 kg (the plan's max, lowered in 2 s," in " ".join(
        outcome.out.split()
    )


def test_an_untested_lifter_gets_a_line_by_effort(command: Command, plan: Path) -> None:
    given = ("--plan", plan, "--lifter", "Jonne Tarval")
    slow = command("prescribe", "front squat", "slow-lowering", *given)
    overloaded = command("prescribe", "front squat", "overloaded-lowering", *given)

    assert "\nfront squat 4x6 4-0-1-0 rest 2:30 method slow-lowering\n" in slow.out
    assert "no load is written, since no max is known" in slow.out
    assert (overloaded.code, overloaded.out) == (65, "")
    assert "needs a max of 'front squat', and none is known; test the most" in overloaded.err


@pytest.mark.parametrize(
    ("word", "code", "said"),
    [
        ("overload = true", 0, "Only for those whom a qualified coach has cleared."),
        ("", 0, "Nothing says that a coach has cleared this lifter for it"),
        ("overload = false", 65, "the coach has not cleared this lifter for overloaded-lowering"),
    ],
)
def test_the_coachs_word_is_the_one_lock(
    command: Command, plan: Path, word: str, code: int, said: str
) -> None:
    plan.write_text(TEXT.replace('body_mass = "68 kg"', word), encoding="utf-8")
    outcome = command(
        *("prescribe", "front squat", "overloaded-lowering", "--plan", plan),
        *("--lifter", "Mirela Oude"),
    )
    assert outcome.code == code
    assert said in " ".join((outcome.out + outcome.err).split())


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("--max", "80"), 64, "'80' is no load; write 80 kg or 80 lb"),
        (("--max", "80%"), 64, "80% is no max; in kg or lb, at most 600 kg"),
        (("--max", "900 kg"), 64, "900 kg is no max"),
        (("--lower", "0"), 64, "--lower"),
        (("--plan", "PLAN"), 64, "several lifters: Mirela Oude, Jonne Tarval; give one by"),
        (("--plan", "PLAN", "--lifter", "Mirela"), 65, "the nearest is 'Mirela Oude'"),
    ],
)
def test_what_can_not_be_taken_is_named(
    command: Command, plan: Path, arguments: tuple[str, ...], code: int, said: str
) -> None:
    given = [str(plan) if one == "PLAN" else one for one in arguments]
    outcome = command("prescribe", "front squat", "slow-lowering", *given)
    assert outcome.code == code
    assert said in outcome.err


def test_pounds_stay_pounds_and_a_longer_lower_is_taken(command: Command) -> None:
    outcome = command(
        "prescribe", "front squat", "slow-lowering", "--max", "200 lb", "--lower", "6"
    )
    assert "front squat 4x6 @ 120 lb 6-0-1-0 rest 2:30 method slow-lowering" in outcome.out


def test_the_maxes_of_the_log_count(command: Command) -> None:
    command("max", "add", "front squat", "100 kg", "--lifter", "Ana", "--lower-s", "4")
    outcome = command("prescribe", "front squat", "slow-lowering", "--lifter", "Ana")
    assert "60% of 100 kg = 60, loadable 60 kg (the log's max, lowered in 4 s, tested" in (
        " ".join(outcome.out.split())
    )
