from __future__ import annotations

import pytest
from textual.widgets import Input

from tempo_coach.core.facts import Changes, SetCorrected, SetStruck
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.canvas import plain_text
from tempo_coach.ui.set_report import ReportInput
from tempo_coach.ui.set_screen import SetScreen
from tempo_coach.ui.stage import Stage
from tests.tempo_coach.fakes import disk_full, no_device
from tests.tempo_coach.ui.rack import A_MOMENT_MS, REP_MS, SET_MS, SETUP_MS, Rack

pytestmark = pytest.mark.screen


async def start(rack: Rack, key: str = "space") -> None:
    await rack.wait(A_MOMENT_MS)
    await rack.press(key)
    assert rack.set_screen.stage is Stage.PACING


def corrections(rack: Rack) -> list[Changes]:
    return [fact.changes for fact in rack.log.facts if isinstance(fact, SetCorrected)]


# Ready


async def test_a_set_waits_until_it_is_started() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.wait(60_000)
        lines, text = rack.lines(), rack.text()

        assert rack.set_screen.stage is Stage.WAITING
        assert rack.player.tracks == []

    assert lines[0].startswith(" front squat · 80 kg · 4-1-X-1")
    assert lines[0].endswith("set 1 of 4")
    assert "A rep: lower 4 s, pause at the bottom 1 s" in text
    assert "Space or Page Down starts set 1; the first rep begins 10 s later." in text


async def test_either_key_starts_a_set_with_one_track_and_stops_it() -> None:
    async with Rack().at_the_rack() as rack:
        for count, key in enumerate(("space", "pagedown"), start=1):
            await start(rack, key)

            assert len(rack.player.tracks) == count
            assert rack.display.sign.figure == "10"

            await rack.wait(A_MOMENT_MS)
            await rack.press(key)

            assert rack.set_screen.stage is Stage.WAITING


async def test_escape_before_the_start_goes_back_and_logs_nothing() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.press("escape")

        assert isinstance(rack.screen, BoardScreen)
        assert rack.log.facts == []


async def test_page_up_does_nothing_at_any_stage() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.press("pageup")
        while_waiting = rack.set_screen.stage
        await start(rack)
        await rack.wait(A_MOMENT_MS)
        await rack.press("pageup")
        while_pacing = rack.set_screen.stage
        await rack.wait(SET_MS)
        await rack.press("pageup")
        when_saved = rack.set_screen.stage

    assert while_waiting is Stage.WAITING
    assert while_pacing is Stage.PACING
    assert when_saved is Stage.SAVED


# Pacing


async def test_the_display_follows_the_clock_through_a_rep() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        shown = []
        for ms in (SETUP_MS, 3_000, 1_000, 1_000, 1_000):
            await rack.wait(ms)
            shown.append((rack.display.sign.word, rack.display.sign.figure))

    assert shown == [
        ("LOWER", "1"),
        ("LOWER", "4"),
        ("PAUSE", "1"),
        ("RAISE", "FAST"),
        ("TOP", "1"),
    ]


async def test_the_picture_is_what_stands_in_the_window() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SETUP_MS + 2_000)
        region = rack.display.region
        window = [line[region.x :].rstrip() for line in rack.lines()[region.y : region.bottom]]
        drawn = plain_text(rack.display.picture).split("\n")

    assert window == drawn
    assert region.height == 22


async def test_the_picture_waits_for_the_lag_of_the_sound() -> None:
    rack = Rack()
    rack.player.lag_ms = 320
    async with rack.at_the_rack():
        await start(rack)
        await rack.wait(SETUP_MS + 319)
        before = rack.display.sign.word
        await rack.wait(1)

        assert (before, rack.display.sign.word) == ("READY", "LOWER")


async def test_the_last_rep_is_announced_big() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SETUP_MS + 4 * REP_MS)

        assert rack.display.sign.aside == ("LAST", "REP", "5/5")


async def test_a_double_space_starts_one_set_and_does_not_stop_it() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.press("space", "space", "space")

        assert rack.set_screen.stage is Stage.PACING
        assert len(rack.player.tracks) == 1


