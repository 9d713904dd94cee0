from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tempo_coach.core.bar_simulator import Device, Lifter, simulated_set
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.trace import Quantity
from tempo_coach.trace.felt_speed import added_up, felt_speed

DEVICE = Device(Quantity.ACCELERATION, rate_hz=200.0)


@pytest.mark.parametrize("gravity", [0.0, 9.80665])
def test_speeds_are_those_of_the_movement_whatever_is_felt_at_rest(gravity: float) -> None:
    line, lifter = parse_prescription("squat 1x4 3-1-X-1"), Lifter(scatter=0.0)
    device = replace(DEVICE, noise=0.05, drift=gravity)
    felt = simulated_set(line, seed=1, lifter=lifter, device=device).trace
    device = replace(DEVICE, quantity=Quantity.SPEED)
    truth = simulated_set(line, seed=1, lifter=lifter, device=device).trace

    speeds = felt_speed(felt.values, rate_hz=200.0, noise=0.05)

    assert float(np.abs(speeds - truth.values).max()) < 0.03


def test_a_steady_pace_is_no_rest_though_nothing_is_felt() -> None:
    # Half a second up to 0.2 m/s, four seconds on, half a second back to rest, between rests.
    felt = np.concatenate(
        [np.zeros(200), np.full(50, 0.4), np.zeros(400), np.full(50, -0.4), np.zeros(200)]
    )

    speeds = felt_speed(felt, rate_hz=100.0, noise=0.01)

    assert speeds[450] == pytest.approx(0.2, abs=0.01)
    assert speeds[[100, -100]] == pytest.approx([0.0, 0.0], abs=0.005)


def test_values_are_added_up_by_trapezoids() -> None:
    assert added_up(np.array([0.0, 2.0, 2.0]), 2.0).tolist() == [0.0, 0.5, 1.5]
