"""What is said at the rack of the week's limits, from the line on to its last set."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from tempo_coach.core.cautions import WARNING_SIGNS
from tempo_coach.core.settings import Settings
from tempo_coach.core.soreness_facts import SorenessTold
from tempo_coach.ui.set_screen import SetScreen
from tests.tempo_coach.core.done_sets import done_set
from tests.tempo_coach.fakes import NOON
from tests.tempo_coach.ui.plan_rack import CHIN_MS, SQUAT_MS, TEXT, PlanRack, squat
from tests.tempo_coach.ui.rack import A_MOMENT_MS, LINE, REP_MS, SETUP_MS, Rack

pytestmark = pytest.mark.screen

WARNED = "the next set the week has"


def limited(stated: str = "base_s = 50", *, line: str = LINE, **given: Any) -> PlanRack:
    """Return a rack with a line on the board that lowers for 20 s a set, and a plan's limits."""
    return PlanRack(is_first=False, text=f"{TEXT}\n[dosing]\n{stated}\n", line=line, **given)


async def to_the_rack(rack: Rack) -> str:
    await rack.press("enter")
    return rack.text()


async def do_set(rack: Rack, reps: int = 5) -> str:
    """Do a set, or stop it after some reps; return what the screen says then."""
    await rack.wait(A_MOMENT_MS)
    await rack.press("space")
    await rack.wait(SETUP_MS + reps * REP_MS)
    if reps < 5:
        await rack.press("space")
    return rack.text()


async def test_a_line_whose_third_set_goes_over_says_so_beforehand_and_before_that_set() -> None:
    async with limited().running() as rack:
        board = rack.text()
        opening = await to_the_rack(rack)
        rests = [await do_set(rack) for _ in range(3)]
        await rack.wait(A_MOMENT_MS)
        await rack.press("space")
        paced = rack.text()

    forecast = "Set 3 takes the week to 60 s of lowering emphasis, 10 s over its limit of 50 s (the"
    assert forecast in board
    assert forecast in opening
    assert WARNED not in rests[0]
    assert f"With {WARNED} 60 s of lowering emphasis, 10 s over its limit of 50 s (the" in rests[1]
    assert f"With {WARNED} 80 s of lowering emphasis, 30 s over its limit of 50 s. " in rests[2]
    assert WARNED not in paced


async def test_a_set_stopped_early_leaves_room_for_the_next() -> None:
    async with limited().running() as rack:
        await to_the_rack(rack)
        await do_set(rack)
        stopped = await do_set(rack, reps=2)
        then = await do_set(rack)

    assert WARNED not in stopped
    assert f"{WARNED} 68 s" in then


async def test_a_correction_is_worked_in_as_soon_as_it_is_saved() -> None:
    async with limited().running() as rack:
        await to_the_rack(rack)
        await do_set(rack)
        before = await do_set(rack)
        await rack.press("2", "enter", "enter", "enter", "enter")
        after = rack.text()

    assert WARNED in before
    assert "Corrected: 2 of 5 reps" in after
    assert WARNED not in after


async def test_a_struck_set_takes_nothing_and_a_repeated_one_is_a_set_more() -> None:
    async with limited("base_s = 30", line=LINE.replace("4x5", "1x5")).running() as rack:
        await to_the_rack(rack)
        done = await do_set(rack)
        await rack.press("f3")
        repeated = rack.text()
        await rack.press("f3")
        as_it_was = rack.text()
        await rack.press("f3", "f4", "f4")
        struck = rack.text()

    assert WARNED not in done
    assert f"{WARNED} 40 s" in repeated
    assert WARNED not in as_it_was
    assert "Struck" in struck
    assert WARNED not in struck


async def test_a_set_measured_by_taps_counts_as_it_was_tapped() -> None:
    line = LINE.replace("4x5", "2x1")
    rack = limited("base_s = 7.4", line=line, settings=Settings(taps="phases"))
    async with rack.running():
        await to_the_rack(rack)
        await rack.wait(A_MOMENT_MS)
        await rack.press("space")
        await rack.wait(SETUP_MS)
        for length_ms in (0, 3_000, 2_000, 1_000, 1_000):
            await rack.wait(length_ms)
            await rack.press("enter")
        paced = rack.text()
        await rack.wait(5_000)
        measured = rack.text()

    assert f"{WARNED} 8 s" in paced
    assert "Measured: 1 of 1 rep, lowering 3 s" in measured
    assert WARNED not in measured


