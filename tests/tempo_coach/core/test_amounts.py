from __future__ import annotations

import pytest

from tempo_coach.core.amounts import measured
from tempo_coach.core.weeks import Totals
from tempo_coach.core.work import PhaseTimes


@pytest.mark.parametrize(
    ("measured_ms", "said"),
    [
        (0, "None of the lowering was measured: it counts as it was paced."),
        (10, "1% of the lowering was measured; the rest counts as it was paced."),
        (40_000, "40% of the lowering was measured; the rest counts as it was paced."),
        (99_990, "99% of the lowering was measured; the rest counts as it was paced."),
        (100_000, "All of the lowering was measured."),
    ],
)
def test_neither_nothing_nor_all_is_claimed_by_rounding(measured_ms: int, said: str) -> None:
    totals = Totals(1, 5, PhaseTimes(100_000), PhaseTimes(), 0.0, 0.0, measured_ms, 0)

    assert measured(totals) == said
