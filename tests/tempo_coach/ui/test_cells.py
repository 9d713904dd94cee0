from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tempo_coach.ui.cells import Column, fitted, laid_out

COLUMNS = (Column("name", takes_rest=True), Column("n", to_right=True), Column("more", gives_way=1))


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("row", "row   "),
        ("bench", "bench "),
        ("bench pull", "bench…"),
        ("前蹲", "前蹲  "),
        ("前蹲前蹲", "前蹲 …"),
        ("école", "école "),
        ("سكوات أمامي", "سكوات…"),
    ],
)
def test_a_text_fills_its_cells_and_is_cut_with_an_ellipsis(text: str, shown: str) -> None:
    assert fitted(text, 6) == shown
    assert cell_len(fitted(text, 6)) == 6


def test_numbers_stand_to_the_right() -> None:
    assert fitted("12", 5, to_right=True) == "   12"


def test_the_rest_of_the_room_goes_to_one_column() -> None:
    assert laid_out(COLUMNS, [("squat", "4", "x")], width=30) == (
        "name                   n  more",
        "squat                  4  x   ",
    )


def test_columns_give_way_before_the_name_gets_too_short() -> None:
    assert laid_out(COLUMNS, [("squat", "4", "x")], width=16) == (
        "name           n",
        "squat          4",
    )


@given(
    st.lists(st.tuples(*[st.text(st.characters(exclude_categories=("C", "Z")))] * 3), max_size=4),
    st.integers(25, 120),
)
def test_all_lines_are_of_one_width_whatever_they_hold(
    rows: list[tuple[str, str, str]], width: int
) -> None:
    short = [(name, number[:2], more[:3]) for name, number, more in rows]
    lines = laid_out(COLUMNS, short, width=width)

    assert {cell_len(line) for line in lines} == {width}
