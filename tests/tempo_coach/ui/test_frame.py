"""Keys that are pressed so fast that one with priority could overtake those before it."""

from __future__ import annotations

import pytest
from textual.widgets import Input

from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.day_screen import DayScreen
from tempo_coach.ui.set_screen import SetScreen
from tests.tempo_coach.ui.plan_rack import PlanRack, squat
from tests.tempo_coach.ui.rack import Rack
from tests.tempo_coach.ui.test_reserve_screen import Bench

pytestmark = pytest.mark.screen

TAKES = [("enter",), ("enter", "enter"), ("enter", "enter", "enter")]


@pytest.mark.parametrize("takes", TAKES, ids=len)
async def test_the_work_that_was_chosen_last_is_gone_to(takes: tuple[str, ...]) -> None:
    async with PlanRack().running() as rack:
        await rack.press_at_once("down", *takes)

        assert isinstance(rack.screen, SetScreen)
        assert "chin-up" in rack.lines()[0]


async def test_the_name_that_was_chosen_last_is_who_lifts() -> None:
    async with PlanRack().running() as rack:
        await rack.press("f2")
        await rack.press_at_once("down", "enter")

        assert isinstance(rack.screen, DayScreen)
        assert "Jonne Tarval" in rack.lines()[0]


@pytest.mark.parametrize("takes", TAKES[:2], ids=len)
async def test_the_method_that_was_chosen_last_is_put_on_the_board(takes: tuple[str, ...]) -> None:
    async with Rack().running() as rack:
        await rack.press("f7")
        await rack.press_at_once("down", *takes)

        assert rack.get(Input).value.endswith("method stopped-lowering")


@pytest.mark.parametrize("takes", TAKES[:2], ids=len)
async def test_the_line_that_was_chosen_last_is_put_on_the_board(takes: tuple[str, ...]) -> None:
    rack = PlanRack()
    rack.log.facts += [squat(1), squat(2, exercise="chin-up")]
    async with rack.running():
        await rack.press("f9", "n")
        await rack.press_at_once("down", *takes)

        assert isinstance(rack.screen, BoardScreen)
        assert rack.get(Input).value.startswith("chin-up")


async def test_the_seconds_that_were_typed_last_are_logged() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.press("h")
        await bench.press_at_once("4", ".", "8", "enter", "enter")

    assert bench.attempts() == [(100.0, True, 4.8)]
