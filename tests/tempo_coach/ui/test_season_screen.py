from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from textual.widgets import Input

from tempo_coach.core.season_words import NO_LIMIT_YET, WITHOUT_PLAN
from tempo_coach.errors import LogUnreadable
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.day_screen import DayScreen
from tempo_coach.ui.proposal_screen import CHANGES_NOTHING, LEFT_OUT, NO_SETS, ProposalScreen
from tempo_coach.ui.readiness_screen import NO_EXERCISES, ReadinessScreen
from tempo_coach.ui.season_rows import LIMIT
from tempo_coach.ui.season_screen import NOTHING_DONE, SeasonScreen
from tests.tempo_coach.core.done_sets import done_set, max_tested
from tests.tempo_coach.fakes import NOON
from tests.tempo_coach.ui.plan_rack import TEXT, PlanRack, squat
from tests.tempo_coach.ui.rack import Rack

pytestmark = pytest.mark.screen

GROUP = 'group_base_s = { "knee extensors" = 12 }'
CALENDAR = f"""
[dosing]
base_s = 20
{GROUP}
[[calendar]]
kind = "holiday"
first = 2026-02-16
last = 2026-02-18
name = "Camp"
[[calendar]]
kind = "meet"
first = 2026-03-14
name = "Spring meet"
lifters = ["Mirela Oude"]
"""


def season_rack(*, text: str = TEXT + CALENDAR, **given: Any) -> PlanRack:
    return PlanRack(text=text, **given)


def weeks(rack: Rack) -> list[str]:
    return [" ".join(line.split()) for line in rack.lines() if "2026-W" in line]


async def test_the_weeks_of_the_plan_stand_there_with_what_was_done_and_may_be() -> None:
    rack = season_rack()
    rack.log.facts += [squat(number, days_ago=7) for number in range(1, 7)] + [squat(1)]
    async with rack.running():
        await rack.press("f9")
        shown, text = weeks(rack), rack.text()
        await rack.press("f9")

        assert isinstance(rack.screen, DayScreen)

    assert len(shown) == 6
    assert shown[1].endswith("24! 20")
    assert shown[1].index(LIMIT) < shown[1].rindex("█")
    assert shown[2].startswith("▸ 2026-W10 █")
    assert shown[2].endswith("4 11 now")
    assert "2026-03-02 to 2026-03-08, this week: taper to Spring meet" in text
    assert "Lowering emphasis: 4 s of 11, 7 left." in text
    assert "the calendar leaves 55% of it" in text
    assert "knee extensors: 4 s of 7, 3 left." in text


async def test_keys_choose_the_week_and_what_is_told_of_it() -> None:
    rack = season_rack()
    rack.log.facts += [squat(number, days_ago=7) for number in range(1, 7)]
    async with rack.running(rows=40):
        await rack.press("f9", "up")
        over = rack.text()
        await rack.press("pagedown", "pagedown", "right")
        days = rack.text()
        await rack.press("right")
        year = rack.text()
        await rack.press("right")
        trend = rack.text()
        await rack.press("right")
        week = rack.text()

    assert "Lowering emphasis: 24 s of 20, 4 over the limit." in over
    assert "Mon 2026-03-09 5 days to Spring meet" in days
    assert "Sat 2026-03-14 Spring meet 0% 0 0" in days
    assert "2026-02-16 2026-02-18 Camp (holiday) over team none" in year
    assert "Spring meet (meet) in 12 days own none" in year
    assert "Taper: exponential over 14 days" in year
    assert "over 7 days" in trend
    assert "no safe zone" in trend
    assert "Lowering emphasis: 0 s of" in week


async def test_without_a_plan_the_log_alone_is_told_and_what_a_plan_adds() -> None:
    rack = Rack()
    began = NOON - timedelta(days=7)
    rack.log.facts += [done_set(lifter="Ana", started_at=began, ended_at=began)]
    async with rack.running():
        await rack.press("f9")
        text, shown = rack.text(), weeks(rack)
        await rack.press("right", "right")
        year = rack.text()

    assert "Season, from the log alone" in text
    assert len(shown) == 6
    assert shown[1].endswith("0 22 now")
    assert "22 s, 10% above the mean of the last 1 full loading week" in text
    assert WITHOUT_PLAN.split(":")[0] in text
    assert "A plan adds the calendar" in year


