from __future__ import annotations

import numpy as np
import pytest

from tempo_coach.core.bar_simulator import Device, Lifter, SimulatedSet, simulated_set
from tempo_coach.core.cut_set import CutSet
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.tempo import Phase
from tempo_coach.core.trace import Quantity, Trace
from tempo_coach.errors import TraceRefused
from tempo_coach.trace.rep_cutting import cut_set
from tests.tempo_coach.trace.made_sets import edges_s

LINE = "front squat 1x4 4-1-X-1"
USUAL = Device(noise=0.001)


def tried(
    line: str = LINE, *, seed: int = 1, lifter: Lifter | None = None, device: Device = USUAL
) -> tuple[SimulatedSet, CutSet]:
    prescription = parse_prescription(line)
    made = simulated_set(prescription, seed=seed, lifter=lifter, device=device)
    return made, cut_set(made.trace, prescription)


def most_off_ms(made: SimulatedSet, cut: CutSet) -> float:
    return float(np.abs(edges_s(cut) - np.array(made.edges_s)).max()) * 1000


@pytest.mark.parametrize(
    "line",
    [
        LINE,
        "deadlift 1x3 3-1-X-0",
        "bench press 1x6 2-0-2-0",
        "squat 1x2 10-0-X-0",
        "squat 1x4 X-5-X-3",
        "squat 1x1 3-0-1-0",
        "bench press 1x3 6-1-X-1 stop 1 s at 1/3 2/3",
        "squat 1x3 4-1-2-0 stop 2 s at 1/2 lead raise",
        "bench press 1x3 5-0-A-0 lowering only",
        "squat 1x3 3-1-X-0 raise only",
        "row 1x4 2-0-V-1 sides alternating",
    ],
)
@pytest.mark.parametrize("quantity", [Quantity.HEIGHT, Quantity.SPEED])
def test_the_phases_of_every_shape_are_found(line: str, quantity: Quantity) -> None:
    noise = 0.0005 if quantity is Quantity.HEIGHT else 0.005
    made, cut = tried(line, device=Device(quantity, noise=noise))

    assert most_off_ms(made, cut) < 50


def test_lengths_ranges_and_speeds_are_those_of_the_movement() -> None:
    lifter = Lifter(scatter=0.0, range_m=0.6)
    _, cut = tried("squat 1x2 4-1-2-1", lifter=lifter, device=Device(noise=0.0005))

    first, last = (rep.measured for rep in cut.reps)
    assert [first.of(phase) for phase in Phase] == pytest.approx([4000, 1000, 2000, 1000], abs=20)
    assert last.top_ms is None
    assert first.motion is not None
    assert first.motion.range_m == pytest.approx(0.6, abs=0.003)
    assert first.motion.lower_mean_m_s == pytest.approx(0.15, abs=0.002)
    assert first.motion.raise_mean_m_s == pytest.approx(0.3, abs=0.004)


@pytest.mark.parametrize("quantity", Quantity)
def test_a_minimum_jerk_raise_peaks_at_1_875_times_its_mean(quantity: Quantity) -> None:
    # Flash & Hogan 1985, J Neurosci 5:1688.
    _, cut = tried("squat 1x3 3-1-X-1", device=Device(quantity, rate_hz=100.0))

    for rep in cut.reps:
        motion = rep.measured.motion
        assert motion is not None
        assert motion.raise_mean_m_s is not None
        assert motion.raise_peak_m_s is not None
        assert motion.raise_peak_m_s / motion.raise_mean_m_s == pytest.approx(1.875, rel=0.03)


def test_a_slow_lower_beside_a_fast_raise_keeps_its_own_peak() -> None:
    _, cut = tried("squat 1x3 8-0-X-0", lifter=Lifter(range_m=0.4))

    for rep in cut.reps:
        assert rep.measured.motion is not None
        assert rep.measured.motion.lower_peak_m_s == pytest.approx(0.052, rel=0.15)


@pytest.mark.parametrize("shape", ["straight", "half a cosine"])
def test_movements_of_another_shape_than_the_one_fitted_are_found_too(shape: str) -> None:
    # Straight lines have corners that no bar has; half a cosine sets off with a jolt.
    corners = np.array([0.0, 3.0, 7.0, 8.0, 9.0, 10.0, 14.0, 15.0, 16.0, 19.0])
    heights = np.array([0.5, 0.5, 0.0, 0.0, 0.5, 0.5, 0.0, 0.0, 0.5, 0.5])
    times_s = np.arange(0, 19, 0.01)
    share = np.interp(times_s, corners, np.arange(corners.size))
    if shape == "half a cosine":
        share = np.floor(share) + (1 - np.cos(np.pi * (share % 1))) / 2
    height_m = np.interp(share, np.arange(corners.size), heights)
    height_m += np.random.default_rng(1).normal(size=times_s.size) * 0.001

    cut = cut_set(
        Trace(times_s, height_m, Quantity.HEIGHT), parse_prescription("squat 1x2 4-1-1-1")
    )

    assert edges_s(cut) == pytest.approx(np.array([[3, 7, 8, 9], [10, 14, 15, 16]]), abs=0.1)


def test_the_number_of_reps_is_taken_from_the_trace_alone() -> None:
    made, _ = tried()

    cut = cut_set(made.trace, parse_prescription("front squat 1x6 2-0-1-0"))

    assert len(cut.reps) == 4


