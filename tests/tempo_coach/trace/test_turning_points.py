from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.trace.turning_points import runs_of, turns_of

RATE_HZ = 50.0


def path(*heights: float, each_s: float = 1.0) -> np.ndarray:
    """Heights on straight lines between those given."""
    times_s = np.arange(0, (len(heights) - 1) * each_s, 1 / RATE_HZ)
    return np.asarray(np.interp(times_s, np.arange(len(heights)) * each_s, heights))


def reps(height_m: np.ndarray, *, begins_high: bool = True) -> list[int]:
    found = runs_of(height_m, rate_hz=RATE_HZ, noise_m=0.0005, begins_high=begins_high)
    return [run.reps for run in found]


@given(
    st.lists(st.floats(0.2, 1.2), min_size=1, max_size=1),
    st.integers(1, 20),
    st.integers(0, 10_000),
)
def test_alike_ways_are_reps_however_far_they_go(
    ranges: list[float], count: int, seed: int
) -> None:
    chance = np.random.default_rng(seed)
    lows = ranges[0] * chance.normal(1.0, 0.05, size=count).clip(0.85, 1.15)
    heights = [0.0, *(one for low in lows for one in (-low, 0.0))]

    assert reps(path(*heights)) == [count]


def test_lifting_off_stepping_back_and_putting_back_are_no_reps() -> None:
    steps = [0.0, 0.08, 0.05, 0.07, 0.06, 0.06]
    lifted = [value for _ in range(3) for value in (-0.5, 0.06)]

    assert reps(path(*steps, *lifted, 0.08, 0.0, 0.0)) == [3]


def test_a_bar_lifted_from_the_floor_first_is_no_rep_of_a_set_that_begins_high() -> None:
    assert reps(path(0.0, 0.9, 0.3, 0.9, 0.3, 0.9, 0.0)) == [2]


def test_a_set_may_begin_with_the_raise() -> None:
    height_m = path(0.0, 0.5, 0.0, 0.5, 0.0)

    assert reps(height_m, begins_high=False) == [2]


def test_a_long_break_parts_two_sets() -> None:
    one = path(0.0, -0.5, 0.0, -0.5, 0.0)
    height_m = np.concatenate([one, np.zeros(int(90 * RATE_HZ)), one])

    assert reps(height_m) == [2, 2]


@pytest.mark.parametrize("range_m", [0.01, 0.05, 4.0, 50.0])
def test_ways_that_are_too_small_or_too_large_are_none(range_m: float) -> None:
    assert reps(path(0.0, -range_m, 0.0, -range_m, 0.0)) == []


def test_turns_are_the_highs_and_lows_beyond_a_size() -> None:
    turns = turns_of(path(0.0, 0.5, 0.45, 0.6, 0.0), size_m=0.1)

    assert [round(turn.height_m, 1) for turn in turns] == [0.0, 0.6, 0.0]
