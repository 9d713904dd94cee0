from __future__ import annotations

import importlib
import inspect
import pkgutil
from itertools import chain

import pytest
from textual.binding import Binding
from textual.dom import DOMNode

from tempo_coach import ui
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


async def test_the_keys_fit_into_80_columns_at_every_stage() -> None:
    async with Rack().running() as rack:
        footers = [rack.lines()[-1]]
        await rack.press("enter")
        footers.append(rack.lines()[-1])
        await rack.do_set()
        footers.append(rack.lines()[-1])
        for _ in range(3):
            await rack.do_set()
        footers.append(rack.lines()[-1])

    assert [footer.split() for footer in footers] == [
        list(chain(["Enter", "To", "the", "rack", "F1", "Cautions", "F2", "Lifter"], QUIT)),
        list(chain(["Space/PgDn", "Start", "Esc", "Leave"], QUIT)),
        list(chain(["Space/PgDn", "Start", *SAVED_KEYS], QUIT)),
        list(chain(["Space/PgDn", "Back", *SAVED_KEYS], QUIT)),
    ]


QUIT = ["Ctrl+Q", "Quit"]
SAVED_KEYS = ["Enter", "Next", "F3", "Repeat", "F4", "Strike", "Esc", "Leave"]
