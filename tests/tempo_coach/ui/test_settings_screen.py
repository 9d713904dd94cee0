from __future__ import annotations

from pathlib import Path

import pytest

from tempo_coach.core.settings import CueSet
from tempo_coach.errors import SettingsProblem
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.option_line import OptionLine
from tempo_coach.ui.setting_entries import ENTRIES
from tempo_coach.ui.setting_row import SettingRow
from tempo_coach.ui.settings_screen import SettingsScreen
from tests.tempo_coach.ui.rack import Rack

pytestmark = pytest.mark.screen

FIRST_ROW = 2
PLACE = {entry.label: place for place, entry in enumerate(ENTRIES)}


async def go_to(rack: Rack, label: str) -> None:
    """Open the settings at one of them."""
    await rack.press("f3")
    await focus(rack, label)


async def focus(rack: Rack, label: str) -> None:
    list(rack.screen.query(SettingRow))[PLACE[label]].control.focus()
    await rack.settle()


def row(rack: Rack, label: str) -> list[str]:
    return rack.lines()[FIRST_ROW + PLACE[label]].split()


async def test_every_setting_stands_there_with_its_value_and_its_source() -> None:
    sources = {"volume": "the settings file /s.toml", "unit": "the environment"}
    async with Rack(sources=sources).running(rows=30) as rack:
        await rack.press("f3")
        lines = rack.lines()

    assert [line[3:22].strip() for line in lines[FIRST_ROW : FIRST_ROW + len(ENTRIES)]] == list(
        PLACE
    )
    assert lines[FIRST_ROW].split() == ["▸", "Tick", "●", "on", "○", "off", "default"]
    assert lines[FIRST_ROW + PLACE["Volume"]].endswith("settings file")
    assert lines[FIRST_ROW + PLACE["Bare loads are in"]].endswith("environment")


async def test_space_and_arrows_choose_and_the_choice_holds_and_is_kept() -> None:
    async with Rack().running() as rack:
        await go_to(rack, "Voice")
        await rack.press("space")
        with_voice = rack.coach.settings.cues
        await rack.press("down", "right", "right")
        counts = rack.coach.settings.count
        shown = row(rack, "Voice counts")
        await rack.press("left")

    assert with_voice == (CueSet.TICK, CueSet.VOICE)
    assert counts == "down"
    assert shown == ["▸", "Voice", "counts", "○", "up", "●", "down", "changed", "here"]
    assert rack.kept == ["cues = tick+voice", "count = down", "count = up"]


async def test_the_last_cue_set_cant_be_turned_off() -> None:
    async with Rack().running() as rack:
        await rack.press("f3", "space")
        text = rack.text()
        shown = row(rack, "Tick")
        await rack.press("down", "space")
        after = rack.text()

    assert "No cue would be left. Turn another on first." in text
    assert shown[2:4] == ["●", "on"]
    assert "No cue would be left" not in after
    assert rack.coach.settings.cues == (CueSet.TICK, CueSet.GLIDE)


async def test_a_click_chooses() -> None:
    async with Rack().running() as rack:
        await rack.press("f3")
        line = list(rack.screen.query(OptionLine))[PLACE["Voice counts"]]
        await rack.pilot.click(line, offset=(8, 0))
        await rack.settle()

        assert rack.coach.settings.count == "down"
        assert rack.app.focused is line


async def test_a_number_is_taken_however_its_field_is_left() -> None:
    async with Rack().running() as rack:
        await rack.press("f3")
        for number, key in enumerate(("enter", "down", "up", "tab", "escape"), start=4):
            await focus(rack, "Before rep 1")
            await rack.write(str(number))
            await rack.press(key)

        assert rack.coach.settings.setup_s == 8.0

    assert rack.kept == [f"setup_s = {number}.0" for number in (4, 5, 6, 7, 8)]


