from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.page_parts import Column, Row, Table
from tempo_coach.core.page_room import cut, fitted, lines_of, rows_within, table_mm

TEXTS = st.text(st.sampled_from("aW é漢🏋1 "), max_size=120)
COLUMNS = (Column("a", is_text=True, width_mm=30), Column("b", is_text=True, width_mm=20))


@given(TEXTS, st.integers(1, 4), st.floats(10, 190))
def test_a_cut_text_keeps_to_its_lines_and_to_how_it_begins(
    text: str, most_lines: int, width_mm: float
) -> None:
    short = cut(text, size_pt=7.5, width_mm=width_mm, most_lines=most_lines)

    assert lines_of(short, size_pt=7.5, width_mm=width_mm) <= most_lines
    assert short == text or text.startswith(short.removesuffix("…"))


@given(TEXTS, TEXTS)
def test_a_longer_text_takes_no_fewer_lines(text: str, more: str) -> None:
    one, both = (lines_of(each, size_pt=7.5, width_mm=30) for each in (text, text + more))

    assert both >= one


def test_a_word_longer_than_a_line_goes_on_in_the_next() -> None:
    assert lines_of("a", size_pt=7.5, width_mm=30) == 1
    assert lines_of("W" * 11, size_pt=7.5, width_mm=30) == 2
    assert lines_of("a " + "W" * 10, size_pt=7.5, width_mm=30) == 2


@given(st.lists(st.tuples(TEXTS, TEXTS), max_size=20), st.floats(0, 300))
def test_as_many_rows_stand_in_a_room_as_are_no_higher(
    texts: list[tuple[str, str]], room_mm: float
) -> None:
    table = fitted(Table("t", COLUMNS, tuple(Row(one, (two,)) for one, two in texts)))
    heads_mm = table_mm(Table("t", COLUMNS, ()))

    count = rows_within(table, room_mm)

    kept = Table("t", COLUMNS, table.rows[:count])
    assert table_mm(kept) <= heads_mm + room_mm + 1e-9
    if count < len(texts):
        one_more = Table("t", COLUMNS, table.rows[: count + 1])
        assert table_mm(one_more) > heads_mm + room_mm - 1e-9
