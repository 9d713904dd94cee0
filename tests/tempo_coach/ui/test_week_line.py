from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from tempo_coach.core.facts import SetDone
from tempo_coach.core.tempo import parse_tempo
from tempo_coach.errors import LogUnreadable
from tempo_coach.ui.week_line import week_sentence
from tests.tempo_coach.core.done_sets import done_set
from tests.tempo_coach.fakes import NOON
from tests.tempo_coach.ui.rack import REP_MS, SETUP_MS, Rack

pytestmark = pytest.mark.screen


def ana(day: int, tempo: str = "4-1-1-1") -> SetDone:
    """Return five reps so many days after the Monday of the week."""
    start = NOON + timedelta(days=day)
    return done_set(
        id=f"{day}",
        lifter="Ana",
        started_at=start,
        ended_at=start + timedelta(seconds=35),
        tempo=parse_tempo(tempo),
    )


def sentence(*sets: SetDone) -> str:
    return week_sentence(sets, NOON.date())


def test_this_week_stands_beside_the_last() -> None:
    assert sentence(ana(-8), ana(-3), ana(-1), ana(0), ana(2)) == (
        "This week: lowering 40 s, tension 70 s in 2 sets; last week lowering 40 s."
    )


def test_numbers_that_rest_on_an_allowance_say_so() -> None:
    assert sentence(ana(-1, "V-1-1-1"), ana(0, "4-1-X-1")) == (
        "This week: lowering 20 s, tension about 35 s in 1 set; last week lowering about 20 s."
    )


def test_a_week_without_sets_says_so() -> None:
    assert sentence(ana(-1)) == "This week: nothing yet; last week lowering 20 s."
    assert sentence(ana(-8), ana(0)).endswith("in 1 set; last week nothing.")


def test_the_first_week_on_record_has_none_before_it() -> None:
    assert sentence(ana(0)) == "This week: lowering 20 s, tension 35 s in 1 set."


def test_without_sets_there_is_nothing_to_say() -> None:
    assert week_sentence((), date(2026, 3, 2)) == ""


async def test_the_board_sums_up_the_week_of_the_lifter_at_hand() -> None:
    rack = Rack()
    rack.log.facts += [ana(0), ana(1).model_copy(update={"lifter": "Bo", "id": "bo"})]
    async with rack.running():
        ana_s = rack.lines()[-3]
        await rack.press("f2")
        await rack.write("ne")
        await rack.press("enter")
        nobody_s = rack.text()

    assert ana_s == " This week: lowering 20 s, tension 35 s in 1 set."
    assert "This week" not in nobody_s


async def test_a_set_counts_as_soon_as_the_board_is_back() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.press("space")
        await rack.wait(SETUP_MS + 2 * REP_MS)
        await rack.press("escape")

        assert "This week: lowering 8 s, tension about 14 s in 1 set." in rack.text()


async def test_a_log_that_cant_be_read_is_told_once_and_beside_what_is_told_already() -> None:
    rack = Rack(notices=("One key is no setting.",))
    rack.log.read_fault = LogUnreadable("the log can't be read", path=Path("log.jsonl"))
    async with rack.running():
        first = rack.text()
        await rack.press("f1", "escape")
        second = rack.text()

    assert "One key is no setting. The log can't be read." in first
    assert second.count("The log can't be read.") == 1
