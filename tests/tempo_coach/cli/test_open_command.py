from __future__ import annotations

from pathlib import Path

import pytest

from tempo_coach.core.plan_starter import starter
from tempo_coach.ui.app import TempoCoachApp
from tests.tempo_coach.cli.conftest import Command
from tests.tempo_coach.core.plans import TODAY

PLAN = starter(TODAY)


class Opened:
    """What the apps were given that would have run."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.apps: list[TempoCoachApp] = []
        monkeypatch.setattr("tempo_coach.cli.set_commands._need_terminal", lambda _: None)

        # What is no plain function is not bound to the app that it is called on.
        def take(app: TempoCoachApp) -> None:
            self.apps.append(app)

        monkeypatch.setattr(TempoCoachApp, "run", take)

    @property
    def plan(self) -> str | None:
        """The plan's name; None where none is open."""
        opened = self.apps[-1]._desk.plan
        return None if opened is None else opened.plan.name

    @property
    def day_is_first(self) -> bool:
        opened = self.apps[-1]._desk.plan
        return opened is not None and opened.is_first

    @property
    def notices(self) -> str:
        return "\n".join(self.apps[-1]._desk.notices)


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> Opened:
    return Opened(monkeypatch)


@pytest.fixture
def plan(home: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(home)
    path = home / "winter.toml"
    path.write_text(PLAN, encoding="utf-8")
    return path


def test_the_path_of_a_plan_opens_it_on_its_day(
    command: Command, opened: Opened, plan: Path
) -> None:
    outcome = command(plan.name, "--silent")

    assert (outcome.code, outcome.err) == (0, "")
    assert opened.plan == "Winter block"
    assert opened.day_is_first


def test_a_file_of_any_name_is_a_plan_but_a_command_goes_before_it(
    command: Command, opened: Opened, plan: Path
) -> None:
    plan.rename("block")
    Path("where").write_text(PLAN, encoding="utf-8")

    assert command("block").code == 0
    assert opened.plan == "Winter block"
    assert command("where").out.endswith("log.jsonl\n")


def test_the_plan_of_last_time_opens_by_itself(
    command: Command, opened: Opened, plan: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    command("winter.toml")
    monkeypatch.chdir(tmp_path.parent)
    command()

    assert opened.plan == "Winter block"
    assert opened.day_is_first
    assert plan.is_file()


def test_without_any_plan_the_board_opens(command: Command, opened: Opened) -> None:
    command()

    assert opened.plan is None


def test_a_line_opens_the_board_with_the_plan_behind_it(
    command: Command, opened: Opened, plan: Path
) -> None:
    command(plan)
    command("set", "squat 3x5 4-0-1-0")

    assert opened.plan == "Winter block"
    assert not opened.day_is_first


def test_a_plan_that_is_gone_is_told_and_the_board_opens(
    command: Command, opened: Opened, plan: Path
) -> None:
    command(plan)
    plan.unlink()

    assert command().code == 0
    assert opened.plan is None
    assert f"The plan of last time can't be opened: the plan {plan} can't be read" in opened.notices


def test_a_plan_that_was_never_there_is_refused(command: Command, opened: Opened) -> None:
    outcome = command("missing.toml")

    assert outcome.code == 66
    assert "the plan missing.toml can't be read" in outcome.err
    assert opened.apps == []


def test_a_plan_with_faults_is_refused_with_the_first_and_not_remembered(
    command: Command, opened: Opened, plan: Path
) -> None:
    plan.write_text(PLAN.replace("weeks = 6", "weeks = 0").replace("Monday", "Mundy"), "utf-8")
    outcome = command("winter.toml")
    command()

    assert outcome.code == 65
    assert "winter.toml has 2 faults, the first in line" in outcome.err
    assert "weeks = 0 is not possible" in outcome.err
    assert "'tempo-coach plan check winter.toml' lists them" in outcome.err
    assert outcome.err.count("\n") == 1
    assert opened.plan is None


@pytest.mark.parametrize("before", [True, False])
def test_a_lifter_who_is_given_must_be_in_the_plan(
    command: Command, opened: Opened, plan: Path, before: bool
) -> None:
    def run(name: str) -> tuple[str | Path, ...]:
        given = ("--lifter", name)
        return (*given, plan) if before else (plan, *given)

    assert command(*run("jonne tarval")).code == 0
    assert opened.apps[-1]._desk.lifter == "jonne tarval"
    refused = command(*run("Mirela Ode"))
    assert refused.code == 65
    assert "the plan has no lifter 'Mirela Ode'; the nearest is 'Mirela Oude'" in refused.err


def test_a_lifter_kept_from_before_need_not_be(
    command: Command, opened: Opened, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TEMPO_COACH_LIFTER", "Ana")

    assert command(plan).code == 0
    assert opened.plan == "Winter block"


def test_opening_has_help_with_an_example(command: Command) -> None:
    assert "tempo-coach winter.toml" in command("--help").out
    assert 'tempo-coach winter.toml --lifter "Mirela Oude"' in command("x.toml", "--help").out