async def test_a_key_held_down_starts_one_set_and_does_not_stop_it() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.press("space")
        await rack.wait(500)
        for _ in range(20):
            await rack.send("space")
            rack.clock.advance(33)
        await rack.settle()

        assert rack.set_screen.stage is Stage.PACING
        assert len(rack.player.tracks) == 1


async def test_keys_do_no_harm_while_the_device_is_slow() -> None:
    rack = Rack()
    rack.player.is_free.clear()
    async with rack.at_the_rack():
        await rack.send("space")
        rack.clock.advance(2_000)
        await rack.send("space", "pagedown", "f3", "f4", "enter")
        stage_while_slow = rack.set_screen.stage
        rack.player.is_free.set()
        await rack.settle()

        assert stage_while_slow is Stage.STARTING
        assert rack.set_screen.stage is Stage.PACING
        assert len(rack.player.tracks) == 1


async def test_escape_while_the_device_is_slow_leaves_and_logs_nothing() -> None:
    rack = Rack()
    rack.player.is_free.clear()
    async with rack.at_the_rack():
        await rack.send("space", "escape")
        rack.player.is_free.set()
        await rack.settle()
        await rack.settle()

        assert isinstance(rack.screen, BoardScreen)
        assert rack.log.facts == []
        assert rack.player.playbacks[0].was_silenced


async def test_a_set_stopped_early_is_logged_as_far_as_it_went() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SETUP_MS + 2 * REP_MS + 3_000)
        await rack.press("space")
        text = rack.text()

        assert rack.player.playbacks[0].was_silenced

    assert [done.reps_done for done in rack.sets()] == [2]
    assert rack.sets()[0].seconds.lower == 11.0
    assert "Saved: 2 of 5 reps, lowering 11 s, tension about 17 s." in text


async def test_escape_in_mid_set_logs_it_goes_back_and_says_so() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SETUP_MS + REP_MS)
        await rack.press("escape")
        text = rack.text()

        assert isinstance(rack.screen, BoardScreen)
        assert rack.player.playbacks[0].was_silenced

    assert [done.reps_done for done in rack.sets()] == [1]
    assert "Saved: 1 of 5 reps, lowering 4 s, tension about 7 s." in text


async def test_a_set_stopped_before_rep_1_logs_nothing_and_comes_again() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SETUP_MS - 1)
        await rack.press("space")
        lines, text = rack.lines(), rack.text()

    assert rack.log.facts == []
    assert lines[0].endswith("set 1 of 4")
    assert "Nothing was lifted, nothing is logged." in text
    assert "starts set 1" in text


async def test_an_open_ended_set_runs_until_it_is_stopped() -> None:
    async with Rack("squat 1xmax 2-0-1-0").at_the_rack() as rack:
        await start(rack)
        await rack.wait(SETUP_MS + 7 * 3_000)
        counted = rack.display.sign.aside
        await rack.press("space")
        text = rack.text()

    assert counted == ("REP", "8")
    assert "Saved: 7 reps, lowering 14 s, tension 21 s." in text


# Sound


async def test_a_missing_device_is_told_once_and_the_sets_go_on_by_the_screen() -> None:
    async with Rack(sound_fault=no_device()).at_the_rack() as rack:
        await start(rack)
        first = rack.text()
        await rack.wait(SET_MS)
        await start(rack)
        second = rack.text()

    told = "No sound. There is no sound device. Plug in headphones. The set goes on by the screen."
    assert told in first
    assert "No sound" not in second
    assert [done.reps_done for done in rack.sets()] == [5]


async def test_sound_that_stops_is_told_once() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SETUP_MS)
        before = rack.text()
        rack.player.playbacks[0].was_lost = True
        await rack.wait(1_000)
        after = rack.text()
        await rack.wait(SET_MS)
        rack.player.fault = no_device()
        await start(rack)
        later = rack.text()

    assert "The sound has stopped" not in before
    assert "The sound has stopped: the device no longer plays." in after
    assert "No sound" not in later


