from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.ui.bars import bar


@pytest.mark.parametrize(
    ("value", "drawn"),
    [
        (0, "    "),
        (80, "████"),
        (40, "██  "),
        (45, "██▎ "),
        (78, "███▉"),
        (0.01, "▏   "),
    ],
)
def test_a_bar_is_as_long_as_its_value(value: float, drawn: str) -> None:
    assert bar(value, most=80, cells=4) == drawn


def test_where_all_is_nothing_no_bar_is_drawn() -> None:
    assert bar(0, most=0, cells=3) == "   "


@given(st.floats(0, 1e6), st.floats(0, 1e6), st.integers(1, 200))
def test_the_longer_bar_is_never_of_the_smaller_value(one: float, other: float, cells: int) -> None:
    most = max(one, other)
    shorter, longer = (bar(value, most=most, cells=cells) for value in sorted((one, other)))

    assert len(shorter) == len(longer) == cells
    assert len(shorter.rstrip()) <= len(longer.rstrip())
