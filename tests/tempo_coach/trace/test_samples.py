from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.trace import Quantity, Trace
from tempo_coach.errors import TraceRefused
from tempo_coach.trace.samples import samples_of

TIMES_S = np.arange(0, 30, 0.01)
HEIGHTS = 0.25 * np.sin(2 * np.pi * 0.2 * TIMES_S)


def trace(values: np.ndarray = HEIGHTS, times_s: np.ndarray = TIMES_S) -> Trace:
    return Trace(times_s, values, Quantity.HEIGHT)


@given(noise=st.floats(1e-4, 1e-2), seed=st.integers(0, 1000))
def test_noise_is_estimated_from_the_samples(noise: float, seed: int) -> None:
    noisy = HEIGHTS + np.random.default_rng(seed).normal(size=HEIGHTS.size) * noise

    assert samples_of(trace(noisy)).noise == pytest.approx(noise, rel=0.15)


def test_rounded_figures_have_the_noise_of_rounding() -> None:
    samples = samples_of(trace(np.round(HEIGHTS, 2)))

    assert samples.noise == pytest.approx(0.01 / 12**0.5)


def test_samples_far_off_are_left_out_and_counted() -> None:
    spiked = HEIGHTS.copy()
    spiked[[500, 1500, 1501]] += (0.4, -0.3, -0.3)

    samples = samples_of(trace(spiked))

    assert samples.times_s.size == HEIGHTS.size - 3
    assert "3 samples far off their neighbours were left out." in samples.remarks


def test_a_fast_raise_at_few_samples_a_second_has_none_far_off() -> None:
    few = slice(None, None, 4)
    fast = np.tanh((TIMES_S - 15) * 5)

    samples = samples_of(trace(fast[few], TIMES_S[few]))

    assert not any("far off" in remark for remark in samples.remarks)


def test_short_gaps_are_bridged_and_long_ones_are_kept_in_mind() -> None:
    holes = HEIGHTS.copy()
    holes[300:310] = np.nan
    holes[1000:1100] = np.nan

    samples = samples_of(trace(holes))

    assert np.array(samples.gaps_s) == pytest.approx(np.array([[9.99, 11.0]]))
    assert samples.is_missing(10.5)
    assert not samples.is_missing(3.05)
    assert samples.remarks[0] == "1 gap of up to 0.11 s was bridged."
    assert samples.remarks[1].startswith("1 gap too long to be bridged (1 s at 10.0 s)")


def test_more_than_250_samples_a_second_are_averaged() -> None:
    times_s = np.arange(0, 10, 0.001)
    noise = np.random.default_rng(1).normal(size=times_s.size) * 0.004

    samples = samples_of(Trace(times_s, np.sin(times_s) + noise, Quantity.HEIGHT))

    assert samples.rate_hz == pytest.approx(250)
    assert samples.noise == pytest.approx(0.002, rel=0.15)
    assert "1000 samples a second were averaged to 250." in samples.remarks


def test_uneven_samples_are_told() -> None:
    uneven = TIMES_S + np.random.default_rng(1).uniform(-0.004, 0.004, size=TIMES_S.size)

    samples = samples_of(trace(HEIGHTS, uneven))

    assert any("not evenly spaced" in remark for remark in samples.remarks)


@pytest.mark.parametrize(
    ("values", "step_s", "message"),
    [
        ([1.0, 2.0, 3.0], 0.01, "3 samples over 0.02 s are too few for a set"),
        ([np.nan] * 300, 0.01, "0 samples over 0.00 s are too few for a set"),
        ([1.0] * 300, 0.01, "the height is 1 m all along"),
        ([1.0, 2.0] * 30, 0.2, "5 samples a second are too few to see where a phase begins"),
    ],
)
def test_what_shows_nothing_is_refused_with_its_reason(
    values: list[float], step_s: float, message: str
) -> None:
    with pytest.raises(TraceRefused) as refused:
        samples_of(trace(np.array(values), np.arange(len(values)) * step_s))

    assert refused.value.message == message


def test_ten_samples_a_second_will_do_with_a_warning() -> None:
    every = slice(None, None, 10)

    samples = samples_of(trace(HEIGHTS[every], TIMES_S[every]))

    assert samples.remarks == (
        "10 samples a second are few: a phase can be wrong by more than 100 ms.",
    )
