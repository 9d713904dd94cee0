from __future__ import annotations

import pytest

from tempo_coach.ui.cautions_screen import CautionsScreen
from tempo_coach.ui.key_line import KeyLine
from tests.tempo_coach.ui.rack import Rack

pytestmark = pytest.mark.screen


async def test_a_click_on_a_key_presses_it() -> None:
    async with Rack().running() as rack:
        region = rack.get(KeyLine).region
        column = rack.lines()[region.y].index("F1")
        await rack.pilot.click(offset=(column, region.y))
        await rack.settle()

        assert isinstance(rack.screen, CautionsScreen)


async def test_a_click_on_a_name_of_several_keys_presses_none_of_them() -> None:
    async with Rack(asks_soreness=True).at_the_rack() as rack:
        region = rack.get(KeyLine).region
        column = rack.lines()[region.y].index("0-10 Type")
        await rack.pilot.click(offset=(column + 1, region.y))
        await rack.settle()

        assert "– of 10" in rack.text()


async def test_the_pointer_is_told_what_a_key_does() -> None:
    async with Rack().running() as rack:
        line = rack.get(KeyLine)
        await rack.pilot.hover(KeyLine, offset=(1, 0))
        over_a_key = line.tooltip
        await rack.pilot.hover(KeyLine, offset=(79, line.size.height - 1))
        beside = line.tooltip

    assert over_a_key == "Go on to the first set, once the line can be read"
    assert beside is None


async def test_keys_that_one_line_does_not_hold_are_shown_in_two() -> None:
    async with Rack().running(columns=40) as rack:
        shown = " ".join(line.strip() for line in rack.lines()[-rack.get(KeyLine).size.height :])

    for words in ("To the rack", "F1 Cautions", "F2 Lifter", "Ctrl+Q Quit"):
        assert words in shown


async def test_in_another_width_the_keys_take_the_lines_that_they_need() -> None:
    async with Rack().running(columns=160) as rack:
        wide = rack.get(KeyLine).region.height
        await rack.pilot.resize_terminal(40, 24)
        await rack.settle()
        narrow, shown = rack.get(KeyLine).region.height, rack.text()
        await rack.pilot.resize_terminal(160, 24)
        await rack.settle()

        assert rack.get(KeyLine).region.height == wide < narrow

    assert "To the rack" in shown
    assert "Ctrl+Q Quit" in shown
