from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tempo_coach.cli.wrapping import widest_piece, wrapped


def test_what_has_room_on_one_line_stays_as_it_is() -> None:
    assert wrapped("  two  words ", width=20, first="- ") == "-   two  words "


def test_each_line_begins_with_what_is_asked_for() -> None:
    assert wrapped("one two three", width=9, first="- ", indent="  ") == "- one two\n  three"


@pytest.mark.parametrize("number", ["150 kg", "+8.6 kg,", "(2.5 s)", "9,788 kg·s", "4.0 %"])
def test_a_number_stands_on_one_line_with_its_unit(number: str) -> None:
    assert wrapped(f"lowered {number}", width=12) == f"lowered\n{number}"


def test_a_number_may_stand_apart_from_what_it_counts() -> None:
    assert wrapped("the best of 3 sets", width=14) == "the best of 3\nsets"


def test_letters_that_take_two_columns_count_as_two() -> None:
    assert wrapped("李小龍 Ihle", width=10) == "李小龍\nIhle"


def test_control_characters_are_spelt_out() -> None:
    assert wrapped("a\x1b[2Jb") == "a\\x1b[2Jb"


@given(st.text("ab1 kg李", max_size=60), st.integers(1, 30))
def test_no_line_is_too_long_but_for_a_piece_that_can_t_be_broken(words: str, width: int) -> None:
    lines = wrapped(words, width=width).split("\n")

    assert max(map(cell_len, lines)) <= max(width, widest_piece(words))
    assert " ".join(lines).split() == words.split()
