from __future__ import annotations

import pytest
from textual.widgets import Input

from tempo_coach.ui.answer_screen import AnswerScreen
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.day_screen import DayScreen
from tempo_coach.ui.set_screen import SetScreen
from tempo_coach.ui.stage import Stage
from tests.tempo_coach.core.done_sets import max_tested
from tests.tempo_coach.ui.plan_rack import SETUP_MS, SQUAT_MS, PlanRack
from tests.tempo_coach.ui.rack import A_MOMENT_MS, Rack

pytestmark = pytest.mark.screen

LINE = "front squat 2x1 @ 110% 4-0-A-0 lowering only rest 3:00"


async def test_the_load_is_typed_before_a_set_lowers_more_than_was_ever_tested() -> None:
    async with Rack(LINE).running() as rack:
        await rack.press("enter")
        asked = rack.text()
        await rack.write("100")
        await rack.press("enter")
        wrong = rack.text()
        rack.get(Input).value = ""
        await rack.write("110")
        await rack.press("enter")

        assert isinstance(rack.screen, SetScreen)
        assert rack.set_screen.stage is Stage.WAITING

    assert "110% is to be lowered: more than can be lifted, and no lowered max" in asked
    assert "spotters who know their job or safety pins" in asked
    assert "Type 110%, or leave and choose another load." in wrong


async def test_leaving_the_question_leaves_the_set() -> None:
    async with Rack(LINE).running() as rack:
        await rack.press("enter")
        question = rack.screen
        await rack.press("escape")

        assert isinstance(question, AnswerScreen)
        assert isinstance(rack.screen, BoardScreen)
        assert rack.log.facts == []


async def test_what_can_be_lifted_asks_for_nothing() -> None:
    async with Rack("front squat 2x1 @ 100% 4-0-1-0").running() as rack:
        await rack.press("enter")

        assert isinstance(rack.screen, SetScreen)


def overloading(line: str) -> PlanRack:
    """Return a rack whose plan has a line of overload in place of the chin-ups."""
    rack = PlanRack()
    rack.plan.text = rack.plan.text.replace("chin-up 1x1 @ bw+5 kg 3-0-X-0 rest 2:00", line)
    return rack


async def test_in_a_day_the_load_worked_out_is_typed_and_the_set_waits_for_a_key() -> None:
    rack = overloading("front squat 1x1 @ 110% 4-0-A-0 lowering only")
    async with rack.running():
        await rack.press("down", "enter")
        asked = rack.text()
        await rack.write("100 kg")
        await rack.press("enter")

        assert isinstance(rack.screen, SetScreen)
        assert rack.set_screen.stage is Stage.WAITING

    assert "100 kg is to be lowered: more than can be lifted" in asked


async def test_from_one_work_to_the_next_it_is_asked_too_and_what_was_said_stays() -> None:
    rack = overloading("front squat 1x1 @ 110% 4-0-A-0 lowering only")
    async with rack.running():
        await rack.press("enter")
        for _ in range(2):
            await rack.wait(A_MOMENT_MS)
            await rack.press("space")
            await rack.wait(SETUP_MS + SQUAT_MS)
        await rack.wait(A_MOMENT_MS)
        await rack.press("space")
        asked = isinstance(rack.screen, AnswerScreen)
        await rack.press("escape")

        assert asked
        assert isinstance(rack.screen, DayScreen)
        assert len(rack.sets()) == 2


async def test_a_line_outside_its_method_is_remarked_on_the_day_and_at_the_rack() -> None:
    rack = overloading("front squat 1x1 @ 90% 4-0-1-0 method slow-lowering")
    async with rack.running(rows=40):
        await rack.press("down")
        day = rack.text()
        await rack.press("enter")
        at_rack = rack.text()

    assert "load 90%: slow-lowering has load 60 to 85% of the 1RM" in day
    assert "To be thought over: load 90%" in at_rack


async def test_what_was_lowered_in_a_test_asks_for_nothing_and_is_read_from_the_log() -> None:
    rack = Rack("front squat 2x1 @ 100 kg 3-0-A-0 lowering only")
    rack.log.facts += [
        max_tested(id="m1", lifter="Ana", load_kg=90.0),
        max_tested(id="m2", lifter="Ana", what="lowered", load_kg=105.0, lower_s=3.0),
    ]
    async with rack.running():
        await rack.press("enter")
        tested = isinstance(rack.screen, SetScreen)
        await rack.press("escape")
        rack.get(Input).value = "front squat 2x1 @ 110 kg 3-0-A-0 lowering only"
        await rack.settle()
        remark = rack.text()
        await rack.press("enter")
        more = isinstance(rack.screen, AnswerScreen)

    assert tested
    assert more
    assert "110 kg lowered: more than the most that was lowered under control" in remark
