from __future__ import annotations

from pathlib import Path

import pytest

from tests.tempo_coach.cli.conftest import Command

PLAN = Path(__file__).parent / "golden" / "plan.toml"
LINE = "front squat 1x5 4-1-X-1"
DATES = {
    "season": ("season", PLAN, "--on"),
    "ready": ("ready", "front squat", PLAN, "--on"),
    "next": ("next", PLAN, "--on"),
    "max add": ("max", "add", "squat", "90 kg", "--lifter", "Mirela", "--on"),
    "export, from": ("export", "-o", "weeks.csv", "--from"),
    "export, to": ("export", "-o", "weeks.csv", "--to"),
    "plan import": ("plan", "import", "table.csv", "-o", "plan.toml", "--start"),
    "compare": ("compare", "trace.csv", LINE, "--log-set", "--began"),
}
AS_ON = ("season", "ready", "next")


@pytest.mark.parametrize("words", DATES.values(), ids=DATES)
@pytest.mark.parametrize(
    ("day", "said"),
    [
        ("2026-11-31", "there is no 2026-11-31; that month ends on 2026-11-30"),
        ("2026-13-12", "there is no 2026-13-12; months are 01 to 12, as in 2026-12-13"),
        ("2026-1-5", "'2026-1-5' is not how a date is written; write 2026-01-05"),
        ("2.11.2026", "'2.11.2026' is no date; a date is written year-month-day, such as 2026-"),
    ],
)
def test_every_option_says_that_there_is_no_such_date(
    command: Command, words: tuple[str | Path, ...], day: str, said: str
) -> None:
    time = "T18:04" if "--began" in words else ""

    outcome = command(*words, f"{day}{time}")

    assert (outcome.code, outcome.out) == (64, "")
    assert outcome.err.startswith(f"tempo-coach: Invalid value for '{words[-1]}': {said}")
    assert outcome.err.count("\n") == 1


@pytest.mark.parametrize("name", AS_ON)
@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31"])
def test_a_season_is_asked_for_within_the_days_of_plans(
    command: Command, name: str, day: str
) -> None:
    outcome = command(*DATES[name], day)

    assert outcome.code == 64
    assert f"{day} is not possible; 1970-01-01 to 2999-12-31" in outcome.err


@pytest.mark.parametrize("name", AS_ON)
@pytest.mark.parametrize("day", ["1970-01-01", "2999-12-31"])
def test_the_first_and_the_last_day_of_plans_can_be_asked_for(
    command: Command, name: str, day: str
) -> None:
    assert command(*DATES[name], day).code == 0


@pytest.mark.parametrize(
    ("time", "said"),
    [
        ("2026-11-25T25:00", "there is no 25:00; a day has 00:00 to 23:59"),
        ("2026-11-25", "'2026-11-25' is no date with a time; such are written 2026-11-30T18:04"),
        ("0001-01-01T00:00", "0001-01-01 is not possible; 1970-01-01 to 2999-12-31"),
    ],
)
def test_a_time_that_is_none_is_said(command: Command, time: str, said: str) -> None:
    outcome = command(*DATES["compare"], time)

    assert outcome.code == 64
    assert said in outcome.err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("week", "--weeks", "0"), "'0' is not possible; give a whole number from 1 to 5,000"),
        (("week", "--weeks", "2.5"), "'2.5' is not possible; give a whole number from 1 to 5,000"),
        (("prescribe", "squat", "hold", "--lower", "nan"), "give 1 to 60 seconds"),
        (("reserve", "squat", "--lower-s", "31"), "'31' is not possible; give 1 to 30 seconds"),
        (("plan", "show", PLAN, "--week", "first"), "give a whole number from 1 to 104"),
        (("compare", "t.csv", LINE, "--rate", "0.5"), "give 1 to 100,000 samples a second"),
    ],
)
def test_a_number_that_is_not_possible_is_refused_with_what_is(
    command: Command, words: tuple[str | Path, ...], said: str
) -> None:
    outcome = command(*words)

    assert (outcome.code, outcome.out) == (64, "")
    assert said in outcome.err
    assert outcome.err.count("\n") == 1
