from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import Input

from tempo_coach.core.cautions import LONG, SHORT
from tempo_coach.errors import SettingsProblem
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.cautions_screen import SHORT_CHAPTERS, CautionsScreen
from tempo_coach.ui.frame import TooSmall
from tempo_coach.ui.name_screen import NameScreen
from tempo_coach.ui.set_screen import SetScreen
from tests.tempo_coach.ui.rack import A_MOMENT_MS, LINE, REP_MS, SETUP_MS, Rack

pytestmark = pytest.mark.screen


async def test_the_board_holds_the_line_and_names_the_lifter() -> None:
    async with Rack().running() as rack:
        assert rack.get(Input).value == LINE
        assert rack.lines()[0].split() == ["What", "is", "to", "be", "done?", "Ana"]


async def test_problems_are_told_at_the_start() -> None:
    async with Rack(notices=("Line 17 of the log can't be read.", "[b]odd[/b]")).running() as rack:
        text = rack.text()

    assert "Line 17 of the log can't be read. [b]odd[/b]" in text


async def test_the_cautions_are_shown_at_first_and_that_is_kept_once_they_are_left() -> None:
    async with Rack(show_cautions=True).running() as rack:
        shown, kept_before = rack.text(), list(rack.kept)
        await rack.press("enter")
        is_gone = not isinstance(rack.screen, CautionsScreen)

    for sentence in SHORT:
        assert sentence in shown
    assert is_gone
    assert kept_before == []
    assert rack.kept == ["cautions shown"]


async def test_the_cautions_are_left_by_any_of_the_keys() -> None:
    async with Rack().running() as rack:
        for key in ("enter", "space", "pagedown", "escape"):
            await rack.app.push_screen(CautionsScreen(SHORT_CHAPTERS))
            await rack.press(key)

            assert isinstance(rack.screen, BoardScreen)


async def test_f1_shows_the_cautions_in_full_page_by_page() -> None:
    async with Rack().running() as rack:
        await rack.press("f1")
        pages = [rack.text()]
        while isinstance(rack.screen, CautionsScreen):
            await rack.press("pagedown")
            pages.append(rack.text())
            assert len(pages) < 20

    read = " ".join(pages)
    assert len(pages) > 3
    for heading, _ in LONG:
        assert heading in read
    assert rack.kept == []


async def test_page_up_turns_the_cautions_back() -> None:
    async with Rack().running() as rack:
        await rack.press("f1")
        first = rack.text()
        await rack.press("pagedown")
        second = rack.text()
        await rack.press("pageup")
        again = rack.text()

    assert second != first
    assert again == first


async def test_the_name_is_asked_for_where_nobody_lifts_yet_and_kept() -> None:
    async with Rack(lifter=None).running() as rack:
        question = rack.text()
        await rack.press("escape")
        await rack.write(" Ana  María ")
        await rack.press("enter")
        heading = rack.lines()[0]

    assert "Who is lifting?" in question
    assert "Leave it as it was" not in question
    assert heading.endswith("Ana María")
    assert rack.kept == ["lifter = Ana María"]


async def test_a_name_that_is_empty_or_too_long_is_refused() -> None:
    async with Rack(lifter=None).running() as rack:
        await rack.press("enter")
        empty = rack.text()
        rack.get(Input).value = "n" * 81
        await rack.press("enter")
        long = rack.text()
        asks_still = isinstance(rack.screen, NameScreen)

    assert "The name of the lifter is empty. Give at least one letter." in empty
    assert "The name of the lifter has 81 characters. At most 80." in long
    assert asks_still
    assert rack.kept == []


async def test_f2_changes_the_lifter_and_escape_leaves_him_as_he_was() -> None:
    async with Rack().running() as rack:
        await rack.press("f2", "escape")
        unchanged = rack.lines()[0]
        await rack.press("f2")
        rack.get(Input).value = "Bo"
        await rack.press("enter", "enter")
        await rack.wait(A_MOMENT_MS)
        await rack.press("space")
        await rack.wait(SETUP_MS + REP_MS)
        await rack.press("space")

    assert unchanged.endswith("Ana")
    assert [done.lifter for done in rack.sets()] == ["Bo"]
    assert rack.kept == ["lifter = Bo"]


async def test_a_name_that_cant_be_kept_holds_for_now_and_says_so() -> None:
    fault = SettingsProblem("the settings can't be written", path=Path("s.toml"), hint="make room")
    async with Rack(lifter=None, keep_fault=fault).running() as rack:
        await rack.write("Bo")
        await rack.press("enter")
        lines, text = rack.lines(), rack.text()

    assert lines[0].endswith("Bo")
    assert "This will not be remembered. The settings can't be written. Make room." in text


async def test_quitting_gives_0() -> None:
    async with Rack().running() as rack:
        await rack.press("ctrl+q")

    assert rack.app.return_value == 0


async def test_ctrl_c_says_which_key_quits() -> None:
    rack = Rack()
    async with rack.at_the_rack():
        await rack.press("ctrl+c")
        text = rack.text()
        is_running = rack.app.is_running

    assert "Ctrl+Q quits." in text
    assert is_running


async def test_no_other_screen_covers_a_set() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.press("f1", "f2")

        assert isinstance(rack.screen, SetScreen)


async def test_there_is_no_command_palette() -> None:
    async with Rack().running() as rack:
        before = rack.screen
        await rack.press("ctrl+p")

        assert rack.screen is before


async def test_a_window_that_is_too_small_says_so_and_nothing_else() -> None:
    async with Rack().at_the_rack(columns=39, rows=24) as rack:
        narrow = rack.text()
        await rack.pilot.resize_terminal(80, 11)
        await rack.settle()
        low = rack.text()

    assert narrow == "The window is too small: 39 × 24, at least 40 × 12."
    assert low == "The window is too small: 80 × 11, at least 40 × 12."


async def test_a_window_that_grows_again_shows_all_again() -> None:
    async with Rack().at_the_rack(columns=30, rows=8) as rack:
        await rack.pilot.resize_terminal(80, 24)
        await rack.settle()

        assert not rack.get(TooSmall).display
        assert "set 1 of 4" in rack.text()


async def test_the_least_window_still_holds_the_set_and_its_keys() -> None:
    async with Rack().at_the_rack(columns=40, rows=12) as rack:
        await rack.press("space")
        await rack.wait(SETUP_MS + 2_500)
        lines = rack.lines()

    assert lines[0].startswith(" front squat")
    assert lines[-2].startswith(" Space/PgDn Stop")
    assert lines[-1] == " Ctrl+Q Quit"
    assert any("REP" in line for line in lines)
