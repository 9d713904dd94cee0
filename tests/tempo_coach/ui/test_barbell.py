from __future__ import annotations

import numpy as np
import pytest

from tempo_coach.ui.barbell import bar_top, barbell, draw_rack
from tempo_coach.ui.canvas import Canvas, plain_text


@pytest.mark.parametrize("width", [9, 13, 26, 42])
def test_a_barbell_is_alike_at_both_ends_and_above_and_below(width: int) -> None:
    drawn = barbell(width)

    assert drawn.shape[1] == width
    assert np.array_equal(drawn, drawn[:, ::-1])
    assert np.array_equal(drawn, drawn[::-1])
    assert drawn.any(axis=0).all()


def test_discs_grow_with_the_width() -> None:
    assert [len(barbell(width)) for width in (13, 26, 42)] == [9, 18, 27]


def test_the_bar_goes_from_the_first_half_row_to_the_last() -> None:
    assert bar_top(1.0, bar_pixels=9, room_pixels=43) == 0
    assert bar_top(0.5, bar_pixels=9, room_pixels=43) == 17
    assert bar_top(0.0, bar_pixels=9, room_pixels=43) == 34


def test_the_bar_stays_in_a_rack_that_is_too_low_for_it() -> None:
    assert bar_top(0.0, bar_pixels=9, room_pixels=5) == 0


def test_at_the_bottom_the_discs_stand_on_the_floor() -> None:
    canvas = Canvas(13, 8)

    draw_rack(canvas, left=0, width=13, pixels=16, height=0.0)

    assert plain_text(canvas.picture()).split("\n") == [
        "    ▀   ▀",
        "    ▀   ▀",
        "    ▀   ▀",
        "  █ ▀   ▀ █",
        " ██ ▀   ▀ ██",
        "▀██▀▀▀▀▀▀▀██▀",
        " ▀█ ▀   ▀ █▀",
        "▄▄█▄█▄▄▄█▄█▄▄",
    ]


def test_the_rack_is_dotted_where_the_barbell_is_solid_so_that_both_read_without_colour() -> None:
    canvas = Canvas(13, 20)

    draw_rack(canvas, left=0, width=13, pixels=40, height=1.0)

    rows = plain_text(canvas.picture()).split("\n")
    assert rows[2] == "▀██▀▀▀▀▀▀▀██▀"
    assert rows[10] == "    ▀   ▀"