async def test_nothing_lifted_takes_nothing_and_the_set_is_warned_of_again() -> None:
    async with limited("base_s = 10").running() as rack:
        opening = await to_the_rack(rack)
        text = await do_set(rack, reps=0)

    assert f"{WARNED} 20 s" in opening
    assert "Nothing was lifted" in text
    assert f"{WARNED} 20 s of lowering emphasis, 10 s over its limit of 10 s (the" in text


async def test_load_and_groups_are_told_of_in_the_same_sentence() -> None:
    stated = 'base_s = 30\nbase_kg_s = 3000\ngroup_base_s = { "knee extensors" = 25 }'
    async with limited(stated).running() as rack:
        await to_the_rack(rack)
        rest = await do_set(rack)

    assert (
        f"With {WARNED} 40 s of lowering emphasis, 10 s over its limit of 30 s (the stated base); "
        "3,200 kg·s, 200 over 3,000; 40 s for knee extensors, 15 over 25." in rest
    )


async def test_ordinary_work_and_other_lifters_are_told_nothing() -> None:
    ordinary = limited("base_s = 1", line=LINE.replace("4-1-X-1", "2-1-2-2"))
    stranger = limited("base_s = 1", lifter="Ana")
    for rack in (ordinary, stranger):
        async with rack.running():
            board = rack.text()
            opening = await to_the_rack(rack)
            rest = await do_set(rack)

        assert "the week" not in board + opening + rest


async def test_other_work_of_the_day_is_told_of_in_the_rest_before_it() -> None:
    rack = PlanRack(text=f"{TEXT}\n[dosing]\nbase_s = 10\ngroup_base_s = {{ pulling = 1 }}\n")
    async with rack.running():
        day = rack.text()
        await rack.press("pagedown")
        rests = []
        for lifting_ms in (SQUAT_MS, SQUAT_MS, CHIN_MS):
            await rack.wait(A_MOMENT_MS)
            await rack.press("pagedown")
            await rack.wait(SETUP_MS + lifting_ms)
            rests.append(rack.text())
        await rack.press("f3")
        again = rack.text()

    assert "season" not in day
    assert WARNED not in rests[0]
    assert "next: set 1 of 1, chin-up" in rests[1]
    assert f"{WARNED} 11 s of lowering emphasis, 1 s over its limit of 10 s (the" in rests[1]
    assert "3 s for pulling, 2 over 1." in rests[1]
    assert f"{WARNED} 14 s of lowering emphasis, 4 s over its limit of 10 s; 6 s for" in again


async def test_the_day_says_from_which_of_its_sets_on_a_line_goes_over() -> None:
    text = TEXT.replace("front squat 2x1", "front squat 5x1")
    rack = PlanRack(text=f"{text}\n[dosing]\nbase_s = 14\n")
    rack.log.facts.append(squat(1))
    async with rack.running():
        day = rack.text()

    assert "front squat · set 2 of 5" in day
    assert "season Set 4 takes the week to 16 s of lowering emphasis, 2 s over its limit" in day


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (160, 50)])
async def test_all_that_is_said_beside_one_another_fits_the_window(columns: int, rows: int) -> None:
    stated = 'base_s = 30\nbase_kg_s = 2500\ngroup_base_s = { "knee extensors" = 25 }'
    rack = limited(stated)
    yesterday = NOON - timedelta(hours=20)
    rack.log.facts += [
        done_set(lifter="Mirela Oude", started_at=yesterday, ended_at=yesterday),
        SorenessTold(id="sore", at=NOON, lifter="Mirela Oude", soreness=9),
    ]
    async with rack.running(columns=columns, rows=rows):
        await to_the_rack(rack)
        opening = rack.lines()
        words = rack.text()
        rest = await do_set(rack)
        resting = rack.lines()

        assert isinstance(rack.screen, SetScreen)

    assert "Set 2 takes the week to" in words
    assert "20 h since lowering emphasis" in words
    assert WARNING_SIGNS in words
    assert "'About': X as 1 s, counted by allowance." in words
    assert "3,200 kg·s, 450 over 2,750; 40 s for knee extensors, 12 over 28. reps load" in rest
    for lines in (opening, resting):
        assert any("On the bar: 25 + 5 kg a side" in line for line in lines)
        assert lines[-1].startswith(" Space/PgDn Start")
