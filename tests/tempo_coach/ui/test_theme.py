from __future__ import annotations

from collections.abc import Iterator

import pytest
from rich.color import Color
from rich.style import Style

from tempo_coach.ui.setting_row import NumberInput
from tests.tempo_coach.core.done_sets import done_set
from tests.tempo_coach.ui.plan_rack import PlanRack
from tests.tempo_coach.ui.rack import Rack

pytestmark = pytest.mark.screen

LEAST_OF_TEXT = 4.5
"""WCAG 2.2, success criterion 1.4.3."""
LEAST_OF_MARKS = 3.0
"""WCAG 2.2, success criterion 1.4.11: what shows a part of the interface and its state."""
MARKS = set("▀▄█▌▐▁▂▃▅▆▇▉▊▋▍▎▏│─╭╮╰╯└")


def luminance(color: Color) -> float:
    """Return the relative luminance, as WCAG 2.2 defines it."""
    shares = (part / 255 for part in color.get_truecolor())
    linear = (s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
    return sum(w * s for w, s in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: Color, other: Color) -> float:
    """Return the contrast ratio, as WCAG 2.2 defines it."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def drawn(rack: Rack) -> Iterator[tuple[str, Style]]:
    """Yield what stands in the window, each text with its colours."""
    for strip in rack.screen._compositor.render_strips():
        for text, style, _ in strip:
            if text.strip() and style is not None:
                yield text.strip(), style


def too_faint(rack: Rack) -> list[str]:
    """Return what does not stand out from what is behind it."""
    found = []
    for text, style in drawn(rack):
        assert style.color is not None
        assert style.bgcolor is not None
        least = LEAST_OF_MARKS if set(text) <= MARKS else LEAST_OF_TEXT
        if contrast(style.color, style.bgcolor) < least:
            found.append(text)
    return found


@pytest.mark.parametrize(
    "keys",
    [
        (), ("f1",), ("f2",), ("f3",), ("f3", "down", "down", "down", "down"), ("f4",), ("f5",),
        ("f7",), ("f8",), ("f9",), ("f9", "r"), ("f9", "n"), ("enter",),
    ],
    ids="-".join,
)  # fmt: skip
async def test_every_text_stands_out_from_what_is_behind_it(keys: tuple[str, ...]) -> None:
    rack = Rack(notices=("Something to be known.",))
    rack.log.facts.append(done_set(lifter="Ana"))
    async with rack.running():
        await rack.press(*keys)

        assert too_faint(rack) == []


async def test_every_phase_and_the_rest_stand_out() -> None:
    async with Rack("front squat 2x1 @ 80 kg 4-2-2-2 rest 3:00").at_the_rack() as rack:
        await rack.press("space")
        for wait_ms in (5_000, 6_000, 4_000, 2_000, 2_000, 2_000):
            await rack.wait(wait_ms)

            assert too_faint(rack) == []


async def test_a_planned_day_and_its_questions_stand_out() -> None:
    async with PlanRack().running() as rack:
        for keys in ((), ("l",), ("escape", "f2"), ("escape", "down", "down")):
            await rack.press(*keys)

            assert too_faint(rack) == []


async def test_what_speaks_against_a_set_is_told_from_other_words_without_colours_too() -> None:
    async with Rack(asks_soreness=True).at_the_rack() as rack:
        await rack.press("9", "enter")
        at_the_rack = dict(drawn(rack))
        await rack.press("escape")
        on_the_board = dict(drawn(rack))

    for words in (at_the_rack, on_the_board):
        warning = next(style for text, style in words.items() if text.startswith("Soreness today"))
        other = next(style for text, style in words.items() if text.startswith("A set: "))
        assert (warning.bold, other.bold) == (True, None)


async def test_the_field_that_is_typed_into_differs_from_the_others_and_from_the_window() -> None:
    async with Rack().running() as rack:
        await rack.press("f3", "down", "down", "down", "down")
        fields = list(rack.screen.query(NumberInput))
        focused, other = (one.background_colors[1].rich_color for one in fields[:2])
        window = rack.screen.background_colors[1].rich_color

        assert fields[0].has_focus

    assert contrast(focused, window) >= LEAST_OF_MARKS
    assert focused != other
