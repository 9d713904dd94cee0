from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from tempo_coach.core.bar_simulator import METRONOME_CV, Device, Lifter, simulated_set
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.tempo import Phase
from tempo_coach.core.trace import Quantity
from tempo_coach.errors import OutOfRange

LINE = parse_prescription("front squat 1x5 4-1-2-1")
EVEN = Lifter(scatter=0.0, walks_out=False)


def test_without_scatter_every_phase_is_as_prescribed() -> None:
    made = simulated_set(LINE, seed=1, lifter=EVEN)

    assert [made.reps[0].of(phase) for phase in Phase] == [4_000, 1_000, 2_000, 1_000]
    assert made.reps[-1].top_ms is None


def test_the_usual_scatter_is_that_of_lifters_paced_by_a_metronome() -> None:
    # CV 4.0 to 6.4 %: bench press metronome study, 15 subjects, 2009.
    many = parse_prescription("squat 1x50 4-0-2-0")

    lowers = [rep.lower_ms for rep in simulated_set(many, seed=2).reps if rep.lower_ms is not None]

    assert 0.040 <= METRONOME_CV <= 0.064
    assert 0.040 <= float(np.std(lowers) / np.mean(lowers)) <= 0.064


def test_with_fatigue_lowers_get_shorter_and_raises_longer() -> None:
    made = simulated_set(LINE, seed=1, lifter=replace(EVEN, fatigue=0.25))

    first, last = made.reps[0], made.reps[-1]
    assert (first.lower_ms, last.lower_ms) == (4_000, 3_000)
    assert (first.raise_ms, last.raise_ms) == (2_000, 2_500)


def test_the_same_seed_gives_the_same_trace_and_another_gives_another() -> None:
    one, same, other = (simulated_set(LINE, seed=seed).trace.values for seed in (1, 1, 2))

    np.testing.assert_array_equal(one, same)
    assert one.size != other.size or not np.array_equal(one, other)


@pytest.mark.parametrize("quantity", Quantity)
def test_heights_speeds_and_accelerations_are_of_one_movement(quantity: Quantity) -> None:
    device = Device(rate_hz=1000.0)
    heights = simulated_set(LINE, seed=3, lifter=EVEN, device=device).trace.values

    device = replace(device, quantity=quantity)
    values = simulated_set(LINE, seed=3, lifter=EVEN, device=device).trace.values

    for _ in range(quantity.order):
        heights = np.gradient(heights, 1e-3)
    np.testing.assert_allclose(values, heights, atol=0.02)


def test_what_a_device_does_to_a_trace_is_in_it() -> None:
    plain = simulated_set(LINE, seed=4, device=Device()).trace
    device = Device(noise=0.002, jitter=0.2, gaps=2, spikes=3, digits=3)
    made = simulated_set(LINE, seed=4, device=device).trace

    assert made.values.size < plain.values.size
    assert np.diff(made.times_s).min() > 0
    assert np.diff(made.times_s).max() > 0.1
    np.testing.assert_array_equal(made.values, np.round(made.values, 3))
    assert float(np.ptp(made.values)) > 1.5 * float(np.ptp(plain.values))


def test_a_deadlift_begins_with_the_raise_from_the_floor() -> None:
    made = simulated_set(parse_prescription("deadlift 1x3 3-1-X-0"), seed=5, lifter=EVEN)

    assert made.trace.values[0] == pytest.approx(0.0)
    assert made.trace.values.max() == pytest.approx(0.5)
    assert made.reps[-1].pause_ms is None


@pytest.mark.parametrize("range_m", [0.0, 3.0, math.nan])
def test_a_range_that_no_bar_has_is_refused(range_m: float) -> None:
    with pytest.raises(OutOfRange, match=r"a range of .* m is not possible; 0.02 to 2.5 m"):
        simulated_set(LINE, seed=1, lifter=Lifter(range_m=range_m))
