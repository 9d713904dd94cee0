from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from textual.events import Key
from textual.widgets import Input

from tempo_coach.core.session_facts import SessionChanged
from tempo_coach.errors import FileUnreadable
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.day_book import AS_READ, CHANGED
from tempo_coach.ui.day_detail import DayDetail
from tempo_coach.ui.day_screen import DayScreen
from tempo_coach.ui.lifters_screen import LiftersScreen
from tempo_coach.ui.name_screen import NameScreen
from tempo_coach.ui.stage import Stage
from tests.tempo_coach.fakes import disk_full
from tests.tempo_coach.ui.plan_rack import CHIN_MS, SETUP_MS, SQUAT_MS, PlanRack, squat
from tests.tempo_coach.ui.rack import A_MOMENT_MS

pytestmark = pytest.mark.screen


def rows(rack: PlanRack) -> list[str]:
    """The table's rows, without the spaces between."""
    lines = [" ".join(line.split()) for line in rack.lines()]
    first = next(at for at, line in enumerate(lines) if line.startswith("work sets"))
    last = next(at for at, line in enumerate(lines) if "the day" in line)
    return lines[first + 1 : last + 1]


async def do_set(rack: PlanRack, lifting_ms: int) -> None:
    await rack.wait(A_MOMENT_MS)
    await rack.press("pagedown")
    await rack.wait(SETUP_MS + lifting_ms)


async def test_a_plan_opens_on_today_s_work_with_the_next_set_chosen() -> None:
    rack = PlanRack()
    rack.log.facts += [squat(1, days_ago=7), squat(1)]
    async with rack.running():
        lines, text, shown = rack.lines(), rack.text(), rows(rack)

    assert " ".join(lines[0].split()) == (
        "‹ › Monday 2026-03-02, today · week 3 of 6 · Winter block Mirela Oude"
    )
    assert shown == [
        "▸ front squat 2x1 65 kg 4-0-1-0 3:00 next: set 2",
        "chin-up 1x1 bw+5 kg 3-0-X-0 2:00 0 of 1",
        "the day 1 of 3",
    ]
    assert "front squat · set 2 of 2" in text
    assert "72% of 90 kg = 64.8, loadable 65 kg" in text
    assert "Monday 2026-02-23: 65 kg: 1 rep, effort 8" in text
    assert "heels down" in text


async def test_page_down_alone_goes_through_the_whole_day() -> None:
    rack = PlanRack()
    async with rack.running():
        await rack.press("pagedown")
        at_the_rack = rack.text()
        await do_set(rack, SQUAT_MS)
        between_sets = rack.lines()[-3]
        await do_set(rack, SQUAT_MS)
        between_items = rack.lines()[-2]
        rest = rack.display.sign.figure
        await rack.wait(A_MOMENT_MS)
        await rack.press("pagedown")
        stage, heading = rack.set_screen.stage, rack.lines()[0]
        await rack.wait(SETUP_MS + CHIN_MS)
        at_the_end = rack.lines()[-2]
        await rack.wait(A_MOMENT_MS)
        await rack.press("pagedown")
        text = rack.text()
        await rack.press("pagedown")
        stays = isinstance(rack.screen, DayScreen)

    assert "set 1 of 2" in at_the_rack
    assert between_sets == " Rest · next: set 2 of 2, front squat 65 kg 4-0-1-0"
    assert between_items == " Rest · next: set 1 of 1, chin-up bw+5 kg 3-0-X-0"
    assert rest == "3:00"
    assert stage is Stage.PACING
    assert heading.startswith(" chin-up · bw+5 kg · 3-0-X-0")
    assert heading.endswith("set 1 of 1")
    assert at_the_end == " Space, Page Down or Escape goes back."
    assert [(done.exercise, done.lifter) for done in rack.sets()] == [
        ("front squat", "Mirela Oude"),
        ("front squat", "Mirela Oude"),
        ("chin-up", "Mirela Oude"),
    ]
    assert "All is done." in text
    assert "the day 3 of 3 3 of 3 11 of 11" in text
    assert stays