async def test_sound_that_came_back_may_be_missed_again() -> None:
    async with Rack(sound_fault=no_device()).at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        rack.player.fault = None
        await start(rack)
        rack.player.playbacks[-1].was_lost = True
        await rack.wait(A_MOMENT_MS)

        assert "The sound has stopped" in rack.text()


# Saved


async def test_a_whole_set_is_saved_before_anything_is_asked() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        text = rack.text()

    assert [done.reps_done for done in rack.sets()] == [5]
    assert "Saved: 5 of 5 reps, lowering 20 s, tension about 35 s." in text
    assert "reps load effort 1-10 note" in text
    assert corrections(rack) == []


async def test_a_disk_that_refuses_is_told_and_the_set_is_kept() -> None:
    async with Rack().at_the_rack() as rack:
        rack.log.fault = disk_full()
        await start(rack)
        await rack.wait(SET_MS)
        text = rack.text()

        assert len(rack.coach.ledger.unsaved) == 1

    assert "Saved" not in text
    assert "Kept in memory, not yet on the disk. The disk is full. Make room." in text


async def test_the_fields_are_corrected_by_numbers_and_enter() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.write("4")
        await rack.press("enter")
        await rack.write("82.5")
        await rack.press("enter")
        await rack.write("8.5")
        await rack.press("enter")
        await rack.write("grip [b]slipped[/b]")
        before_the_last_enter = corrections(rack)
        await rack.press("enter")
        lines, text = rack.lines(), rack.text()

    assert before_the_last_enter == []
    (changes,) = corrections(rack)
    assert changes.given().keys() == {
        "reps_done", "seconds", "load_kg", "load_as_written", "effort", "note"
    }  # fmt: skip
    assert changes.reps_done == 4
    assert changes.load_kg == 82.5
    assert changes.load_as_written == "82.5 kg"
    assert changes.effort == 8.5
    assert changes.note == "grip [b]slipped[/b]"
    assert "Corrected: 4 of 5 reps, lowering 16 s, tension about 28 s." in text
    assert any("grip [b]slipped[/b]" in line for line in lines)


async def test_fields_left_by_enter_alone_correct_nothing() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.press("enter", "enter", "enter", "enter")

    assert corrections(rack) == []


async def test_a_second_correction_changes_only_what_is_new() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.press("enter", "enter", "8", "enter", "enter")
        await rack.press("tab", "tab", "tab", "9", "enter", "enter")

    assert [changes.given() for changes in corrections(rack)] == [{"effort": 8.0}, {"effort": 9.0}]


async def test_a_bad_value_says_what_is_allowed_and_keeps_the_cursor() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.press("enter", "enter")
        await rack.write("8.3")
        await rack.press("enter")
        text = rack.text()
        focused = rack.app.focused
        await rack.press("backspace", "5", "enter")
        after = rack.text()

    assert "'8.3' is no effort. 1 to 10 by halves, such as 8 or 8.5." in text
    assert focused is not None
    assert focused.id == "effort"
    assert "is no effort" not in after


async def test_a_correction_not_yet_saved_is_saved_when_the_next_set_starts() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.write("3")
        await start(rack)

    assert [changes.reps_done for changes in corrections(rack)] == [3]


async def test_a_correction_not_yet_saved_is_saved_on_leaving() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.write("3")
        await rack.press("escape")
        text = rack.text()

        assert isinstance(rack.screen, BoardScreen)

    assert [changes.reps_done for changes in corrections(rack)] == [3]
    assert "Corrected: 3 of 5 reps" in text


async def test_a_correction_not_yet_saved_is_saved_on_quitting() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.write("3")
        await rack.press("ctrl+q")

    assert [changes.reps_done for changes in corrections(rack)] == [3]


