from __future__ import annotations

from pathlib import Path

import pytest

from tempo_coach.errors import LogUnreadable
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.day_screen import DayScreen
from tempo_coach.ui.weeks_screen import NO_SETS, WeeksScreen
from tests.tempo_coach.ui.plan_rack import PlanRack, squat
from tests.tempo_coach.ui.rack import Rack

pytestmark = pytest.mark.screen


def weeks(rack: Rack) -> list[str]:
    """The rows of the chart, without the spaces between."""
    return [
        " ".join(line.split()) for line in rack.lines() if " 2026-W" in line or "2025-W" in line
    ]


async def test_twelve_weeks_stand_there_with_what_was_planned_for_this_one() -> None:
    rack = PlanRack()
    rack.log.facts += [squat(1, days_ago=7), squat(2, days_ago=7), squat(1)]
    async with rack.running():
        await rack.press("f5")
        shown, text = weeks(rack), rack.text()
        await rack.press("escape")

        assert isinstance(rack.screen, DayScreen)

    assert len(shown) == 13
    assert shown[10].startswith("2026-W09 ██████")
    assert shown[10].endswith("█ 8")
    assert shown[11].startswith("▸ 2026-W10 ███")
    assert shown[11].endswith(" 4 so far")
    assert "front squat 1 1 4 5 260" in text
    assert "Planned: 6 sets, 19+ reps, lowering ≈43+ s. Done: 1 set, 1 rep, 4 s." in text


async def test_arrows_choose_week_and_exercise() -> None:
    rack = PlanRack()
    rack.log.facts += [
        squat(1, days_ago=7),
        squat(2, days_ago=7, exercise="chin-up", load_kg=None, load_as_written=""),
    ]
    async with rack.running():
        await rack.press("f5", "up")
        both = rack.text()
        await rack.press("right")
        one = rack.text()
        await rack.press("right", "right", "pagedown")
        again = rack.text()

    assert "all exercises" in both
    assert "all 2 2 8 10 260+" in both
    assert "Lowering in 12 weeks · chin-up" in one
    assert "▸ 2026-W09" in one
    assert "all exercises" in again
    assert "Nothing was done." in again


async def test_an_empty_log_says_so() -> None:
    async with Rack().running() as rack:
        await rack.press("f5")
        text = rack.text()
        await rack.press("f5")

        assert isinstance(rack.screen, BoardScreen)

    assert NO_SETS in text
    assert "Planned" not in text


async def test_a_log_that_cant_be_read_says_why(monkeypatch: pytest.MonkeyPatch) -> None:
    rack = Rack()

    def refuse() -> None:
        raise LogUnreadable("the log is a folder", path=Path("log"), hint="give another")

    monkeypatch.setattr(rack.log, "read", refuse)
    async with rack.running():
        await rack.press("f5")
        text = rack.text()

    assert "The log is a folder. Give another." in text


async def test_what_has_no_room_beneath_the_weeks_is_read_on_by_a_key_that_is_named_only_then() -> (
    None
):
    rack = PlanRack()
    rack.log.facts += [squat(1), squat(2, exercise="chin-up")]
    async with rack.running(columns=60, rows=20):
        await rack.press("f5")
        seen = before = rack.text()
        for _ in range(4):
            await rack.press("space")
            seen += rack.text()
        await rack.pilot.resize_terminal(160, 50)
        await rack.settle()
        roomy = rack.text()

    assert "Space Read on" in before
    assert "this tool's own measure" not in before
    assert "this tool's own measure" in seen
    assert "Space Read on" not in roomy


@pytest.mark.parametrize(("columns", "rows"), [(40, 12), (160, 50)])
async def test_the_weeks_fit_the_window(columns: int, rows: int) -> None:
    rack = PlanRack()
    rack.log.facts += [squat(1)]
    async with rack.running(columns=columns, rows=rows):
        await rack.press("f5")
        lines = rack.lines()

        assert isinstance(rack.screen, WeeksScreen)

    bars = next(line for line in lines if "2026-W10" in line)
    assert "▸" in bars
    assert bars.count("█") > columns - 35
    assert any(line.startswith(" ←→ Exercise") for line in lines[-2:])
