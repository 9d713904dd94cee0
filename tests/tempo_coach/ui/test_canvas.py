from __future__ import annotations

import numpy as np

from tempo_coach.ui.canvas import Canvas, Ink, plain_text


def ink(*rows: str) -> np.ndarray[tuple[int, int], np.dtype[np.bool_]]:
    return np.array([[pixel == "#" for pixel in row] for row in rows])


def test_two_half_rows_make_one_row_of_block_characters() -> None:
    canvas = Canvas(4, 1)

    canvas.paint(ink("##..", "#.#."), left=0, top=0, ink=Ink.LOWER)

    assert canvas.picture() == ((("█▀▄", Ink.LOWER), (" ", Ink.NONE)),)


def test_later_ink_covers_earlier_ink() -> None:
    canvas = Canvas(2, 1)

    canvas.paint(ink("##", "##"), left=0, top=0, ink=Ink.RACK)
    canvas.paint(ink("#.", "#."), left=0, top=0, ink=Ink.BARBELL)

    assert canvas.picture() == ((("█", Ink.BARBELL), ("█", Ink.RACK)),)


def test_a_drawing_beyond_the_edge_is_cut_off() -> None:
    canvas = Canvas(2, 1)

    canvas.paint(ink("###", "###", "###"), left=-1, top=-1, ink=Ink.PLAIN)
    canvas.paint(ink("###"), left=1, top=5, ink=Ink.PLAIN)

    assert plain_text(canvas.picture()) == "██"


def test_written_text_stands_over_painted_pixels() -> None:
    canvas = Canvas(8, 2)

    canvas.paint(np.ones((4, 8), dtype=np.bool_), left=0, top=0, ink=Ink.RACK)
    canvas.write("REP 1/5 of many", left=2, row=1, ink=Ink.PLAIN)

    assert plain_text(canvas.picture()) == "████████\n██REP 1/"


def test_text_outside_the_canvas_is_left_out() -> None:
    canvas = Canvas(4, 1)

    canvas.write("REP", left=0, row=1, ink=Ink.PLAIN)

    assert plain_text(canvas.picture()) == ""