async def test_with_no_history_it_says_what_can_t_be_told_yet() -> None:
    async with Rack().running() as rack:
        await rack.press("f9")
        text = rack.text()
        await rack.press("left")
        trend = rack.text()
        await rack.press("r")
        ready = rack.text()
        await rack.press("escape", "n", "enter")
        proposal = rack.text()
        await rack.press("escape", "escape")

        assert isinstance(rack.screen, BoardScreen)

    assert NO_LIMIT_YET in text
    assert NOTHING_DONE in trend
    assert NO_EXERCISES in ready
    assert NO_SETS.split(":")[0] in proposal


async def test_readiness_names_criteria_evidence_and_what_is_missing() -> None:
    rack = season_rack(is_first=False)
    rack.log.facts += [squat(1), squat(2, exercise="chin-up")]
    async with rack.running(rows=40):
        await rack.press("f9", "r")
        first = rack.text()
        await rack.press("up", "pagedown", "pageup")
        second = rack.text()

        assert isinstance(rack.screen, ReadinessScreen)

    assert "▸ front squat" in first
    assert "met: 1RM tested in the last 12 weeks" in first
    assert "missing: the coach's word, in the plan" in first
    assert "▸ chin-up" in second
    assert "overloaded lowering: not yet" in second


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("Nordic curl", "nordic curl"),
        ("  nordic  CURL 3x5 @ bw 4-0", "nordic curl"),
        ("front squat 4x5 @ 80 kg 4-1-X-1", "front squat"),
        ("front squ", "bench press"),
        ("", "bench press"),
    ],
)
async def test_readiness_opens_on_the_exercise_of_the_board_where_it_is_known(
    line: str, shown: str
) -> None:
    rack = Rack(line)
    names = ("front squat", "nordic curl")
    rack.log.facts += [done_set(id=name, lifter="Ana", exercise=name) for name in names]
    rack.log.facts.append(max_tested(lifter="ana", exercise="bench press"))
    async with rack.running():
        await rack.press("f9", "r")

        assert f"▸ {shown}" in rack.text()


async def test_from_a_day_readiness_opens_on_the_chosen_work_though_none_is_done_yet() -> None:
    rack = season_rack(line="front squat 4x5 @ 80 kg 4-1-X-1")
    async with rack.running():
        await rack.press("down", "f9", "r")
        chosen = rack.text()
        await rack.press("escape", "escape", "down", "f9", "r")
        whole_day = rack.text()

    assert "▸ chin-up" in chosen
    assert "0 of the last 4; missing: 4 weeks more of slow lowering under control" in chosen
    assert "▸ bench pull" in whole_day


async def test_from_a_day_the_season_is_that_of_the_day_s_lifter() -> None:
    rack = season_rack()
    async with rack.running():
        await rack.press("f2", "down", "enter", "f9")
        season = rack.lines()[0]
        await rack.press("r")
        ready = rack.lines()[0]

    assert season.split() == ["Season:", "Winter", "block", "Jonne", "Tarval"]
    assert ready.endswith("Jonne Tarval")


async def test_a_proposed_line_goes_to_the_board_and_nothing_else_happens() -> None:
    rack = season_rack(text=TEXT + CALENDAR.replace(GROUP, ""))
    rack.log.facts += [squat(1, effort=9.0), squat(2, effort=9.0)]
    facts = list(rack.log.facts)
    async with rack.running():
        await rack.press("f9", "n")
        text = rack.text()

        assert isinstance(rack.screen, ProposalScreen)

        await rack.press("pagedown", "pageup", "enter")

        assert isinstance(rack.screen, BoardScreen)
        assert rack.get(Input).value == "front squat 1x1 @ 65 kg 4-0-1-0"

    assert "Mon cut front squat 1x1 @ 65 kg 4-0-1-0" in text
    assert "over the limit of 5 s" in text
    assert " ".join(CHANGES_NOTHING.split()) in text
    assert rack.log.facts == facts


async def test_work_that_is_left_out_has_no_line_to_take() -> None:
    rack = season_rack()
    over = "overloaded-lowering"
    rack.log.facts += [squat(1, method=over), squat(2, method=over)]
    async with rack.running():
        await rack.press("f9", "n", "enter")

        assert isinstance(rack.screen, ProposalScreen)
        assert LEFT_OUT in rack.text()
        assert "Mon leave out front squat 2x1 @ 65 kg 4-0-1-0" in rack.text()
        assert " leave out: front squat 2x1 @ 65 kg 4-0-1-0" in rack.text()