async def test_a_key_held_down_on_the_day_starts_no_set() -> None:
    rack = PlanRack()
    async with rack.running():
        for _ in range(20):
            await rack.send("pagedown")
            rack.clock.advance(33)
        await rack.settle()

        assert rack.set_screen.stage is Stage.WAITING


async def test_a_correction_typed_before_the_next_work_is_saved() -> None:
    rack = PlanRack()
    rack.log.facts += [squat(1)]
    async with rack.running():
        await rack.press("enter")
        await do_set(rack, SQUAT_MS)
        rack.get(Input, "#effort").value = "9"
        rack.log.fault = disk_full()
        await do_set(rack, CHIN_MS)
        rack.log.fault = None
        exercises = [done.exercise for done in rack.coach.history().of("Mirela Oude")]
        efforts = [done.effort for done in rack.coach.history().of("Mirela Oude")]

    assert exercises == ["front squat", "front squat", "chin-up"]
    assert efforts == [8.0, 9.0, None]


async def test_a_set_left_early_counts_and_the_day_goes_on_behind_it() -> None:
    rack = PlanRack()
    async with rack.running():
        await rack.press("space")
        await rack.wait(A_MOMENT_MS)
        await rack.press("space")
        await rack.wait(SETUP_MS + 3_000)
        await rack.press("escape")
        text, shown = rack.text(), rows(rack)

    assert "Saved: 0 of 1 rep, lowering 3 s" in text
    assert shown[0].endswith("next: set 2")


async def test_rows_are_chosen_by_arrows_and_by_a_clicker_all_the_way_round() -> None:
    rack = PlanRack()
    async with rack.running():
        chosen = []
        for key in ("down", "pageup", "pageup", "pageup"):
            await rack.press(key)
            chosen += [row.split()[1] for row in rows(rack) if row.startswith("▸")]

    assert chosen == ["chin-up", "front", "the", "chin-up"]


@pytest.mark.parametrize(("key", "change"), [("a", "added_set"), ("minus", "moved")])
async def test_keys_typed_in_one_go_act_on_the_row_that_is_chosen_by_then(
    key: str, change: str
) -> None:
    rack = PlanRack()
    async with rack.running():
        for keys in (("down", key), ("up", "down", "enter")):
            for pressed in keys:
                rack.app.post_message(Key(pressed, None))
            await rack.handle_messages()
            await rack.settle()
        heading = rack.lines()[0]

    assert rack.changes() == [(2, change)]
    assert heading.startswith(" chin-up")


async def test_the_chosen_work_comes_first_and_then_what_is_left() -> None:
    rack = PlanRack()
    async with rack.running():
        await rack.press("down", "enter")
        await do_set(rack, CHIN_MS)
        text = rack.text()

    assert "next: set 1 of 2, front squat 65 kg" in text


async def test_a_note_of_a_thousand_lines_is_read_by_a_key_and_leaves_the_rest_in_its_place() -> (
    None
):
    rack = PlanRack()
    async with rack.running():
        await rack.press("down")
        lines = rack.lines()
        await rack.press(*["r"] * 5)
        scrolled = rack.get(DayDetail).scroll_offset.y
        later = rack.lines()
        rack.get(DayDetail).scroll_end(animate=False)
        await rack.press("r")

        assert rack.lines() == lines

    assert lines[-3].startswith(" today alone:")
    assert lines[-2].startswith(" Space/PgDn")
    assert "R Read on" in lines[-2]
    assert scrolled > 20
    assert later[:6] == lines[:6]
    assert later[-3:] == lines[-3:]


async def test_the_key_to_read_on_is_named_only_where_there_is_more() -> None:
    async with PlanRack().running() as rack:
        assert "R Read on" not in rack.text()


