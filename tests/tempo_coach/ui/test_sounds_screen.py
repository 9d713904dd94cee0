from __future__ import annotations

import numpy as np
import pytest

from tempo_coach.core.cue_sets import sound_track, sounds
from tempo_coach.core.settings import CueSet, Settings
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.sounds_screen import SoundList, SoundsScreen
from tests.tempo_coach.fakes import no_device
from tests.tempo_coach.ui.rack import Rack

pytestmark = pytest.mark.screen

SOUNDS = sounds()


async def listen(rack: Rack, ms: int) -> str | None:
    """Let time pass; return the cue that is marked as heard."""
    assert isinstance(rack.screen, SoundsScreen)
    rack.clock.advance(ms)
    rack.screen.follow_clock()
    await rack.settle()
    text = "\n".join(rack.lines()[rack.get(SoundList).region.bottom :])
    return text.split("▸ ")[1].split("  ")[0].split("\n")[0] if "▸ " in text else None


async def test_every_sound_is_listed_with_its_words() -> None:
    async with Rack().running() as rack:
        await rack.press("f4")
        rows = [line.split(maxsplit=1) for line in rack.lines()]
        text = rack.text()

    for sound in SOUNDS:
        assert f"{sound.name} {sound.words}" in text
    assert ["▸", f"{SOUNDS[0].name}            {SOUNDS[0].words}"] in rows


async def test_enter_and_space_play_the_chosen_sound_as_loud_as_set() -> None:
    async with Rack(settings=Settings(volume=4)).running() as rack:
        await rack.press("f4", "enter", "down", "space")
        played = rack.player.tracks
        was_silenced = rack.player.playbacks[0].was_silenced

    assert len(played) == 2
    for track, sound in zip(played, SOUNDS, strict=False):
        assert np.array_equal(track, sound_track(sound, volume=4))
    assert was_silenced


async def test_a_click_plays() -> None:
    async with Rack().running() as rack:
        await rack.press("f4")
        await rack.pilot.click(SoundList, offset=(5, 3))
        await rack.settle()

    assert [len(track) for track in rack.player.tracks] == [len(SOUNDS[3].clip)]


async def test_the_words_of_the_slow_rep_go_along_with_its_sound() -> None:
    rack = Rack(settings=Settings(cues=(CueSet.GLIDE,)))
    rack.player.lag_ms = 300
    async with rack.running():
        await rack.press("f4", "end", "enter")
        heard = [await listen(rack, ms) for ms in (0, 1_299, 1, 3_000, 1_000, 3_000, 3_500, 2_000)]
        named = "as set: glide" in rack.text()

    assert heard == [
        None, None, "ready 3", "lower 4 s", "lower, second 2", "pause 1 s", "top 1 s", None,
    ]  # fmt: skip
    assert named


async def test_another_sound_takes_the_place_of_the_rep_and_of_its_words() -> None:
    async with Rack().running() as rack:
        await rack.press("f4", "end", "enter")
        before = await listen(rack, 5_000)
        await rack.press("up", "enter")
        after = await listen(rack, 0)

        assert rack.player.playbacks[0].was_silenced

    assert before == "lower, second 2"
    assert after is None


async def test_escape_leaves_and_silences() -> None:
    async with Rack().running() as rack:
        await rack.press("f4", "end", "enter", "escape")

        assert isinstance(rack.screen, BoardScreen)
        assert [playback.was_silenced for playback in rack.player.playbacks] == [True]


async def test_a_sound_that_the_device_takes_too_late_is_not_heard_after_leaving() -> None:
    rack = Rack()
    async with rack.running():
        await rack.press("f4")
        rack.player.is_free.clear()
        await rack.send("enter", "down", "enter", "escape")
        rack.player.is_free.set()
        await rack.settle()

        assert not any(playback.is_sounding() for playback in rack.player.playbacks)


async def test_a_missing_device_is_told_in_one_notice_until_there_is_one() -> None:
    async with Rack(sound_fault=no_device()).running() as rack:
        await rack.press("f4", "enter", "enter")
        without = rack.text()
        rack.player.fault = None
        await rack.press("enter")
        with_device = rack.text()

    assert without.count("No sound. There is no sound device. Plug in headphones.") == 1
    assert "No sound" not in with_device


async def test_by_wish_silent_it_says_so() -> None:
    async with Rack(is_silent=True).running() as rack:
        await rack.press("f4", "enter")

        assert "This was started silent, so nothing is heard." in rack.text()


async def test_all_fits_into_80_by_24_with_a_notice() -> None:
    async with Rack(sound_fault=no_device()).running() as rack:
        await rack.press("f4", "end", "enter")
        lines = rack.lines()

    text = "\n".join(lines)
    assert "▸ one slow rep" in text
    assert "end: rack it" in text
    assert "No sound." in text
    assert "…" not in text
    assert lines[-1].split() == ["↑↓", "Sound", "Enter", "Play", "Esc", "Board", "Ctrl+Q", "Quit"]


async def test_in_a_small_window_the_list_is_scrolled_and_the_words_of_the_rep_stay_in_sight() -> (
    None
):
    async with Rack(is_silent=True).running(columns=60, rows=20) as rack:
        await rack.press("f4", "end")
        lines = [line.strip() for line in rack.lines()]

    assert "▸ one slow rep     all of a set's cues, as set: tick" in lines
    assert lines[-3].endswith("end: rack it")
    assert sum("ten seconds of rest" in line for line in lines) == 1
    assert "raise X          a short sharp climb: as fast as possi…" in lines
