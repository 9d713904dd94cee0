from __future__ import annotations

import statistics

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.load_trend import WHY_NO_SAFE_ZONE, WeekVariety, ewma

daily = st.lists(st.floats(0, 50_000), min_size=1, max_size=60)


def test_the_published_recurrence_gives_its_computed_example() -> None:
    # Williams et al. 2017, Br J Sports Med, 10.1136/bjsports-2016-096589: λ = 2/(N+1); the values
    # are computed from it.
    loads = [100, 200, 0, 300, 100, 0, 400]

    assert ewma(loads, span=7) == pytest.approx(
        [100, 125, 93.75, 145.3125, 133.984375, 100.48828125, 175.3662109375], abs=0
    )


@given(daily, st.sampled_from((7, 28)))
def test_the_smoothed_mean_is_that_of_pandas(loads: list[float], span: int) -> None:
    expected = pd.Series(loads).ewm(span=span, adjust=False).mean()

    assert ewma(loads, span=span) == pytest.approx(list(expected))


def test_monotony_has_the_deviation_of_a_population() -> None:
    # Foster 1998; the example is computed: population SD 234.5208, monotony 1.49240. With a
    # sample's SD, 253.3114, it would be 1.38170.
    week = [600, 200, 400, 500, 100, 650, 0]

    found = WeekVariety.of(week)

    assert statistics.pstdev(week) == pytest.approx(234.5208, abs=5e-5)
    assert found.monotony == pytest.approx(1.49240, abs=1e-5)
    assert found.strain == pytest.approx(2450 * 1.49240, abs=0.02)


@given(st.lists(st.floats(0, 50_000), min_size=7, max_size=7))
def test_monotony_is_that_of_numpy(week: list[float]) -> None:
    found = WeekVariety.of(week)

    assert found.load == pytest.approx(np.sum(week))
    if found.monotony is not None:
        assert found.monotony == pytest.approx(np.mean(week) / np.std(week), rel=1e-6)


@pytest.mark.parametrize("week", [[0.0] * 7, [250.0] * 7, [0.1] * 7])
def test_days_that_are_all_alike_have_no_monotony(week: list[float]) -> None:
    found = WeekVariety.of(week)

    assert (found.monotony, found.strain) == (None, None)


def test_it_is_said_why_no_zone_is_called_safe() -> None:
    assert "no safe zone" in WHY_NO_SAFE_ZONE
    assert "predict no injury" in WHY_NO_SAFE_ZONE