async def test_a_bad_value_does_not_keep_the_next_set_from_starting() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.write("3")
        await rack.press("enter", "enter")
        await rack.write("99")
        await start(rack)
        text = rack.text()

    assert [changes.given().keys() for changes in corrections(rack)] == [{"reps_done", "seconds"}]
    assert "Not changed. '99' is no effort. 1 to 10 by halves, such as 8 or 8.5." in text


async def test_a_space_is_a_space_in_the_note_and_elsewhere_starts_the_set() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.wait(A_MOMENT_MS)
        await rack.press("enter", "enter", "enter")
        await rack.write("so so")
        note = rack.get(Input, "#note").value
        stage = rack.set_screen.stage
        await rack.press("shift+tab", "space")

        assert rack.set_screen.stage is Stage.PACING

    assert note == "so so"
    assert stage is Stage.SAVED
    assert [changes.note for changes in corrections(rack)] == ["so so"]


async def test_page_down_starts_the_next_set_even_from_within_the_note() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.press("enter", "enter", "enter")
        await start(rack, "pagedown")

        assert rack.set_screen.stage is Stage.PACING


# Rest


async def test_the_rest_counts_down_with_its_own_track_and_names_what_is_next() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        tracks = len(rack.player.tracks)
        await rack.wait(62_000)
        figure, text = rack.display.sign.figure, rack.text()

    assert tracks == 2
    assert figure == "1:58"
    assert "Rest · next: set 2 of 4, front squat 80 kg 4-1-X-1" in text


async def test_a_rest_that_is_over_says_so_and_waits() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.wait(400_000)

        assert rack.display.sign.figure == "0:00"
        assert "Rest is over · next: set 2 of 4" in rack.text()
        assert rack.set_screen.stage is Stage.SAVED


async def test_without_a_prescribed_rest_it_counts_up_without_a_track() -> None:
    async with Rack("front squat 4x5 4-1-X-1").at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await rack.wait(75_000)

        assert rack.display.sign.figure == "1:15"
        assert len(rack.player.tracks) == 1


async def test_a_rest_ends_when_the_next_set_starts() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SET_MS)
        await start(rack)
        lines = rack.lines()

        assert rack.player.playbacks[1].was_silenced

    assert lines[0].endswith("set 2 of 4")


async def test_four_sets_with_their_rests_end_in_a_sum() -> None:
    async with Rack().at_the_rack() as rack:
        for _ in range(4):
            await rack.do_set()
        text, tracks = rack.text(), len(rack.player.tracks)

        assert rack.display.sign.word == "DONE"

    assert [done.reps_done for done in rack.sets()] == [5, 5, 5, 5]
    assert tracks == 4 + 3
    assert "All 4 sets done: 20 reps, lowering 80 s, tension about 140 s." in text


@pytest.mark.parametrize("key", ["space", "pagedown", "escape"])
async def test_after_the_last_set_a_key_goes_back_to_the_board(key: str) -> None:
    async with Rack("front squat 1x5 4-1-X-1").at_the_rack() as rack:
        await rack.do_set()
        await rack.wait(A_MOMENT_MS)
        await rack.press(key)

        assert isinstance(rack.screen, BoardScreen)


async def test_after_the_last_set_enter_goes_through_the_fields_and_then_to_the_board() -> None:
    async with Rack("front squat 1x5 4-1-X-1").at_the_rack() as rack:
        await rack.do_set()
        await rack.wait(A_MOMENT_MS)
        await rack.press("enter", "enter", "enter", "enter")
        at_the_end_of_the_fields = rack.screen
        await rack.press("enter")

        assert isinstance(at_the_end_of_the_fields, SetScreen)
        assert isinstance(rack.screen, BoardScreen)


# Repeat and strike


async def test_a_set_can_be_repeated_under_its_number() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.do_set()
        await rack.press("f3")
        announced = rack.text()
        await start(rack)
        lines = rack.lines()

    assert "next: set 1 of 4" in announced
    assert lines[0].endswith("set 1 of 4")


async def test_repeating_can_be_taken_back() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.do_set()
        await rack.press("f3", "f3")

        assert "next: set 2 of 4" in rack.text()


