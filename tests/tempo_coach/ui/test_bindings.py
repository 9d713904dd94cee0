from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from pathlib import Path

import pytest
from textual.binding import Binding
from textual.dom import DOMNode

from tempo_coach import ui
from tempo_coach.ui.key_line import KeyLine
from tests.tempo_coach.core.done_sets import done_set
from tests.tempo_coach.ui.plan_rack import PlanRack
from tests.tempo_coach.ui.rack import Rack

MODULES = [
    importlib.import_module(f"{ui.__name__}.{module.name}")
    for module in pkgutil.iter_modules(ui.__path__)
]
OWN = [
    binding
    for module in MODULES
    for _, kind in inspect.getmembers(module, inspect.isclass)
    if issubclass(kind, DOMNode) and kind.__module__ == module.__name__
    for binding in vars(kind).get("BINDINGS", ())
]

README = (Path(__file__).parents[3] / "README.md").read_text(encoding="utf-8")
NAMES = {
    "escape": "Esc", "pagedown": "PgDn", "pageup": "PgUp", "ctrl+q": "Ctrl+Q",
    "up": "↑", "down": "↓", "left": "←", "right": "→",
    "shift+up": "Shift+↑", "shift+down": "↓", "minus": "-", "plus": "+",
}  # fmt: skip
UNSAID = {"ctrl+c"}
"""What only says which key quits."""


def test_bindings_are_found() -> None:
    assert len(OWN) > 40


@pytest.mark.parametrize("binding", OWN, ids=lambda binding: str(binding.id))
def test_every_key_has_an_id_a_label_and_a_tooltip(binding: Binding) -> None:
    assert binding.id
    assert binding.description
    assert binding.tooltip.endswith((".",)) is False
    assert len(binding.tooltip) > 10


def test_no_two_keys_share_an_id() -> None:
    ids = [binding.id for binding in OWN]

    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("binding", OWN, ids=lambda binding: str(binding.id))
def test_every_key_stands_in_the_readme(binding: Binding) -> None:
    table = README.split("## Keys")[1].split("##")[0]

    for key in binding.key.split(","):
        name = NAMES.get(key, key.upper() if len(key) <= 2 else key.capitalize())
        assert re.search(rf"(?<!\w){re.escape(name)}(?!\w)", table) or key in UNSAID


def keys(rack: Rack) -> list[str]:
    """Return the words in which the keys are named."""
    region = rack.get(KeyLine).region
    return " ".join(rack.lines()[region.y : region.bottom]).split()


async def test_the_keys_are_named_in_80_columns_at_every_stage() -> None:
    async with Rack().running() as rack:
        footers = [keys(rack)]
        await rack.press("enter")
        footers.append(keys(rack))
        await rack.do_set()
        footers.append(keys(rack))
        for _ in range(3):
            await rack.do_set()
        footers.append(keys(rack))

    assert footers == [
        [*BOARD_KEYS, *QUIT],
        ["Space/PgDn", "Start", "Esc", "Leave", *QUIT],
        ["Space/PgDn", "Start", *SAVED_KEYS, *QUIT],
        ["Space/PgDn", "Back", *SAVED_KEYS, *QUIT],
    ]


async def test_what_leads_on_from_the_season_names_all_its_keys_on_one_line_of_80_columns() -> None:
    rack = Rack()
    rack.log.facts.append(done_set(lifter="Ana"))
    footers = []
    async with rack.running(rows=12):
        for key in ("f9", "r", "escape", "n"):
            await rack.press(key)
            footers.append(keys(rack))

            assert rack.get(KeyLine).region.height == 1

    season, ready, _, proposal = footers
    assert season == [
        *("↑↓", "Week", "←→", "Part", "Space", "Read", "on", "R", "Ready?", "N", "Next", "week"),
        *("Esc", "Leave", *QUIT),
    ]
    assert ready == [
        *("↑↓", "Exercise", "PgDn", "Read", "on", "PgUp", "Back", "Esc", "Season", *QUIT)
    ]
    assert proposal == [
        *("Enter", "Put", "on", "the", "board", "↑↓", "Line", "Space", "Read", "on"),
        *("Esc", "Season", *QUIT),
    ]


async def test_every_list_names_the_keys_that_choose_from_it() -> None:
    shown = []
    async with PlanRack(is_first=False).running() as rack:
        for key in ("f4", "f7"):
            await rack.press(key)
            shown.append(keys(rack))
            await rack.press("escape")
        await rack.press("f6")
        shown.append(keys(rack))
        await rack.press("f2")
        shown.append(keys(rack))

    sounds, methods, day, lifters = shown
    assert sounds == ["↑↓", "Sound", "Enter", "Play", "Esc", "Board", *QUIT]
    assert methods == [
        *("↑↓", "Method", "Enter", "Put", "on", "the", "board", "PgDn", "Read", "on"),
        *("PgUp", "Back", "Esc", "Board", *QUIT),
    ]
    assert day[:6] == ["Space/PgDn", "Rack", "↑↓", "Work", "←→", "Day"]
    assert lifters == [
        *("Enter", "Take", "this", "name", "↑↓", "Name", "Esc", "Leave", "it", "as", "it", "was"),
        *QUIT,
    ]


async def test_where_there_is_nothing_to_choose_no_key_for_it_is_named() -> None:
    async with Rack().running() as rack:
        await rack.press("f9", "r")
        ready = keys(rack)
        await rack.press("escape", "n", "enter")
        proposal = keys(rack)

    assert ready == proposal == ["Esc", "Season", *QUIT]


SORENESS_KEYS = [
    *("0-10", "Type", "PgDn/Enter", "Go", "on", "Backspace", "Clear", "S", "Stop", "asking"),
    *("Esc", "Skip"),
]


@pytest.mark.parametrize(
    ("columns", "rows", "read_on", "height"),
    [
        (80, 24, (), 2),
        (40, 16, ("↑↓", "Read", "on"), 3),
        (40, 12, ("↑↓", "Read", "on"), 3),
    ],
)
async def test_the_question_of_soreness_names_all_its_keys_and_where_it_has_no_room_how_to_read_on(
    columns: int, rows: int, read_on: tuple[str, ...], height: int
) -> None:
    async with Rack(asks_soreness=True).at_the_rack(columns=columns, rows=rows) as rack:
        assert keys(rack) == [*SORENESS_KEYS, *read_on, *QUIT]
        assert rack.get(KeyLine).region.height == height


BOARD_KEYS = [
    *("Enter", "To", "the", "rack", "F1", "Cautions", "F2", "Lifter"),
    *("F3", "Settings", "F4", "Sounds", "F5", "Weeks", "F7", "Methods"),
    *("F8", "Reserve", "F9", "Season"),
]
QUIT = ["Ctrl+Q", "Quit"]
SAVED_KEYS = ["Enter", "Field", "F3", "Repeat", "F4", "Strike", "Esc", "Leave"]
