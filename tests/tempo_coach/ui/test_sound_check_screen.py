from __future__ import annotations

from datetime import timedelta

import numpy as np
import pytest

from tempo_coach.core.cue_sets import check_track
from tempo_coach.core.settings import Settings
from tempo_coach.ui.set_screen import SetScreen
from tempo_coach.ui.sound_check_screen import QUESTION, REMEDIES, SoundCheckScreen
from tempo_coach.ui.stage import Stage
from tests.tempo_coach.fakes import no_device
from tests.tempo_coach.ui.rack import A_MOMENT_MS, TODAY, Rack

pytestmark = pytest.mark.screen

YESTERDAY = TODAY - timedelta(days=1)
CHECKED = f"sound checked on {TODAY}"


async def test_three_tones_are_played_and_asked_for_before_the_first_set_of_a_day() -> None:
    async with Rack(sound_checked_on=YESTERDAY, settings=Settings(volume=4)).at_the_rack() as rack:
        text = rack.text()
        (track,) = rack.player.tracks

        assert isinstance(rack.screen, SoundCheckScreen)

    assert np.array_equal(track, check_track(volume=4))
    assert QUESTION in text


@pytest.mark.parametrize("key", ["y", "enter", "pagedown"])
async def test_yes_goes_on_to_the_set_and_is_remembered_for_the_day(key: str) -> None:
    async with Rack(sound_checked_on=None).at_the_rack() as rack:
        await rack.press(key)
        stage = rack.set_screen.stage
        await rack.press("escape", "enter")

        assert isinstance(rack.screen, SetScreen)

    assert stage is Stage.WAITING
    assert rack.kept == [CHECKED]


async def test_the_clicker_goes_all_the_way_and_a_key_held_down_stops_at_the_set() -> None:
    async with Rack(sound_checked_on=None).at_the_rack() as rack:
        await rack.send("pagedown")
        for _ in range(5):
            rack.clock.advance(33)
            await rack.send("pagedown")
        held = rack.set_screen.stage
        await rack.wait(A_MOMENT_MS)
        await rack.press("pagedown")

        assert rack.set_screen.stage is Stage.PACING

    assert held is Stage.WAITING


async def test_the_enter_that_opened_the_set_is_no_answer_while_it_is_held_down() -> None:
    async with Rack(sound_checked_on=None).running() as rack:
        await rack.press("enter")
        for _ in range(5):
            rack.clock.advance(33)
            await rack.press("enter")

        assert isinstance(rack.screen, SoundCheckScreen)


async def test_no_shows_what_to_try_and_the_tones_can_be_played_again() -> None:
    async with Rack(sound_checked_on=None).at_the_rack() as rack:
        await rack.press("n")
        text = rack.text()
        await rack.press("space", "r", "pageup")

        assert isinstance(rack.screen, SoundCheckScreen)
        assert len(rack.player.tracks) == 4

    assert all(remedy in text for remedy in REMEDIES)


async def test_escape_skips_it_for_this_start_and_silences_it() -> None:
    async with Rack(sound_checked_on=None).at_the_rack() as rack:
        await rack.press("escape")
        stage = rack.set_screen.stage
        was_silenced = rack.player.playbacks[0].was_silenced
        await rack.press("escape", "enter")

        assert isinstance(rack.screen, SetScreen)

    assert stage is Stage.WAITING
    assert was_silenced
    assert rack.kept == []


async def test_it_can_be_turned_off_for_good() -> None:
    async with Rack(sound_checked_on=None).at_the_rack() as rack:
        await rack.press("s")

        assert isinstance(rack.screen, SetScreen)
        assert not rack.coach.settings.sound_check

    assert rack.kept == ["sound_check = False"]


async def test_without_a_device_it_says_so_and_goes_on_by_one_key() -> None:
    async with Rack(sound_checked_on=None, sound_fault=no_device()).at_the_rack() as rack:
        text = rack.text()
        await rack.press("pagedown")

        assert rack.set_screen.stage is Stage.WAITING

    assert QUESTION not in text
    assert "No sound. There is no sound device. Plug in headphones." in text
    assert all(remedy in text for remedy in REMEDIES)
    assert rack.kept == []


async def test_a_device_that_is_plugged_in_meanwhile_is_asked_about() -> None:
    async with Rack(sound_checked_on=None, sound_fault=no_device()).at_the_rack() as rack:
        rack.player.fault = None
        await rack.press("space")
        text = rack.text()
        await rack.press("y")

    assert QUESTION in text
    assert rack.kept == [CHECKED]


async def test_the_day_after_it_is_asked_again() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.press("escape")
        rack.clock.advance(24 * 3_600_000)
        await rack.press("enter")

        assert isinstance(rack.screen, SoundCheckScreen)


@pytest.mark.parametrize(
    "rack",
    [
        Rack(sound_checked_on=TODAY),
        Rack(sound_checked_on=None, is_silent=True),
        Rack(sound_checked_on=None, settings=Settings(sound_check=False)),
    ],
    ids=["heard today", "silent", "turned off"],
)
async def test_it_is_left_out_where_there_is_nothing_to_ask(rack: Rack) -> None:
    async with rack.at_the_rack():
        assert isinstance(rack.screen, SetScreen)
        assert rack.player.tracks == []


async def test_the_keys_fit_into_80_columns() -> None:
    async with Rack(sound_checked_on=None).at_the_rack() as rack:
        asked = rack.lines()[-2:]
        rack.player.fault = no_device()
        await rack.press("space")
        refused = rack.lines()[-1]

    assert [line.split() for line in asked] == [
        [],
        [
            "Y/Enter/PgDn", "Yes", "N", "No", "Space", "Again", "S", "Stop", "asking",
            "Esc", "Skip", "Ctrl+Q", "Quit",
        ],
    ]  # fmt: skip
    assert refused.split()[:3] == ["Enter/PgDn", "Go", "on"]