async def test_striking_asks_first() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.do_set()
        await rack.press("f4")
        asked = rack.text()
        await rack.press("escape")
        kept = rack.text()

        assert isinstance(rack.screen, SetScreen)

    assert "F4 again strikes this set, Escape keeps it." in asked
    assert "next: set 2 of 4" in kept
    assert not any(isinstance(fact, SetStruck) for fact in rack.log.facts)


async def test_a_struck_set_no_longer_counts_and_comes_again() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.do_set()
        await rack.press("f4", "f4")
        text = rack.text()

    assert [fact.id for fact in rack.log.facts if isinstance(fact, SetStruck)] == ["set-1"]
    assert "Struck: the set no longer counts." in text
    assert "next: set 1 of 4" in text
    assert "effort" not in text


async def test_the_question_whether_to_strike_is_forgotten_once_the_next_set_starts() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.do_set()
        await rack.press("f4")
        await rack.do_set()
        await rack.press("f4")

        assert "F4 again strikes" in rack.text()

    assert not any(isinstance(fact, SetStruck) for fact in rack.log.facts)


async def test_neither_key_does_anything_while_a_set_runs() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SETUP_MS)
        await rack.press("f3", "f4", "f4", "enter")

        assert rack.set_screen.stage is Stage.PACING


# Leaving


async def test_quitting_in_mid_set_logs_it_and_makes_all_silent() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SETUP_MS + 2 * REP_MS)
        await rack.press("ctrl+q")

    assert [done.reps_done for done in rack.sets()] == [2]
    assert all(playback.was_silenced for playback in rack.player.playbacks)


async def test_an_app_that_is_shut_down_in_mid_set_logs_it() -> None:
    async with Rack().at_the_rack() as rack:
        await start(rack)
        await rack.wait(SETUP_MS + 2 * REP_MS)

    assert [done.reps_done for done in rack.sets()] == [2]


async def test_an_app_that_breaks_in_mid_set_logs_it() -> None:
    rack = Rack()

    async def break_in_mid_set() -> None:
        async with rack.at_the_rack():
            await start(rack)
            await rack.wait(SETUP_MS + 2 * REP_MS)
            rack.set_screen.call_later(divmod, 1, 0)
            await rack.handle_messages()

    with pytest.raises(ZeroDivisionError):
        await break_in_mid_set()

    assert [done.reps_done for done in rack.sets()] == [2]


async def test_leaving_during_a_rest_makes_it_silent() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.do_set()
        await rack.press("escape")

        assert isinstance(rack.screen, BoardScreen)
        assert rack.player.playbacks[1].was_silenced


# Odd texts


async def test_odd_names_show_literally_and_cut_nothing_else() -> None:
    line = f"[red]山山[/red] {'é' * 60} 4x5 @ 80 kg 4-1-X-1 rest 3:00"
    async with Rack(line).at_the_rack() as rack:
        lines = rack.lines()
        await rack.do_set()
        saved = rack.lines()

    assert lines[0].startswith(" [red]山山[/red] éé")
    assert lines[0].endswith("set 1 of 4")
    assert saved[-1].startswith(" Space/PgDn Start")


async def test_a_huge_note_stays_in_its_field() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.do_set()
        rack.get(Input, "#note").value = "long " * 400
        await rack.settle()
        lines = rack.lines()

    assert len([line for line in lines if "long long" in line]) == 1
    assert lines[-1].startswith(" Space/PgDn Start")


async def test_wide_windows_are_used() -> None:
    async with Rack().at_the_rack(columns=160, rows=50) as rack:
        await start(rack)
        await rack.wait(SETUP_MS)

        assert rack.display.size.height == 48
        assert rack.display.size.width == 158


async def test_all_fields_after_a_set_are_in_the_smallest_window() -> None:
    async with Rack().at_the_rack(columns=40, rows=12) as rack:
        await rack.do_set()
        regions = [entry.region for entry in rack.screen.query(ReportInput)]

    assert len(regions) == 4
    assert all(region.right <= 40 and region.width >= 5 for region in regions)
