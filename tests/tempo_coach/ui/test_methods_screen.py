from __future__ import annotations

import pytest
from textual.widgets import Input

from tempo_coach.core.method_catalogue import METHODS
from tempo_coach.core.method_names import MethodName
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.methods_screen import NO_EXERCISE, MethodsScreen
from tests.tempo_coach.ui.plan_rack import PlanRack
from tests.tempo_coach.ui.rack import Rack

pytestmark = pytest.mark.screen


async def choose(rack: Rack, name: MethodName) -> None:
    await rack.press("f7", *["down"] * list(METHODS).index(name))


async def test_every_method_is_listed_and_the_chosen_one_told() -> None:
    async with Rack().running() as rack:
        await choose(rack, MethodName.HOLD)
        text = rack.text()

    assert all(name.value in text for name in METHODS)
    assert "▸ hold" in text
    assert METHODS[MethodName.HOLD].summary in text


@pytest.mark.parametrize("name", METHODS)
async def test_a_card_is_read_to_its_end_by_page_keys(name: MethodName) -> None:
    async with Rack().running() as rack:
        await choose(rack, name)
        seen = rack.text()
        for _ in range(8):
            await rack.press("pagedown")
            seen += rack.text()
        at_end = rack.text()
        for _ in range(8):
            await rack.press("pageup")
        at_begin = rack.text()

    assert "equipment:" in seen
    assert "caution:" in seen
    assert at_end != at_begin
    assert METHODS[name].summary.split()[0] in at_begin


async def test_enter_puts_a_line_of_the_method_on_the_board_for_its_exercise() -> None:
    async with Rack().running() as rack:
        await rack.press("f7", "enter")

        assert isinstance(rack.screen, BoardScreen)
        assert rack.get(Input).value == "front squat 4x6 4-0-1-0 rest 2:30 method slow-lowering"
        assert "4 sets of 6 reps" in rack.text()


async def test_the_load_is_that_of_the_lifter_in_the_plan() -> None:
    async with PlanRack(is_first=False).running() as rack:
        rack.get(Input).value = "front squat"
        await rack.press("f7")
        shown = rack.text()
        await rack.press("enter")
        line = rack.get(Input).value

    assert "60% of 90 kg = 54, loadable 55 kg" in shown
    assert line == "front squat 4x6 @ 55 kg 4-0-1-0 rest 2:30 method slow-lowering"


async def test_what_gives_no_line_says_why_and_stays() -> None:
    async with Rack("").running() as rack:
        await rack.press("f7", "enter")
        without_exercise = rack.text()
        await rack.press("escape")
        rack.get(Input).value = "front squat"
        await choose(rack, MethodName.OVERLOADED_LOWERING)
        await rack.press("enter")

        assert isinstance(rack.screen, MethodsScreen)
        assert NO_EXERCISE in without_exercise
        assert "needs a max of 'front squat', and none is known" in rack.text()


async def test_whom_the_coach_has_not_cleared_gets_no_line_of_overload() -> None:
    rack = PlanRack(is_first=False)
    rack.plan.text = rack.plan.text.replace(
        'name = "Mirela Oude"', 'name = "Mirela Oude"\noverload = false'
    )
    async with rack.running():
        await rack.press("f6", "f6")
        rack.get(Input).value = "front squat"
        await choose(rack, MethodName.OVERLOADED_LOWERING)
        await rack.press("enter")
        notice = " ".join(rack.lines()[-4:])

    assert "The coach has not cleared this lifter for overloaded-lowering." in notice


async def test_escape_leaves_the_board_as_it_was() -> None:
    async with Rack().running() as rack:
        before = rack.get(Input).value
        await rack.press("f7", "down", "escape")

        assert isinstance(rack.screen, BoardScreen)
        assert rack.get(Input).value == before


async def test_in_a_narrow_window_the_card_stands_beneath_the_list_in_whole_words() -> None:
    async with Rack().running(columns=40, rows=12) as rack:
        await rack.press("f7")

        assert "  slow-lowering: a load that can be" in "\n".join(rack.lines())
