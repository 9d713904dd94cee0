from __future__ import annotations

from datetime import timedelta

import pytest

from tempo_coach.core.cautions import WARNING_SIGNS
from tempo_coach.core.soreness_facts import SorenessTold
from tempo_coach.ui.set_screen import SetScreen
from tempo_coach.ui.soreness_screen import QUESTION, SorenessScreen
from tempo_coach.ui.sound_check_screen import SoundCheckScreen
from tests.tempo_coach.core.done_sets import done_set
from tests.tempo_coach.fakes import NOON, disk_full
from tests.tempo_coach.ui.plan_rack import TEXT, PlanRack
from tests.tempo_coach.ui.rack import A_MOMENT_MS, Rack

pytestmark = pytest.mark.screen


def told(rack: Rack) -> list[tuple[str, int]]:
    facts = rack.log.facts
    return [(one.lifter, one.soreness) for one in facts if isinstance(one, SorenessTold)]


async def test_before_the_first_set_of_a_day_it_is_asked_and_logged_at_once() -> None:
    async with Rack(asks_soreness=True).at_the_rack() as rack:
        text = rack.text()
        await rack.press("3", "enter")

        assert isinstance(rack.screen, SetScreen)

    assert QUESTION in text
    assert told(rack) == [("Ana", 3)]


async def test_a_clicker_goes_on_without_answering_and_is_not_asked_again() -> None:
    async with Rack(asks_soreness=True).at_the_rack() as rack:
        await rack.press("pagedown")

        assert isinstance(rack.screen, SetScreen)

        await rack.press("escape", "enter")

        assert isinstance(rack.screen, SetScreen)

    assert told(rack) == []


async def test_a_key_held_down_since_the_board_does_not_answer() -> None:
    async with Rack(asks_soreness=True).running() as rack:
        await rack.press("enter", "enter", "pagedown")

        assert isinstance(rack.screen, SorenessScreen)


@pytest.mark.parametrize(
    ("keys", "soreness"),
    [
        (("1", "0"), 10),
        (("1", "5"), 5),
        (("7", "0"), 0),
        (("9", "backspace", "2"), 2),
        (("1", "0", "0"), 0),
    ],
)
async def test_what_is_shown_is_what_is_logged(keys: tuple[str, ...], soreness: int) -> None:
    async with Rack(asks_soreness=True).at_the_rack() as rack:
        await rack.press(*keys)
        text = rack.text()
        await rack.press("pagedown")

    assert f" {soreness} of 10" in text
    assert told(rack) == [("Ana", soreness)]


@pytest.mark.parametrize(("level", "columns"), [(0, 80), (7, 80), (10, 80), (10, 40)])
async def test_a_click_on_the_scale_is_an_answer(level: int, columns: int) -> None:
    async with Rack(asks_soreness=True).at_the_rack(columns=columns) as rack:
        row = next(at for at, line in enumerate(rack.lines()) if " 0  1  2 " in line)
        column = rack.lines()[row].index(f" {level} ".rstrip() if level == 10 else f" {level} ")
        await rack.pilot.click(offset=(column + 1, row))
        await rack.settle()
        text = rack.text()
        await rack.press("enter")

    assert f" {level} of 10" in text
    assert told(rack) == [("Ana", level)]


async def test_a_number_and_enter_in_one_breath_are_both_taken() -> None:
    async with Rack(asks_soreness=True).at_the_rack() as rack:
        await rack.press_at_once("7", "enter")

    assert told(rack) == [("Ana", 7)]


async def test_whoever_told_it_or_began_today_is_not_asked() -> None:
    rack = Rack(asks_soreness=True)
    rack.log.facts.append(SorenessTold(id="a", at=NOON, lifter="ana", soreness=2))
    async with rack.at_the_rack():
        assert isinstance(rack.screen, SetScreen)

    begun = Rack(asks_soreness=True)
    begun.log.facts.append(done_set(lifter="Ana", started_at=NOON, ended_at=NOON))
    async with begun.at_the_rack():
        assert isinstance(begun.screen, SetScreen)


