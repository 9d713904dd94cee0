from __future__ import annotations

import numpy as np
import pytest

from tempo_coach.core.compared_set import ComparedSet
from tempo_coach.core.cut_set import CutRep, CutSet, Stretch
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.path_picture import ROWS, PathInk, path_picture, path_text
from tempo_coach.core.prescribed_path import Paths, paths_of
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.tempo import Phase
from tempo_coach.core.trace import Quantity

TIMES_S = np.arange(0, 12, 0.02)
HEIGHT_M = np.interp(TIMES_S, [0, 2, 5, 6, 7, 12], [0.5, 0.5, 0.0, 0.0, 0.5, 0.5])


def compared(line: str = "squat 1x1 4-1-X-1") -> ComparedSet:
    stretches = (
        Stretch(Phase.LOWER, 2.0, 5.0), Stretch(Phase.PAUSE, 5.0, 6.0),
        Stretch(Phase.RAISE, 6.0, 7.0), Stretch(Phase.TOP, 7.0, None),
    )  # fmt: skip
    rep = CutRep(MeasuredRep(3_000, 1_000, 1_000, None), stretches)
    cut = CutSet((rep,), TIMES_S, HEIGHT_M, Quantity.HEIGHT, 50.0, 0.001, ())
    return ComparedSet(parse_prescription(line), cut)


def test_what_was_asked_begins_where_the_rep_began_and_x_is_as_long_as_it_was() -> None:
    (corners,) = paths_of(compared()).asked

    expected = [(2.0, 0.5), (6.0, 0.0), (7.0, 0.0), (8.0, 0.5), (9.0, 0.5)]
    assert np.array(corners) == pytest.approx(np.array(expected))


def test_stops_are_corners_too() -> None:
    (corners,) = paths_of(compared("squat 1x1 4-0-X-0 stop 2 s at 1/2")).asked

    expected = [(2.0, 0.5), (4.0, 0.25), (6.0, 0.25), (8.0, 0.0), (9.0, 0.5)]
    assert np.array(corners) == pytest.approx(np.array(expected))


def test_only_the_set_is_shown_with_a_little_around_it() -> None:
    paths = paths_of(compared())

    assert paths.times_s[[0, -1]] == pytest.approx([0.5, 8.5], abs=0.03)
    assert paths.begins == ((2.0, "lower"), (5.0, "pause"), (6.0, "raise"), (7.0, "top"))


def test_a_picture_in_plain_characters_shows_both() -> None:
    text = path_text(path_picture(paths_of(compared()), width=60, is_plain=True))

    lines = text.splitlines()
    assert text.isascii()
    assert len(lines) == ROWS + 1
    assert max(map(len, lines)) <= 60
    assert lines[0].startswith("0.50 m ###")
    assert lines[ROWS - 1].startswith("0.00 m ")
    assert "#" in lines[ROWS - 1]
    assert "." in lines[5]
    assert lines[ROWS].split() == ["0", "s", "rep", "1", "8", "s"]


def test_a_picture_for_a_terminal_is_of_dots_in_two_inks() -> None:
    picture = path_picture(paths_of(compared()), width=80, is_plain=False)

    inks = {part.ink for row in picture for part in row}
    dots = {character for row in picture[:ROWS] for part in row for character in part.text
            if part.ink is not PathInk.NONE}  # fmt: skip
    assert inks == set(PathInk)
    assert all("\u2801" <= dot <= "\u28ff" for dot in dots)


def test_a_rep_whose_beginning_is_unknown_has_nothing_laid_over() -> None:
    paths = Paths(TIMES_S, HEIGHT_M, ((),), ())

    assert "." not in path_text(path_picture(paths, width=60, is_plain=True)).split("\n")[5]
