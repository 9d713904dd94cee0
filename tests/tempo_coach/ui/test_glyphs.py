from __future__ import annotations

import numpy as np
import pytest

from tempo_coach.ui.glyphs import GLYPH_HEIGHT, Bitmap, big_text, text_width

ALL = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ:/"


def drawn(bitmap: Bitmap) -> list[str]:
    return ["".join("#" if pixel else "." for pixel in row) for row in bitmap]


def test_a_four_looks_like_a_four() -> None:
    assert drawn(big_text("4", across=1, down=1)) == [
        "...#.",
        "..##.",
        ".#.#.",
        "#..#.",
        "#####",
        "...#.",
        "...#.",
    ]


def test_letters_stand_one_pixel_apart() -> None:
    assert drawn(big_text("TOP", across=1, down=1)) == [
        "#####..###..####.",
        "..#...#...#.#...#",
        "..#...#...#.#...#",
        "..#...#...#.####.",
        "..#...#...#.#....",
        "..#...#...#.#....",
        "..#....###..#....",
    ]


@pytest.mark.parametrize("names", ["0123456789:/", "ABCDEFGHIJKLMNOPQRSTUVWXYZ"])
def test_no_two_of_what_stands_in_one_place_look_alike(names: str) -> None:
    looks = {"\n".join(drawn(big_text(name, across=1, down=1))) for name in names}

    assert len(looks) == len(names)


@pytest.mark.parametrize("name", ALL)
def test_every_glyph_is_seven_high_and_at_most_five_wide(name: str) -> None:
    height, width = big_text(name, across=1, down=1).shape

    assert height == GLYPH_HEIGHT
    assert 1 <= width <= 5


def test_all_digits_are_equally_wide_so_that_a_count_does_not_shift() -> None:
    assert {text_width(digit) for digit in "0123456789"} == {5}


def test_enlarging_repeats_each_pixel() -> None:
    small = big_text("X", across=1, down=1)

    large = big_text("X", across=3, down=2)

    assert large.shape == (14, 15)
    assert np.array_equal(large[::2, ::3], small)
    assert np.array_equal(large[1::2, 2::3], small)


@pytest.mark.parametrize("text", ["LOWER", "2:05", "12/12", "OWN SPEED", "I", ""])
def test_the_width_is_known_before_drawing(text: str) -> None:
    assert big_text(text, across=2, down=1).shape[1] == 2 * text_width(text)


def test_a_character_without_a_glyph_is_refused() -> None:
    with pytest.raises(KeyError):
        big_text("é", across=1, down=1)
