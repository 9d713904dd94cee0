from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.shell_completion import ShellComplete

from tempo_coach.cli.main import command as program
from tests.tempo_coach.cli.conftest import Command

ROOT = Path(__file__).parents[3]
CHECKS = {"bash": ("bash", "-n"), "zsh": ("zsh", "-n"), "fish": ("fish", "--no-execute")}


@pytest.mark.parametrize("shell", CHECKS)
def test_the_script_is_one_that_the_shell_understands(
    command: Command, home: Path, shell: str
) -> None:
    outcome = command("completion", shell)
    script = home / "script"
    script.write_text(outcome.out)

    assert outcome.code == 0
    assert f"_TEMPO_COACH_COMPLETE={shell}_complete" in outcome.out
    if shutil.which(shell) is None:
        pytest.skip(f"the system has no {shell}")
    subprocess.run([*CHECKS[shell], script], check=True)


@pytest.mark.slow
@pytest.mark.skipif(shutil.which("bash") is None, reason="the system has no bash")
@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("tempo-coach exp", ["export"]),
        ("tempo-coach log str", ["strike"]),
        ("tempo-coach week --ros", ["--roster"]),
        ("tempo-coach export --by e", ["exercise"]),
    ],
)
def test_bash_completes_commands_options_and_their_values(
    command: Command, home: Path, words: str, expected: list[str]
) -> None:
    folder = home / "bin"
    folder.mkdir()
    program = folder / "tempo-coach"
    program.write_text(f"#!/bin/sh\nexec '{sys.executable}' -m tempo_coach \"$@\"\n")
    program.chmod(0o700)
    (home / "script").write_text(command("completion", "bash").out)
    asking = (
        f'source "{home}/script"; COMP_WORDS=({words}); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); '
        '_tempo_coach_completion tempo-coach; printf "%s\\n" "${COMPREPLY[@]}"'
    )

    done = subprocess.run(
        ["bash", "-c", asking],  # noqa: S607 - whichever bash the machine has
        env=os.environ | {"PATH": f"{folder}:{os.environ['PATH']}", "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
    )

    assert done.stdout.split() == expected


def completions(*words: str) -> list[tuple[str, str]]:
    """What stands there and may come next, each with its kind."""
    *before, begun = words
    asked = ShellComplete(program, {}, "tempo-coach", "ASKED").get_completions(before, begun)
    return [(item.type, item.value) for item in asked]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (("methods", "two"), [("plain", "two-up-one-down")]),
        (("prescribe", "squat", "sl"), [("plain", "slow-lowering")]),
        (("max", "es"), [("plain", "estimate")]),
        (("max", "--ex"), [("plain", "--exercise")]),
        (("max", "logs/"), [("file", "logs/")]),
        (("max", "--json", "logs/"), [("file", "logs/")]),
        (("de",), [("plain", "demo")]),
        (("winter",), [("file", "winter")]),
        (("winter.toml", "--sil"), [("plain", "--silent")]),
    ],
)
def test_commands_methods_options_and_files_are_completed_where_they_stand(
    words: tuple[str, ...], expected: list[tuple[str, str]]
) -> None:
    assert completions(*words) == expected


def test_every_command_of_the_maxes_is_offered() -> None:
    assert completions("max", "") == [
        ("plain", name) for name in ("add", "estimate", "list", "strike")
    ]


def test_fish_is_told_all_of_what_a_command_does(command: Command) -> None:
    script = command("completion", "fish").out

    assert 'string split --max 1 ","' in script
    assert 'string split ","' not in script


def test_a_shell_that_is_not_known_is_refused(command: Command) -> None:
    outcome = command("completion", "csh")

    assert outcome.code == 64
    assert "Invalid value for 'SHELL': 'csh' is not one of 'bash', 'zsh', 'fish'" in outcome.err


def test_the_shells_are_named_in_one_line_where_none_is_given(command: Command) -> None:
    outcome = command("completion")

    assert outcome.code == 64
    assert outcome.err == (
        "tempo-coach: Missing argument 'SHELL'. Choose from: bash, zsh, fish "
        "(tempo-coach completion --help)\n"
    )