async def test_yesterday_s_answer_and_another_lifter_s_are_not_today_s() -> None:
    rack = Rack(asks_soreness=True)
    yesterday = NOON - timedelta(days=1)
    rack.log.facts += [
        SorenessTold(id="a", at=yesterday, lifter="Ana", soreness=2),
        SorenessTold(id="b", at=NOON, lifter="Bo", soreness=2),
    ]
    async with rack.at_the_rack():
        assert isinstance(rack.screen, SorenessScreen)


async def test_s_stops_asking_for_good() -> None:
    async with Rack(asks_soreness=True).at_the_rack() as rack:
        await rack.press("s")

        assert isinstance(rack.screen, SetScreen)
        assert not rack.coach.settings.soreness_check

    assert rack.kept == ["soreness_check = False"]


async def test_an_answer_above_the_rule_is_said_before_the_set_and_blocks_nothing() -> None:
    async with Rack(asks_soreness=True).at_the_rack() as rack:
        await rack.press("7", "enter")
        text = rack.text()
        await rack.press("escape")
        board = rack.text()
        await rack.press("enter")
        again = rack.text()
        await rack.do_set()

    assert "Soreness today is 7 of 10, above 5" in text
    assert "Pain stops the set." in text
    assert "Soreness today is 7 of 10" in board
    assert "Soreness today is 7 of 10" in again
    assert len(rack.sets()) == 1


async def test_the_plan_says_what_is_much_and_very_much_has_its_warning_signs() -> None:
    rack = PlanRack(asks_soreness=True, text=f"{TEXT}\n[dosing]\nsoreness_most = 8\n")
    async with rack.running():
        await rack.press("enter")
        rack.clock.advance(A_MOMENT_MS)
        await rack.press("8", "enter")
        little = rack.text()
    very = Rack(asks_soreness=True)
    async with very.at_the_rack():
        await very.press("1", "0", "enter")
        much = very.text()

    assert "Soreness today" not in little
    assert told(rack) == [("Mirela Oude", 8)]
    assert WARNING_SIGNS in much


async def test_the_sound_is_asked_first_and_then_the_soreness() -> None:
    async with Rack(asks_soreness=True, sound_checked_on=None).at_the_rack() as rack:
        assert isinstance(rack.screen, SoundCheckScreen)

        await rack.press("y")
        rack.clock.advance(A_MOMENT_MS)

        assert isinstance(rack.screen, SorenessScreen)

        await rack.press("escape")

        assert isinstance(rack.screen, SetScreen)


async def test_an_answer_that_the_disk_does_not_take_is_kept_and_said() -> None:
    async with Rack(asks_soreness=True).at_the_rack() as rack:
        rack.log.fault = disk_full()
        await rack.press("4", "enter")
        text = rack.text()

    assert "The answer is kept in memory, not yet on the disk. The disk is full." in text
    assert [fact.kind for fact in rack.coach.ledger.unsaved] == ["soreness_told"]


async def test_in_the_smallest_window_its_text_is_read_to_the_end_by_the_keys_it_names() -> None:
    async with Rack(asks_soreness=True).at_the_rack(columns=40, rows=12) as rack:
        before = rack.text()
        await rack.press(*["down"] * 20)
        end = rack.text()
        await rack.press(*["up"] * 20)

        assert rack.text() == before

    assert "↑↓ Read on" in before
    assert "clinician" not in before
    assert "clinician." in end


@pytest.mark.parametrize(("columns", "rows"), [(40, 12), (60, 20), (80, 24)])
async def test_no_warning_that_follows_from_the_answer_is_out_of_reach(
    columns: int, rows: int
) -> None:
    async with Rack(asks_soreness=True).at_the_rack(columns=columns, rows=rows) as rack:
        await rack.press("1", "0", "enter")
        seen = rack.text()
        for _ in range(20):
            await rack.press("down")
            seen += rack.text()

    for words in ("Soreness today is 10 of 10", "Dark urine", "medical care at once."):
        assert words in seen


@pytest.mark.parametrize(("columns", "rows"), [(40, 12), (80, 24), (160, 50)])
async def test_the_question_and_its_number_fit_the_window(columns: int, rows: int) -> None:
    async with Rack(asks_soreness=True).at_the_rack(columns=columns, rows=rows) as rack:
        await rack.press("6")
        text = rack.text()

    assert "6 of 10" in text
    assert "How sore" in text
    assert "PgDn/Enter Go on" in text
