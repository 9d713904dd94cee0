"""Reading a log or a tempo needs neither a screen, a sound card nor what draws pages."""

from __future__ import annotations

import json
import pkgutil
import subprocess
import sys
from pathlib import Path

import pytest

import sounds_gen
import tempo_coach.cli
import tempo_coach.core
import tempo_coach.storage

pytestmark = pytest.mark.slow


ROOT = Path(__file__).parents[1]

# One after the other, in one fresh interpreter: whoever brings one in is seen at once.
_IMPORTING = """
import importlib, json, sys
heavy = {"textual", "simpleaudio", "matplotlib", "jinja2", "weasyprint", "scipy"}
found, seen = {}, set()
for name in sys.argv[1:]:
    importlib.import_module(name)
    if new := (heavy & sys.modules.keys()) - seen:
        found[name] = sorted(new)
        seen |= new
print(json.dumps(found))
"""


def brought_in(*modules: str) -> dict[str, list[str]]:
    """Return which modules load a library of one part of the program, and which."""
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


def test_no_core_module_loads_what_one_part_alone_needs() -> None:
    modules = modules_of(tempo_coach.core)
    assert len(modules) > 15
    assert brought_in(*modules, "tempo_coach.coach", "tempo_coach.errors") == {}


def test_no_module_of_sounds_or_storage_loads_what_another_part_needs() -> None:
    found = brought_in(*modules_of(sounds_gen), *modules_of(tempo_coach.storage))

    # Makes the clips of the voice, by hand; nothing of the program imports it.
    assert found == {"sounds_gen.voice.record": ["scipy"]}


def test_the_command_line_loads_none_of_it_before_it_needs_it() -> None:
    modules = modules_of(tempo_coach.cli)
    assert (
        brought_in("tempo_coach.cli", *modules, "tempo_coach.bootstrap", "tempo_coach.outputs")
        == {}
    )


def test_a_module_that_loads_textual_would_be_named() -> None:
    assert brought_in("tempo_coach.core", "tempo_coach.ui.app") == {
        "tempo_coach.ui.app": ["textual"]
    }


def test_a_module_that_loads_a_library_of_reports_would_be_named() -> None:
    found = brought_in("tempo_coach.outputs", "tempo_coach.report.html_pages")

    assert found == {"tempo_coach.report.html_pages": ["jinja2"]}


def test_scipy_is_loaded_by_what_cuts_traces_alone() -> None:
    found = brought_in("tempo_coach.outputs", "tempo_coach.trace.filters")

    assert found == {"tempo_coach.trace.filters": ["scipy"]}