async def test_a_number_that_cant_be_taken_says_why_and_keeps_the_cursor() -> None:
    async with Rack().running() as rack:
        await go_to(rack, "Before rep 1")
        await rack.write("2")
        for key in ("enter", "up", "down", "tab"):
            await rack.press(key)

            assert "'2' can't be taken. A number from 3 to 60." in rack.text()
            assert row(rack, "Before rep 1")[:5] == ["▸", "Before", "rep", "1", "2"]

        await rack.write("20")
        while_typing = rack.text()
        await rack.press("enter")

    assert "can't be taken" not in while_typing
    assert rack.kept == ["setup_s = 20.0"]


async def test_leaving_with_a_number_that_cant_be_taken_says_so_on_the_board() -> None:
    async with Rack().running() as rack:
        await go_to(rack, "Volume")
        await rack.write("11")
        await rack.press("escape")
        text = rack.text()

        assert isinstance(rack.screen, BoardScreen)

    assert "Not changed. '11' can't be taken. A whole number from 1 to 10." in text
    assert rack.kept == []


async def test_the_chosen_setting_is_explained_with_its_source() -> None:
    async with Rack(
        sources={"offset_ms": "the command line"}, given_outside=frozenset({"offset_ms"})
    ).running() as rack:
        await go_to(rack, "Sound is late by")
        text = rack.text()

    assert "How much later than usual the sound is heard, as over Bluetooth" in text
    assert "Given by the command line, which at the next start goes over a change" in text


async def test_the_board_reads_its_line_anew_by_the_changed_settings() -> None:
    async with Rack().running() as rack:
        await go_to(rack, "X counts as")
        await rack.write("1.5")
        await rack.press("escape")

        assert "'About': X as 1.5 s, counted by allowance." in rack.text()


async def test_a_change_that_cant_be_kept_holds_for_now_and_says_so() -> None:
    fault = SettingsProblem("the settings can't be written", path=Path("s.toml"), hint="make room")
    async with Rack(keep_fault=fault).running() as rack:
        await go_to(rack, "Glide")
        await rack.press("space")
        text = rack.text()

        assert isinstance(rack.screen, SettingsScreen)

    assert "This will not be remembered. The settings can't be written. Make room." in text
    assert rack.coach.settings.cues == (CueSet.TICK, CueSet.GLIDE)


async def test_a_window_that_loses_the_focus_leaves_a_half_typed_number_alone() -> None:
    async with Rack().running() as rack:
        await go_to(rack, "Before rep 1")
        await rack.write("2")
        rack.app.app_focus = False
        await rack.settle()
        text = rack.text()

    assert "can't be taken" not in text
    assert rack.kept == []


async def test_what_is_wrong_and_what_is_meant_stand_below_at_80_by_24() -> None:
    async with Rack().running() as rack:
        await go_to(rack, "Sound is late by")
        await rack.write("9999")
        await rack.press("enter")
        lines, text = rack.lines(), rack.text()

    assert any("'9999' can't be taken." in line for line in lines)
    assert "the picture waits for it. As by default." in text


async def test_every_setting_comes_into_view_at_80_by_24() -> None:
    async with Rack().running() as rack:
        await rack.press("f3")
        for label in PLACE:
            assert any(label in line for line in rack.lines())
            await rack.press("down")


async def test_in_the_smallest_window_the_setting_that_is_typed_stays_in_sight_with_its_fault() -> (
    None
):
    async with Rack().running(columns=40, rows=12) as rack:
        await go_to(rack, "A counts as")
        await rack.write("99")
        await rack.press("enter")
        text = rack.text()

    assert "▸ A counts as 99" in text
    assert "'99' can't be taken." in text


async def test_a_narrow_window_leaves_the_sources_to_the_words_beneath() -> None:
    async with Rack().running(columns=60, rows=20) as rack:
        await go_to(rack, "Volume")
        text = rack.text()

    assert "steps of 3 dB, 1 to 10 " in text
    assert "As by default." in text
    assert "default" not in text.replace("As by default.", "")