async def test_every_change_of_the_day_is_a_fact_and_shows_at_once() -> None:
    rack = PlanRack()
    async with rack.running():
        await rack.press("a", "l")
        await rack.write("70")
        await rack.press("enter", "shift+down", "x")
        await rack.write("goblet squat")
        await rack.press("enter")
        shown, detail = rows(rack), rack.text()
        await rack.press("s")
        await rack.write("knee")
        await rack.press("enter")
        skipped = rack.text()
        await rack.press("s")
        taken_up = rows(rack)

    facts = [fact for fact in rack.log.facts if isinstance(fact, SessionChanged)]
    assert [(fact.item, fact.change) for fact in facts] == [
        (1, "added_set"),
        (1, "load_changed"),
        (1, "moved"),
        (1, "swapped"),
        (1, "skipped"),
        (1, "swapped"),
    ]
    assert {(fact.lifter, fact.plan) for fact in facts} == {("Mirela Oude", "Winter block")}
    assert shown[1] == "▸ goblet squat 3x1 70 kg 4-0-1-0 3:00 0 of 3"
    assert "in place of front squat; load written: 72%; 1 set added" in detail
    assert "goblet squat · skipped: knee" in skipped
    assert taken_up[1] == shown[1]


async def test_a_load_that_is_none_is_refused_and_a_question_that_is_left_changes_nothing() -> None:
    rack = PlanRack()
    async with rack.running():
        await rack.press("l")
        rack.get(Input).value = "heavy"
        await rack.press("enter")
        text = rack.text()
        await rack.press("escape", "x", "escape", "s", "escape")

        assert isinstance(rack.screen, DayScreen)

    assert "'heavy' is no load." in text
    assert rack.log.facts == []


async def test_the_mouse_chooses_rows_changes_them_and_turns_the_day() -> None:
    rack = PlanRack()
    async with rack.running():
        await rack.pilot.click("ChoiceList", offset=(5, 1))
        await rack.settle()
        chosen = rows(rack)[1]
        await rack.pilot.click(offset=(rack.lines()[-3].index("add a set"), 21))
        await rack.settle()
        await rack.pilot.click(offset=(3, 0))
        await rack.settle()
        heading = rack.lines()[0]

    assert chosen.startswith("▸ chin-up")
    assert rack.changes() == [(2, "added_set")]
    assert "Thursday 2026-03-05" in heading


async def test_an_unknown_max_asks_for_a_load_and_takes_one() -> None:
    rack = PlanRack()
    async with rack.running():
        await rack.press("right", "down")
        asks = rack.text()
        await rack.press("l")
        await rack.write("120")
        await rack.press("enter")
        shown = rows(rack)

    assert "no max for leg press: load by feel, or type one" in asks
    assert shown[1] == "▸ leg press 1xmax 120 kg 3-0-1-0 0 of 1"


async def test_planned_days_are_turned_to_the_first_and_say_when_they_do_not_count() -> None:
    rack = PlanRack()
    async with rack.running():
        await rack.press("right")
        coming, coming_text = rack.lines()[0], rack.text()
        await rack.press(*["left"] * 6)
        first, first_text = rack.lines()[0], rack.text()

    assert "Thursday 2026-03-05" in coming
    assert "This day is still to come: sets done today do not count for it." in coming_text
    assert "Monday 2026-02-16 · week 1" in first
    assert "This day is past: sets done today do not count for it." in first_text


async def test_another_lifter_of_the_plan_is_chosen_and_kept() -> None:
    rack = PlanRack()
    async with rack.running():
        await rack.press("f2", "pageup", "pagedown")
        heading, shown = rack.lines()[0], rows(rack)

    assert heading.endswith("Jonne Tarval")
    assert shown[0].startswith("▸ front squat 2x1 87.5 kg")
    assert rack.kept == ["lifter = Jonne Tarval"]


