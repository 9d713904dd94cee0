from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from tempo_coach.cli.tables import print_line, print_table
from tests.tempo_coach.cli.terminal import on_a_terminal

HEADINGS = ("exercise", "lower s", "tonnage kg")
ROWS = (("front squat", "1155.0", "12,345"), ("nordic hamstring curl", "20.0", "0"))


def printed(monkeypatch: pytest.MonkeyPatch, *, columns: int) -> list[str]:
    with monkeypatch.context() as patch:
        shown = on_a_terminal(patch, columns=columns)
        print_table(HEADINGS, ROWS, title="lowering")
    return shown.getvalue().splitlines()


def test_where_there_is_room_a_row_is_a_line(monkeypatch: pytest.MonkeyPatch) -> None:
    assert printed(monkeypatch, columns=80) == [
        "lowering",
        "exercise               lower s  tonnage kg",
        "front squat             1155.0      12,345",
        "nordic hamstring curl     20.0           0",
    ]


def test_headings_and_names_break_between_words_and_numbers_not_at_all(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert printed(monkeypatch, columns=30) == [
        "lowering",
        "              lower  tonnage",
        "exercise          s       kg",
        "front squat  1155.0   12,345",
        "nordic         20.0        0",
        "hamstring",
        "curl",
    ]


def test_what_no_table_can_show_stands_beneath_its_name(monkeypatch: pytest.MonkeyPatch) -> None:
    assert printed(monkeypatch, columns=20) == [
        "lowering",
        "front squat",
        "  lower s 1155.0,",
        "  tonnage kg 12,345",
        "nordic hamstring",
        "curl",
        "  lower s 20.0,",
        "  tonnage kg 0",
    ]


def test_the_first_columns_may_be_asked_to_stay_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    rows = [("  2026-W48", "23 Nov", "off season"), ("> 2026-W49", "30 Nov", "taper")]
    with monkeypatch.context() as patch:
        shown = on_a_terminal(patch, columns=30)
        print_table(("week", "from", "what it is"), rows, left=3, whole=2)

    assert shown.getvalue().splitlines() == [
        "                    what it",
        "week        from    is",
        "  2026-W48  23 Nov  off",
        "                    season",
        "> 2026-W49  30 Nov  taper",
    ]


def test_room_goes_to_what_is_broken_into_most_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patch:
        shown = on_a_terminal(patch, columns=36)
        print_table(("line", "why"), [("long " * 8, "less " * 4)], left=2)

    assert shown.getvalue().splitlines() == [
        "line                   why",
        "long long long long    less less",
        "long long long long    less less",
    ]


def test_a_pipe_has_no_width(capsys: pytest.CaptureFixture[str]) -> None:
    print_table(("", "words"), [("1", "word " * 100)], left=2)

    assert len(capsys.readouterr().out.splitlines()) == 2


def test_a_line_is_broken_where_the_terminal_ends_and_not_in_a_pipe(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    print_line("wrote a-long-name.csv; rows: 36 by week")
    with monkeypatch.context() as patch:
        shown = on_a_terminal(patch, columns=30)
        print_line("wrote a-long-name.csv; rows: 36 by week")

    assert capsys.readouterr().out == "wrote a-long-name.csv; rows: 36 by week\n"
    assert shown.getvalue() == "wrote a-long-name.csv; rows:\n36 by week\n"


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(
        st.tuples(st.text("ab ", max_size=30), st.integers(0, 10**12)), min_size=1, max_size=4
    ),
    st.integers(16, 60),
)
def test_no_line_is_too_long_and_no_number_is_broken(
    monkeypatch: pytest.MonkeyPatch, rows: list[tuple[str, int]], columns: int
) -> None:
    cells = [(f"x{name.replace('a', 'a ')}", f"{number:,}") for name, number in rows]
    with monkeypatch.context() as patch:
        shown = on_a_terminal(patch, columns=columns)
        print_table(("exercise", "lower s"), cells)

    text = shown.getvalue()
    assert all(number in text for _, number in cells)
    longest = max(len(f"  {word}") for cell in cells for word in " ".join(cell).split())
    assert max(map(cell_len, text.splitlines())) <= max(columns, longest)
