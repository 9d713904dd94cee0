from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.ui.canvas import Ink, plain_text
from tempo_coach.ui.picture import picture
from tempo_coach.ui.sign import Sign

AT_WORK = Sign(
    word="LOWER",
    figure="3",
    figure_room="0",
    aside=("REP", "1/5"),
    aside_room=("LAST", "REP", "5/5"),
    height=0.5,
    ink=Ink.LOWER,
)
SIGNS = [
    AT_WORK,
    Sign(
        word="RAISE",
        figure="OWN SPEED",
        aside=("LAST", "REP", "12/12"),
        aside_room=("LAST", "REP", "12/12"),
        height=0.0,
        ink=Ink.RAISE,
    ),
    Sign(word="READY", height=1.0),
    Sign(figure="2:58", figure_room="3:00"),
    Sign(),
]


def drawn(sign: Sign, columns: int, rows: int) -> list[str]:
    return plain_text(picture(sign, columns=columns, rows=rows)).split("\n")


def inked_rows(sign: Sign, ink: Ink, columns: int, rows: int) -> list[int]:
    shown = picture(sign, columns=columns, rows=rows)
    return [
        row for row, runs in enumerate(shown) if any(each is ink and text for text, each in runs)
    ]


def test_at_80_by_24_the_word_the_digit_and_the_rep_fill_the_room() -> None:
    assert drawn(AT_WORK, 78, 22) == [
        "██            ██████    ██      ██  ██████████  ████████             ▀   ▀",
        "██          ██      ██  ██      ██  ██          ██      ██           ▀   ▀",
        "██          ██      ██  ██  ██  ██  ██          ██      ██           ▀   ▀",
        "██          ██      ██  ██  ██  ██  ████████    ████████             ▀   ▀",
        "██          ██      ██  ██  ██  ██  ██          ██  ██               ▀   ▀",
        "██          ██      ██  ████  ████  ██          ██    ██             ▀   ▀",
        "██████████    ██████    ██      ██  ██████████  ██      ██           ▀   ▀",
        "                                                                     ▀   ▀",
        "    ████████████                                                   ▄ ▀   ▀ ▄",
        "    ████████████                                                  ▄█ ▀   ▀ █▄",
        "████            ████                                             ▄██▄█▄▄▄█▄██▄",
        "████            ████                                              ██ ▀   ▀ ██",
        "                ████                                               █ ▀   ▀ █",
        "                ████                                                 ▀   ▀",
        "        ████████                              █▀▀▀▄ █▀▀▀▀ █▀▀▀▄      ▀   ▀",
        "        ████████                              █▄▄▄▀ █▄▄▄  █▄▄▄▀      ▀   ▀",
        "                ████                          █ ▀▄  █     █          ▀   ▀",
        "                ████                          ▀   ▀ ▀▀▀▀▀ ▀          ▀   ▀",
        "████            ████                              ▄     ▄ ▄▄▄▄▄      ▀   ▀",
        "████            ████                             ▀█    ▄▀ █▄▄▄       ▀   ▀",
        "    ████████████                                  █    █      █      ▀   ▀",
        "    ████████████                                 ▄█▄  █   ▀▄▄▄▀  ▄▄▄▄█▄▄▄█▄▄▄▄",
    ]


def test_the_digit_grows_with_the_window() -> None:
    heights = [
        len({*inked_rows(AT_WORK, Ink.LOWER, columns, rows)}) for columns, rows in SIZES_GROWING
    ]

    assert heights == sorted(heights)
    assert heights[-1] >= 2 * heights[1] > heights[0]


SIZES_GROWING = [(38, 10), (78, 22), (158, 48)]


def test_the_bar_stands_where_the_height_says() -> None:
    def rows_at(height: float) -> list[int]:
        return inked_rows(Sign(word="READY", height=height), Ink.BARBELL, 78, 22)

    assert rows_at(1.0)[0] == 0
    assert rows_at(0.0)[-1] == 21
    assert rows_at(1.0) < rows_at(0.75) < rows_at(0.5) < rows_at(0.25) < rows_at(0.0)


def test_a_count_keeps_its_size_from_9_to_10() -> None:
    nine = Sign(word="LOWER", figure="9", figure_room="00", ink=Ink.LOWER)
    ten = Sign(word="LOWER", figure="10", figure_room="00", ink=Ink.LOWER)

    assert inked_rows(nine, Ink.LOWER, 78, 22) == inked_rows(ten, Ink.LOWER, 78, 22)


def test_the_rep_keeps_its_place_when_the_last_is_announced() -> None:
    before = Sign(
        figure="1", figure_room="0", aside=("REP", "5/5"), aside_room=("LAST", "REP", "5/5")
    )
    last = Sign(
        figure="1", figure_room="0", aside=("LAST", "REP", "5/5"), aside_room=("LAST", "REP", "5/5")
    )

    assert drawn(before, 78, 22)[14:] == drawn(last, 78, 22)[14:]


def test_where_no_glyph_fits_the_words_are_written_plainly() -> None:
    text = "\n".join(drawn(SIGNS[1], 30, 6))

    assert "RAISE" in text
    assert "12/12" in text


def test_two_words_stand_one_above_the_other_where_that_is_larger() -> None:
    sign = Sign(figure="OWN SPEED")

    assert inked_rows(sign, Ink.PLAIN, 60, 22)[-1] - inked_rows(sign, Ink.PLAIN, 60, 22)[0] > 14


@given(st.sampled_from(SIGNS), st.integers(min_value=1, max_value=200), st.integers(1, 70))
def test_a_picture_has_the_size_of_its_room(sign: Sign, columns: int, rows: int) -> None:
    shown = picture(sign, columns=columns, rows=rows)

    assert len(shown) == rows
    assert {sum(len(text) for text, _ in row) for row in shown} == {columns}