@pytest.mark.parametrize("lifter", [None, "Ana"])
async def test_whoever_is_not_in_the_plan_is_asked_which_of_its_lifters_it_is(
    lifter: str | None,
) -> None:
    rack = PlanRack(lifter=lifter)
    async with rack.running():
        asks = isinstance(rack.screen, LiftersScreen)
        await rack.press("down", "enter")
        heading = rack.lines()[0]

    assert asks
    assert heading.endswith("Jonne Tarval")


async def test_leaving_that_question_leads_to_the_board_and_its_own() -> None:
    rack = PlanRack(lifter=None)
    async with rack.running():
        await rack.press("escape")

        assert isinstance(rack.screen, NameScreen)


async def test_a_key_leads_to_the_board_and_back() -> None:
    rack = PlanRack(notices=("Line 17 of the log can't be read.",))
    async with rack.running():
        told = rack.text()
        await rack.press("f6")
        on_board = isinstance(rack.screen, BoardScreen)
        await rack.press("f6")

        assert isinstance(rack.screen, DayScreen)

    assert "Line 17 of the log can't be read." in told
    assert on_board


async def test_a_line_that_is_given_comes_before_the_plan() -> None:
    async with PlanRack(is_first=False).running() as rack:
        assert isinstance(rack.screen, BoardScreen)


async def test_a_plan_edited_meanwhile_is_read_again_and_one_that_is_deleted_stays_in_use() -> None:
    rack = PlanRack()
    async with rack.running():
        rack.plan.text = rack.plan.text.replace("2x1 @ 72%", "5x1 @ 72%")
        await rack.press("enter", "escape")
        edited, edited_rows = rack.text(), rows(rack)
        rack.plan.fault = FileUnreadable("the plan is gone", path=Path("winter.toml"))
        await rack.press("enter", "escape")
        deleted = rack.text()
        await rack.press("a")
        deleted_rows = rows(rack)

    assert CHANGED in edited
    assert edited_rows[0].startswith("▸ front squat 5x1")
    assert f"The plan is gone. {AS_READ}" in deleted
    assert deleted_rows[0].startswith("▸ front squat 6x1")


async def test_after_midnight_the_day_that_was_begun_is_still_open() -> None:
    rack = PlanRack()
    rack.log.facts += [squat(1)]
    rack.clock.advance(int(timedelta(hours=13).total_seconds()) * 1000)
    async with rack.running():
        heading, shown = rack.lines()[0], rows(rack)

    assert "Monday 2026-03-02, yesterday" in heading
    assert shown[0].endswith("next: set 2")


@pytest.mark.parametrize(("columns", "rows_"), [(40, 12), (160, 50)])
async def test_the_day_fits_the_window(columns: int, rows_: int) -> None:
    rack = PlanRack()
    async with rack.running(columns=columns, rows=rows_):
        lines = rack.lines()

    assert any("front squat" in line for line in lines)
    assert any(line.startswith(" Space/PgDn Rack") for line in lines)
    assert "front squat · set 1 of 2" in " ".join(lines)


@pytest.mark.parametrize(("columns", "rows_"), [(40, 12), (60, 20), (80, 24)])
async def test_no_window_cuts_the_keys_of_today_s_changes_off(columns: int, rows_: int) -> None:
    async with PlanRack().running(columns=columns, rows=rows_) as rack:
        text = rack.text()

    assert "L load X swap S skip A add a set - earlier + later" in text


async def test_names_and_notes_are_shown_as_they_are() -> None:
    rack = PlanRack()
    rack.plan.text = rack.plan.text.replace("heels down", "[b]heels[/b] \\u202eabc").replace(
        '"front squat 2x1 @ 72%', '"[red]قرفصاء 2x1 @ 60 kg'
    )
    async with rack.running():
        text = rack.text()

    assert "[red]قرفصاء" in text
    assert "[b]heels[/b] \\u202eabc" in text
