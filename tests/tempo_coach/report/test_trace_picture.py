from __future__ import annotations

import io

import numpy as np
import pytest

from tempo_coach.core.prescribed_path import PICTURE_FORMATS, Paths
from tempo_coach.report.trace_picture import draw_paths

PATHS = Paths(
    np.arange(0, 10, 0.02),
    np.abs(np.sin(np.arange(0, 10, 0.02))) / 2,
    (((1.0, 0.5), (5.0, 0.0), (6.0, 0.5)),),
    ((1.0, "lower"), (5.0, "raise"), (6.0, "top")),
)
BEGINS = {"svg": b"<?xml", "png": b"\x89PNG", "pdf": b"%PDF"}


@pytest.mark.parametrize("form", PICTURE_FORMATS)
def test_the_same_set_gives_the_same_picture(form: str) -> None:
    drawn = []
    for _ in range(2):
        file = io.BytesIO()
        draw_paths(PATHS, file, form=form, title="squat 1x1 4-0-X-1")
        drawn.append(file.getvalue())

    assert drawn[0] == drawn[1]
    assert drawn[0].startswith(BEGINS[form])


def test_what_the_colours_mean_stands_beneath() -> None:
    file = io.BytesIO()
    draw_paths(PATHS, file, form="svg", title="squat 1x1 4-0-X-1")

    text = file.getvalue().decode()
    for word in ("squat 1x1 4-0-X-1", "measured", "prescribed", "lower", "pause", "raise", "top"):
        assert f">{word}</text>" in text
