from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.sparkline import sparkline

numbers = st.lists(st.floats(-1000, 1000), min_size=1, max_size=20)


@pytest.mark.parametrize(
    ("values", "bars"),
    [
        ([], ""),
        ([80.0], "▄"),
        ([80.0, 80.0], "▄▄"),
        ([70.0, 77.0, 73.5], "▁█▅"),
        ([0.0, 1, 2, 3, 4, 5, 6, 7], "▁▂▃▄▅▆▇█"),
    ],
)
def test_a_bar_stands_for_each_value(values: list[float], bars: str) -> None:
    assert sparkline(values) == bars


@given(numbers)
def test_a_greater_value_never_has_the_lower_bar(values: list[float]) -> None:
    bars = sparkline(values, most=20)
    pairs = sorted(zip(values, bars, strict=True))
    assert sorted(bars) == [bar for _, bar in pairs]


@given(numbers, st.integers(1, 20))
def test_only_the_last_values_are_shown(values: list[float], most: int) -> None:
    assert sparkline(values, most=most) == sparkline(values[-most:], most=most)