async def test_what_there_is_to_know_of_a_line_is_read_to_its_end_in_a_small_window() -> None:
    rack = season_rack()
    rack.log.facts += [squat(1), squat(2, exercise="chin-up")]
    async with rack.running(columns=40, rows=12):
        await rack.press("f9", "n")
        seen = rack.text()
        for _ in range(8):
            await rack.press("space")
            seen += rack.text()
        await rack.press("down")
        other = rack.text()

    assert "stays as it is." in seen
    assert "keep: chin-up" in other


async def test_a_log_that_cant_be_read_says_why(monkeypatch: pytest.MonkeyPatch) -> None:
    rack = Rack()

    def refuse() -> None:
        raise LogUnreadable("the log is a folder", path=Path("log"), hint="give another")

    async with rack.running():
        monkeypatch.setattr(rack.log, "read", refuse)
        await rack.press("f9", "r", "n", "down", "right", "space")
        text = rack.text()

    assert "The log is a folder. Give another." in text


@pytest.mark.parametrize(("columns", "rows"), [(40, 12), (80, 24), (160, 50)])
async def test_the_season_fits_the_window_and_is_read_to_its_end(columns: int, rows: int) -> None:
    rack = season_rack()
    rack.log.facts += [squat(1)]
    async with rack.running(columns=columns, rows=rows):
        await rack.press("f9")
        lines, seen = rack.lines(), rack.text()
        for _ in range(12):
            await rack.press("space")
            seen += rack.text()

        assert isinstance(rack.screen, SeasonScreen)

    this = next(line for line in lines if "2026-W10" in line)
    assert this.startswith(" ▸ 2026-W10")
    assert this.endswith("now")
    assert LIMIT in this
    assert "Ordinary" in seen
    assert "limited." in seen
    assert any(line.startswith(" ↑↓ Week") for line in lines[-3:])


async def test_a_plan_that_is_over_shows_its_last_week() -> None:
    text = TEXT.replace("2026-02-16", "2025-11-03").replace("weeks = 6", "weeks = 2")
    async with season_rack(is_first=False, text=text).running() as rack:
        await rack.press("f9")
        lines = rack.text()

    assert "▸ 2025-W46" in lines
    assert "this week" not in lines


async def test_a_date_that_the_coach_changes_moves_the_taper_on_the_screen() -> None:
    rack = season_rack(is_first=False)
    async with rack.running():
        await rack.press("f9")
        before = weeks(rack)
        await rack.press("escape")
        rack.plan.text = rack.plan.text.replace("2026-03-14", "2026-03-21")
        await rack.press("f9")
        after, said = weeks(rack), rack.text()

    assert "The plan has changed and was read again." in said
    assert [row.split()[-1] for row in before] == ["11", "20", "now", "5", "20", "22"]
    assert [row.split()[-1] for row in after] == ["11", "20", "now", "11", "5", "20"]


async def test_a_plan_that_breaks_while_it_is_open_leaves_the_season_as_it_was() -> None:
    rack = season_rack(is_first=False)
    async with rack.running():
        rack.plan.text = rack.plan.text.replace("last = 2026-02-18", "last = 2026-02-01")
        await rack.press("f9")
        text = rack.text()

    assert "has 3 faults, the first in line" in text
    assert "stays as it was last read" in text
    assert "▸ 2026-W10" in text


async def test_in_60_columns_the_days_of_a_week_have_room_for_what_they_are() -> None:
    async with season_rack().running(columns=60) as rack:
        await rack.press("f9", "right")
        text = rack.text()

    assert "Mon 2026-03-02 today, 12 days to" in text
    assert "Sun 2026-03-08 6 days to Spring" in text


@pytest.mark.parametrize("keys", [("f9",), ("f9", "n")])
async def test_the_key_to_read_on_is_named_only_where_there_is_more(keys: tuple[str, ...]) -> None:
    rack = season_rack()
    rack.log.facts += [squat(1), squat(2, exercise="chin-up")]
    async with rack.running(columns=160, rows=50):
        await rack.press(*keys)
        roomy = rack.text()
        await rack.pilot.resize_terminal(40, 12)
        await rack.settle()

        assert "Space Read on" in rack.text()

    assert "Space Read on" not in roomy
