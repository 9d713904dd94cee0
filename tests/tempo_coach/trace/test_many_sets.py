"""How well phases are found in made-up sets, whose truth is known."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import pytest

from tempo_coach.core.trace import Quantity
from tests.tempo_coach.trace.made_sets import Tried, set_of_any_kind


def off_ms(tried: Iterable[Tried]) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    found = np.abs(np.concatenate([one.off_ms() for one in tried if one.has_right_reps]))
    return np.asarray(found[~np.isnan(found)])


@pytest.mark.parametrize("quantity", [Quantity.HEIGHT, Quantity.SPEED])
def test_of_8_sets_of_any_kind_all_have_their_reps_and_phases_their_ends(
    quantity: Quantity,
) -> None:
    tried = [set_of_any_kind(seed, quantity) for seed in range(8)]

    assert [one.seed for one in tried if not one.has_right_reps] == []
    assert float(np.quantile(off_ms(tried), 0.95)) < 50
    assert float(np.median(off_ms(tried))) < 5


# Looked at: what lies beyond 50 ms are ends of lowers slower than 5 cm/s, and of slow minimum-jerk
# movements, whose last centimetre takes a second; at noise of the size given, in a few samples.
@pytest.mark.slow
@pytest.mark.parametrize(("quantity", "most_ms"), [(Quantity.HEIGHT, 50), (Quantity.SPEED, 60)])
def test_of_500_sets_of_any_kind_995_in_1000_have_their_reps_and_phases_their_ends(
    quantity: Quantity, most_ms: float
) -> None:
    tried = [set_of_any_kind(seed, quantity) for seed in range(1_000, 1_500)]

    wrong = [one.seed for one in tried if not one.has_right_reps]
    found = off_ms(tried)
    assert len(wrong) <= 2, wrong
    assert float(np.median(found)) < 15
    assert float(np.quantile(found, 0.99)) < most_ms


# Accelerations are harder: slow ways hardly feel like one, and errors add up twice. So here are
# lowers of up to 4 s, 100 samples a second or more, no gaps, and a better device.
@pytest.mark.slow
def test_of_200_sets_recorded_as_accelerations_99_in_100_have_their_reps() -> None:
    tried = [
        set_of_any_kind(seed, Quantity.ACCELERATION, slowest_s=4) for seed in range(2_000, 2_200)
    ]

    found = off_ms(tried)
    assert sum(one.has_right_reps for one in tried) >= 198
    assert float(np.median(found)) < 15
    assert float(np.quantile(found, 0.99)) < 50
