from __future__ import annotations

import pytest
from rich.cells import cell_len
from textual.widgets import Input

from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.prescription_field import caret_line, example_text
from tests.tempo_coach.core.done_sets import done_set
from tests.tempo_coach.fakes import NOON
from tests.tempo_coach.ui.rack import LINE, Rack

pytestmark = pytest.mark.screen

INPUT_ROW = 3
CARET_ROW = 5


def caret_and_sign(rack: Rack, wrong: str) -> tuple[int, int]:
    """Return the cell of the caret, and the cell of the field at which the wrong text begins."""
    lines = rack.lines()
    field = lines[INPUT_ROW]
    return lines[CARET_ROW].index("^"), cell_len(field[: field.index(wrong)])


@pytest.mark.parametrize(
    ("text", "column", "scrolled", "width", "line"),
    [
        ("front squat", 1, 0, 20, "^"),
        ("front squat", 7, 0, 20, "      ^"),
        ("山山 squat", 4, 0, 20, "     ^"),
        ("e\u0301te\u0301 x", 7, 0, 20, "    ^"),
        ("front squat", 7, 5, 20, " ^"),
        ("front squat", 3, 5, 20, "<"),
        ("front squat", 11, 0, 6, "     >"),
    ],
)
def test_the_caret_counts_cells_not_characters(
    text: str, column: int, scrolled: int, width: int, line: str
) -> None:
    assert caret_line(text, column=column, scrolled=scrolled, width=width) == line


async def test_the_caret_stands_under_the_column_of_the_fault() -> None:
    async with Rack("").running() as rack:
        for line, wrong in (
            ("front squat 4x5 @ 80 4-1-X-1", "80 4"),
            ("front squat 4x5 @ 80 kg 4-1-Q-1", "Q-1"),
            ("front squat 4x5 @ 80 kg 4-1-X-1 reset 3:00", "reset"),
            ("山山 squat 4x5 @ 80 4-1-X-1", "80 4"),
            ("[b]squat[/b] 4x5 @ 80 4-1-X-1", "80 4"),
        ):
            rack.get(Input).value = line
            await rack.settle()
            caret, sign = caret_and_sign(rack, wrong)

            assert caret == sign, line


async def test_the_caret_follows_a_field_that_scrolls() -> None:
    line = f"front squat {'of a long name ' * 4}4x5 @ 80 4-1-X-1 rest 3:00"
    async with Rack(line).running(columns=60) as rack:
        await rack.press("home")
        at_home = rack.lines()[CARET_ROW].strip()
        await rack.press("end")
        caret, sign = caret_and_sign(rack, "80 4")

    assert caret == sign
    assert at_home == ">"


async def test_the_reading_follows_each_key() -> None:
    async with Rack("front squat 4x5 @ 80 kg 4-1-X-").running() as rack:
        before = rack.text()
        await rack.press("1")
        after = rack.text()

    assert "The top is missing. Write 0 for a phase that is left out." in before
    assert "The top is missing" not in after
    assert "A rep: lower 4 s, pause at the bottom 1 s, raise as fast as possible" in after
    assert "lowering 20 s" in after


async def test_a_set_that_is_too_long_is_refused_without_a_caret() -> None:
    async with Rack("front squat 4x100 30-0-1-0").running() as rack:
        text, caret_line_text = rack.text(), rack.lines()[CARET_ROW]
        await rack.press("enter")
        is_still_at_the_board = isinstance(rack.screen, BoardScreen)

    assert "a set is at most 600 s. At most 19 reps at this tempo." in text
    assert caret_line_text == ""
    assert is_still_at_the_board


async def test_an_empty_field_shows_an_example_and_its_four_places() -> None:
    async with Rack("").running() as rack:
        text = "\n".join(rack.lines())
        await rack.press("enter")
        still_empty = rack.get(Input).value == ""

    for line in example_text(width=70).splitlines():
        assert line in text
    assert still_empty


def test_the_example_points_at_each_place_of_its_tempo() -> None:
    assert example_text(width=62).split("\n")[:5] == [
        "front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00",
        "                        │ │ │ └─ top: 1 s at the top",
        "                        │ │ └─── raise: X, as fast as possible",
        "                        │ └───── pause: 1 s at the bottom",
        "                        └─────── lower: 4 s on the way down",
    ]


def test_where_it_can_t_point_it_names_the_places_in_their_order() -> None:
    assert example_text(width=61).split("\n")[:6] == [
        "front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00",
        "lower: 4 s on the way down",
        "pause: 1 s at the bottom",
        "raise: X, as fast as possible",
        "top: 1 s at the top",
        "",
    ]


async def test_in_a_narrow_window_no_line_of_the_example_is_broken() -> None:
    async with Rack("").running(columns=60) as rack:
        assert "raise: X, as fast as possible" in [line.strip() for line in rack.lines()]


LONG = "bench press 4x8 @ 130 kg 4-1-A-0 lowering only rest 0:30 method overloaded-lowering"


async def test_remarks_that_have_no_room_are_reached_by_keys_that_are_named_only_then() -> None:
    async with Rack(LONG).running(columns=60, rows=20) as rack:
        before = rack.text()
        await rack.press(*["down"] * 20)
        end = rack.text()
        await rack.press(*["up"] * 20)
        begin = rack.text()
        rack.get(Input).value = "squat 4x5 @ 80 kg 4-1-X-1"
        await rack.settle()

        assert "↑↓" not in rack.text()

    assert "↑↓ Read on" in before
    assert "rest 3 to 5 min" not in before
    assert "rest 3 to 5 min" in end
    assert "4x8 @ 130 kg" in end
    assert begin == before


async def test_a_space_in_the_line_is_a_space() -> None:
    async with Rack("").running() as rack:
        await rack.write("front squat 4x5")
        value = rack.get(Input).value

    assert value == "front squat 4x5"


async def test_markup_and_control_characters_show_literally() -> None:
    async with Rack("[red]squat[/red]\x1b[31m 4x5 4-1-X-1").running() as rack:
        lines = rack.lines()

    assert "[red]squat[/red]\\x1b[31m 4x5 4-1-X-1" in lines[INPUT_ROW]
    assert any("[red]squat[/red]\\x1b[31m: 4 sets of 5 reps" in line for line in lines)


async def test_enter_with_a_wrong_line_stays_at_the_board() -> None:
    async with Rack(LINE.replace("4-1-X-1", "4-1")).running() as rack:
        await rack.press("enter")

        assert isinstance(rack.screen, BoardScreen)


async def test_what_leaves_the_range_of_its_method_is_said_while_typing_and_goes_on() -> None:
    async with Rack("").running(rows=40) as rack:
        rack.get(Input).value = "squat 4x6 @ 90% 4-0-1-0 method slow-lowering"
        await rack.settle()
        outside = rack.text()
        rack.get(Input).value = "squat 4x6 @ 80% 4-0-1-0 method slow-lowering"
        await rack.settle()

        assert "Remark" not in rack.text()

    assert (
        "Remark: load 90%: slow-lowering has load 60 to 85% of the 1RM (common practice, no"
        in outside
    )
    assert "4 sets of 6 reps" in outside


async def test_in_the_smallest_window_the_reading_has_room_beneath_the_line() -> None:
    rack = Rack()
    rack.log.facts.append(done_set(lifter="Ana", started_at=NOON, ended_at=NOON))
    async with rack.running(columns=40, rows=12):
        text = rack.text()

    assert "front squat: 4 sets of 5 reps" in text
    assert "↑↓ Read on" in text
