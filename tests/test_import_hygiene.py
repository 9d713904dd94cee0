"""Reading a log or a tempo needs neither a screen nor a sound card."""

from __future__ import annotations

import json
import pkgutil
import subprocess
import sys
from pathlib import Path

import sounds_gen
import tempo_coach.cli
import tempo_coach.core
import tempo_coach.storage

ROOT = Path(__file__).parents[1]

# One after the other, in one fresh interpreter: whoever brings one in is seen at once.
_IMPORTING = """
import importlib, json, sys
found, seen = {}, set()
for name in sys.argv[1:]:
    importlib.import_module(name)
    if new := ({"textual", "simpleaudio"} & sys.modules.keys()) - seen:
        found[name] = sorted(new)
        seen |= new
print(json.dumps(found))
"""


def brought_in(*modules: str) -> dict[str, list[str]]:
    """Return which modules load Textual or simpleaudio, and which of the two."""
    process = subprocess.run(
        [sys.executable, "-c", _IMPORTING, *modules],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    )
    found: dict[str, list[str]] = json.loads(process.stdout)
    return found


def modules_of(package: object) -> list[str]:
    path, name = getattr(package, "__path__", ()), getattr(package, "__name__", "")
    return [name, *(module.name for module in pkgutil.walk_packages(path, prefix=f"{name}."))]


def test_no_core_module_loads_textual_or_simpleaudio() -> None:
    modules = modules_of(tempo_coach.core)
    assert len(modules) > 15
    assert brought_in(*modules, "tempo_coach.coach", "tempo_coach.errors") == {}


def test_no_module_of_sounds_or_storage_loads_textual_or_simpleaudio() -> None:
    assert brought_in(*modules_of(sounds_gen), *modules_of(tempo_coach.storage)) == {}


def test_the_command_line_loads_neither_before_it_needs_them() -> None:
    modules = modules_of(tempo_coach.cli)
    assert brought_in("tempo_coach.cli", *modules, "tempo_coach.bootstrap") == {}


def test_a_module_that_loads_textual_would_be_named() -> None:
    assert brought_in("tempo_coach.core", "tempo_coach.ui.app") == {
        "tempo_coach.ui.app": ["textual"]
    }