def test_a_phase_that_ends_in_a_long_gap_is_not_measured() -> None:
    made, _ = tried()
    arrives_s = made.edges_s[1][1]
    is_kept = np.abs(made.trace.times_s - arrives_s) > 0.4
    values = np.where(is_kept, made.trace.values, np.nan)

    cut = cut_set(Trace(made.trace.times_s, values, Quantity.HEIGHT), parse_prescription(LINE))

    found = cut.reps[1].measured
    assert (found.lower_ms, found.pause_ms) == (None, None)
    assert found.raise_ms is not None
    assert None not in (cut.reps[0].measured.lower_ms, cut.reps[2].measured.lower_ms)
    assert any("too long to be bridged" in remark for remark in cut.remarks)


def test_a_trace_that_begins_within_a_lower_has_none_of_it() -> None:
    made, _ = tried()
    trace = made.trace.between(made.edges_s[0][0] + 1.0, None)

    cut = cut_set(trace, parse_prescription(LINE))

    assert len(cut.reps) == 4
    assert cut.reps[0].measured.lower_ms is None
    assert cut.reps[0].measured.pause_ms is not None
    assert "The beginning of rep 1 is not in the trace." in cut.remarks


def test_a_last_lower_without_a_raise_is_no_rep_and_is_told() -> None:
    made, _ = tried()
    trace = made.trace.between(None, made.edges_s[3][1] + 0.3)

    cut = cut_set(trace, parse_prescription(LINE))

    assert len(cut.reps) == 3
    assert any("m down at 24 s is part of no rep" in remark for remark in cut.remarks)


def test_a_drift_is_taken_out_and_told() -> None:
    device = Device(noise=0.001, drift=0.1)
    made, cut = tried("squat 1x8 3-1-1-1", lifter=Lifter(scatter=0.04), device=device)

    assert any(remark.startswith("A drift of ") for remark in cut.remarks)
    assert most_off_ms(made, cut) < 60


def test_of_two_sets_the_longer_is_compared_and_the_other_told() -> None:
    one, _ = tried("squat 1x3 3-1-1-1")
    other, _ = tried("squat 1x5 3-1-1-1")
    later_s = one.trace.times_s[-1] + 60.0
    times_s = np.concatenate([one.trace.times_s, later_s + other.trace.times_s])
    values = np.concatenate([one.trace.values, other.trace.values])
    even_s = np.arange(0, times_s[-1], 0.01)
    trace = Trace(even_s, np.interp(even_s, times_s, values), Quantity.HEIGHT)

    cut = cut_set(trace, parse_prescription("squat 1x5 3-1-1-1"))

    assert len(cut.reps) == 5
    assert any("1 other left out (3 reps at" in remark for remark in cut.remarks)


@pytest.mark.parametrize("rate_hz", [10.0, 12.0])
def test_ten_samples_a_second_find_reps_and_warn(rate_hz: float) -> None:
    made, cut = tried(device=Device(rate_hz=rate_hz, noise=0.001))

    assert most_off_ms(made, cut) < 2 * 1000 / rate_hz
    assert any("samples a second are few" in remark for remark in cut.remarks)


@pytest.mark.parametrize(
    ("height", "line", "message", "hint"),
    [
        (
            0.04,
            "squat 1x3 3-1-1-1",
            "no rep was found: the bar moves by no more than 0.0",
            "--unit",
        ),
        (0.5, "squat 1x1 3-1-1-1 lead raise", "no rep that begins with the raise", "lead lower"),
    ],
)
def test_where_no_rep_is_found_the_reason_is_said(
    height: float, line: str, message: str, hint: str
) -> None:
    lifter = Lifter(range_m=height, walks_out=False)
    made = simulated_set(parse_prescription("squat 1x1 3-1-1-1"), seed=1, lifter=lifter)

    with pytest.raises(TraceRefused, match=message) as refused:
        cut_set(made.trace, parse_prescription(line))

    assert hint in refused.value.hint


def test_accelerations_that_add_up_to_nothing_say_what_to_record_instead() -> None:
    lifter, device = Lifter(range_m=0.3), Device(Quantity.ACCELERATION, rate_hz=25.0, noise=0.2)
    line = parse_prescription("squat 1x3 10-0-4-0")
    made = simulated_set(line, seed=1, lifter=lifter, device=device)

    with pytest.raises(TraceRefused, match="no rep was found in the heights") as refused:
        cut_set(made.trace, line)

    assert "record heights or speeds" in refused.value.hint


def test_a_bar_that_goes_a_hundred_metres_is_in_another_unit() -> None:
    made, _ = tried()
    trace = Trace(made.trace.times_s, made.trace.values * 100, Quantity.HEIGHT)

    with pytest.raises(TraceRefused, match="is the unit another"):
        cut_set(trace, parse_prescription(LINE))


def test_a_bar_picked_up_straight_before_the_first_lower_does_not_lengthen_it() -> None:
    made, _ = tried("deadlift 1x3 3-1-X-0")

    cut = cut_set(made.trace, parse_prescription("deadlift 1x2 3-1-X-0 lead lower"))

    first_s, second_s = made.edges_s[0][2:], made.edges_s[1][:2]
    assert edges_s(cut)[0] == pytest.approx([*first_s, *second_s], abs=0.05)
    assert "is part of no rep" in cut.remarks[0]


def test_noise_alone_has_no_reps() -> None:
    times_s = np.arange(0, 60, 0.01)
    noise = np.random.default_rng(1).normal(size=times_s.size) * 0.1

    with pytest.raises(TraceRefused, match="no rep was found"):
        cut_set(Trace(times_s, noise, Quantity.HEIGHT), parse_prescription(LINE))
