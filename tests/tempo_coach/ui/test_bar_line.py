from __future__ import annotations

import pytest

from tempo_coach.core.bar_picture import WIDEST_PICTURE
from tempo_coach.core.discs import parse_discs
from tempo_coach.core.facts import Changes
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.settings import Settings
from tempo_coach.ui.bar_line import BarLine
from tempo_coach.ui.setting_row import SettingRow
from tempo_coach.ui.underway import Underway
from tests.tempo_coach.core.racks import disc_texts
from tests.tempo_coach.ui.plan_rack import PlanRack
from tests.tempo_coach.ui.rack import A_MOMENT_MS, Rack

pytestmark = pytest.mark.screen


def said(rack: Rack) -> str:
    """Return what is said of the bar; nothing where that takes no room."""
    line = rack.get(BarLine)
    if not line.region.height:
        return ""
    region = line.region
    return " ".join(" ".join(rack.lines()[region.y : region.bottom]).split())


def drawn(rack: Rack) -> list[str]:
    return [line for line in rack.lines() if "━" in line]


async def test_a_waiting_set_says_what_goes_on_the_bar() -> None:
    async with Rack().at_the_rack() as rack:
        assert said(rack) == "On the bar: 25 + 5 kg a side."


async def test_nothing_is_said_while_the_set_runs() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.wait(A_MOMENT_MS)
        await rack.press("space")

        assert said(rack) == ""


async def test_in_the_rest_it_says_what_changes_from_the_set_just_done() -> None:
    async with Rack().at_the_rack() as rack:
        await rack.do_set()
        unchanged = said(rack)
        await rack.press("enter")
        await rack.press(*["backspace"] * len("80 kg"))
        await rack.write("85")
        await rack.press("enter", "enter", "enter")
        await rack.wait(A_MOMENT_MS)
        corrected = said(rack)

    assert unchanged == "On the bar: 25 + 5 kg a side; the bar stays as it is."
    assert corrected == "On the bar: 25 + 5 kg a side; take off 2.5 kg a side."


@pytest.mark.parametrize(
    "line",
    ["chin-up 3x5 @ bw+10 kg 5-0-1-0", "curl 3x5 @ 12 kg 3-0-1-0", "squat 3x5 4-0-1-0"],
)
async def test_nothing_is_said_of_a_load_that_is_none_of_a_bar(line: str) -> None:
    async with Rack(line).at_the_rack() as rack:
        assert said(rack) == ""


async def test_who_does_not_want_it_is_told_nothing() -> None:
    async with Rack(settings=Settings(show_discs=False)).at_the_rack() as rack:
        assert said(rack) == ""


async def test_a_load_that_cant_be_had_has_its_neighbours() -> None:
    settings = Settings(discs=parse_discs("20x2 10x2"))
    async with Rack(settings=settings).at_the_rack() as rack:
        exact = said(rack)
    async with Rack(LINE_85, settings=settings).at_the_rack(columns=160, rows=50) as rack:
        between, picture = said(rack), drawn(rack)

    assert exact == "On the bar: 20 + 10 kg a side."
    assert between == "On the bar: 85 kg can't be loaded: 80 kg is 20 + 10 kg a side."
    assert picture == []


LINE_85 = "front squat 4x5 @ 85 kg 4-1-X-1 rest 3:00"


@pytest.mark.parametrize(
    ("columns", "rows", "count"),
    [(80, 24, 0), (WIDEST_PICTURE + 2, 40, 0), (WIDEST_PICTURE + 2, 50, 1), (160, 50, 1)],
)
async def test_the_bar_is_drawn_where_there_is_room(columns: int, rows: int, count: int) -> None:
    async with Rack().at_the_rack(columns=columns, rows=rows) as rack:
        assert len(drawn(rack)) == count


async def test_the_detail_of_a_planned_item_names_its_discs() -> None:
    rack = PlanRack()
    async with rack.running():
        text = rack.text()

    assert "load 72% of 90 kg = 64.8, loadable 65 kg" in text
    assert "discs 20 + 2.5 kg a side" in text


async def test_a_list_of_discs_is_typed_in_the_settings_or_refused() -> None:
    async with Rack().running() as rack:
        await rack.press("f3")
        (row,) = (one for one in rack.screen.query(SettingRow) if one.entry.key == "discs")
        row.control.focus()
        await rack.settle()
        await rack.press(*["backspace"] * len("powerlifting"))
        await rack.write("20x4 20x2")
        await rack.press("enter")
        refused = rack.text()
        await rack.press(*["backspace"] * len(" 20x2"))
        await rack.press("enter")

    assert "Discs of 20 kg stand there twice; give them once." in refused
    assert rack.coach.settings.discs == parse_discs("20x4")
    assert rack.kept == ["discs = 20x4"]


def test_the_bar_is_followed_from_set_to_set() -> None:
    rack = Rack()
    underway = Underway(rack.coach)

    def done(line: str) -> str | None:
        underway.start(NextSet(parse_prescription(line)), lifter="Ana")
        rack.clock.advance(60_000)
        underway.end()
        return None if underway.bar_before is None else disc_texts(underway.bar_before.bar.side)

    sides = [
        done(f"{exercise} 1x1 @ {load} 2-0-1-0")
        for exercise, load in (
            ("squat", "80 kg"),
            ("squat", "100 kg"),
            ("deadlift", "100 kg"),
            ("squat", "bw"),
        )
    ]

    assert sides == ["25+5", "25+5+10", "25+15", None]


def test_a_corrected_load_is_what_is_on_the_bar() -> None:
    rack = Rack()
    underway = Underway(rack.coach)
    underway.start(NextSet(parse_prescription("squat 1x1 @ 80 kg 2-0-1-0")), lifter="Ana")
    rack.clock.advance(60_000)
    underway.end()

    for text, side in (("85 kg", "25+5+2.5"), ("by feel", None)):
        underway.correct(rack.sets()[0], Changes(load_kg=85, load_as_written=text))
        bar = underway.bar_before
        assert (None if bar is None else disc_texts(bar.bar.side)) == side
