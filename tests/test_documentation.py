from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import click
import numpy as np
import pytest

from tempo_coach.cli import exit_codes
from tempo_coach.cli.main import command
from tempo_coach.core.compared_set import ComparedSet, SpeedLoss, compared_data
from tempo_coach.core.cut_set import CutRep, CutSet, Stretch
from tempo_coach.core.export_columns import explained
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.settings import Settings
from tempo_coach.core.tempo import Phase, parse_tempo
from tempo_coach.core.trace import Quantity
from tempo_coach.core.trace_units import units_of

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def _commands(
    group: click.Group = command, path: tuple[str, ...] = ()
) -> Iterator[tuple[str, click.Command]]:
    for name, one in group.commands.items():
        yield " ".join((*path, name)), one
        if isinstance(one, click.Group):
            yield from _commands(one, (*path, name))


COMMANDS = dict(_commands())


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help_with_an_example_and_stands_in_the_readme(name: str) -> None:
    shown = COMMANDS[name].get_help(click.Context(COMMANDS[name], info_name=name))

    assert f"  tempo-coach {name}" in shown
    assert f"| `{name}` |" in README


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_has_a_help_text(name: str) -> None:
    options = [one for one in COMMANDS[name].params if isinstance(one, click.Option)]

    assert [one.name for one in options if not one.help] == []


@pytest.mark.parametrize("name", ["", *COMMANDS])
def test_no_help_is_wider_than_80_columns_and_nothing_in_it_is_cut(name: str) -> None:
    one = COMMANDS[name] if name else command

    shown = one.get_help(click.Context(one, info_name=f"tempo-coach {name}"))

    assert max(map(len, shown.splitlines())) <= 80
    assert re.findall(r"[^\]]\.\.\.", shown) == []


@pytest.mark.parametrize("name", COMMANDS)
def test_no_help_speaks_in_the_words_of_a_program(name: str) -> None:
    shown = COMMANDS[name].get_help(click.Context(COMMANDS[name], info_name=name))

    assert re.findall(r"RANGE|INTEGER|FLOAT|FUNCTION|<=| _\w+|<\w+>", shown) == []


def test_every_exit_code_stands_in_the_readme() -> None:
    table = README.split("## Exit codes")[1].split("##")[0]
    codes = {value for value in vars(exit_codes).values() if isinstance(value, int)}

    assert {int(code) for code in re.findall(r"^\| (\d+) \|", table, re.MULTILINE)} == codes


def test_every_column_of_an_export_stands_in_the_readme_with_its_meaning() -> None:
    for column, found in explained().items():
        rows = ", ".join(found)
        assert f"| `{column.name}` | {column.unit} | {rows} | {column.meaning} |" in README


def test_every_setting_stands_in_the_readme() -> None:
    shown = README.split("Settings, all optional:")[1].split("```")[1]

    assert re.findall(r"^(\w+) =", shown, re.MULTILINE) == list(Settings.model_fields)


def test_every_rule_of_dosing_stands_in_the_readme_with_its_meaning() -> None:
    for name, rule in DosingRules.model_fields.items():
        assert rule.description is not None
        meaning = " ".join(rule.description.split())
        assert re.search(rf"\| `{name}` \| [^|]+ \| {re.escape(meaning)} \|", README), name


def test_every_unit_of_a_trace_stands_in_the_readme() -> None:
    for quantity in (None, *Quantity):
        name = "time" if quantity is None else quantity.value
        row = re.search(rf"^\| {name} \| (.+) \|$", README, re.MULTILINE)
        assert row is not None
        # A clock's time is written, but is no unit.
        assert set(re.findall(r"`([a-z0-9/]+)`", row[1])) == set(units_of(quantity))


def test_every_key_of_a_compared_set_stands_in_the_readme() -> None:
    rep = CutRep(MeasuredRep(4_000, 0, 1_000, None), (Stretch(Phase.LOWER, 1.0, 5.0),))
    cut = CutSet((rep,), np.zeros(1), np.zeros(1), Quantity.HEIGHT, 100.0, 0.001, ())
    data = compared_data(ComparedSet(parse_prescription("squat 1x1 4-0-1-0"), cut))

    shown = README.split("`--json` prints `line`")[1].split("\n\n")[0] + "`line`"
    (first,) = data["reps"]
    parts = {key for part in first["parts"] for key in part}
    loss = set(SpeedLoss.__slots__) | {"share"}
    assert set(re.findall(r"`([a-z_]+)`", shown)) - {"null"} == (
        set(data) | set(first) | parts | set(data["trace"]) | loss
    )


def test_the_readme_s_examples_of_lines_and_tempos_can_be_read() -> None:
    lines = re.findall(r'tempo-coach (?:set|track) "([^"]+)"', README)
    tempos = re.findall(r"`(\d[\d.]*-[\d.X]+-[\d.X]+(?:-[\d.]+)?|\d/\d/X/\d|41X1)`", README)

    assert len(lines) >= 2
    assert len(tempos) >= 5
    for line in lines:
        assert parse_prescription(line).sets
    for tempo in tempos:
        assert str(parse_tempo(tempo))


def test_the_top_level_holds_what_it_should_and_nothing_else() -> None:
    tracked = subprocess.run(
        ["git", "ls-files"],  # noqa: S607 - whichever git the machine has
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    if tracked.returncode:
        pytest.skip("not a checkout, so git can't say what belongs to it")

    top = {name.split("/")[0] for name in tracked.stdout.splitlines()}
    assert {name for name in top if not name.startswith(".")} == {
        "README.md", "DEVELOPERS.md", "pyproject.toml", "tempo_coach", "sounds_gen", "tests",
    }  # fmt: skip
