from __future__ import annotations

from tempo_coach.ui.key_names import KeyName, in_rows, name_at

SPACE = KeyName("space", "Space/PgDn", "Start", "Start the next set")
LEAVE = KeyName("escape", "Esc", "Leave", "Back to the board")
QUIT = KeyName("ctrl+q", "Ctrl+Q", "Quit", "Leave")


def test_a_key_takes_its_name_and_three_spaces() -> None:
    assert [name.width for name in (SPACE, LEAVE, QUIT)] == [18, 11, 13]


def test_keys_that_fit_stand_in_one_row() -> None:
    assert in_rows((SPACE, LEAVE, QUIT), width=42) == ((SPACE, LEAVE, QUIT),)


def test_keys_that_do_not_fit_go_on_in_the_next_row() -> None:
    assert in_rows((SPACE, LEAVE, QUIT), width=41) == ((SPACE, LEAVE), (QUIT,))
    assert in_rows((SPACE, LEAVE), width=5) == ((SPACE,), (LEAVE,))


def test_no_keys_are_one_empty_row() -> None:
    assert in_rows((), width=80) == ((),)


def test_each_cell_belongs_to_the_key_that_is_written_there() -> None:
    rows = in_rows((SPACE, LEAVE, QUIT), width=41)

    assert [name_at(rows, column=column, row=0) for column in (0, 17, 18, 28, 29)] == [
        SPACE, SPACE, LEAVE, LEAVE, None,
    ]  # fmt: skip
    assert name_at(rows, column=12, row=1) is QUIT
    assert name_at(rows, column=0, row=2) is None
