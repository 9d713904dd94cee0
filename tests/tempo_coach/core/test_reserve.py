from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.load import KG_PER_LB
from tempo_coach.core.reserve import Reserve, Standing


def test_a_published_mean_gives_the_published_reserve_over_the_load_lifted() -> None:
    # Kelly et al. 2015, JSCR 29:1027, 10.1519/JSC.0000000000000713: bench press of 30 men,
    # eccentric 1RM 115.99 kg, concentric 93.56 kg.
    reserve = Reserve(lowered_kg=115.99, lifted_kg=93.56)
    assert reserve.ratio == pytest.approx(1.2397, abs=0.00005)
    assert reserve.kg == pytest.approx(22.43, abs=0.005)
    assert reserve.percent == pytest.approx(23.97, abs=0.005)
    # Divided by the load lowered it would be 19.34 %.
    assert reserve.kg / reserve.lowered_kg * 100 == pytest.approx(19.34, abs=0.005)


@pytest.mark.parametrize("kg", [1.0, float(KG_PER_LB)])
def test_the_coaches_example_is_ten_percent_in_any_unit(kg: float) -> None:
    # 250 lifted and 275 lowered: common practice, no source.
    reserve = Reserve(lowered_kg=275 * kg, lifted_kg=250 * kg)
    assert reserve.percent == pytest.approx(10)
    assert (reserve.standing, reserve.gap_kg) == (Standing.WITHIN, 0)


@pytest.mark.parametrize(
    ("lowered_kg", "standing", "gap_kg"),
    [
        (90, Standing.BELOW, 20),
        (109.99, Standing.BELOW, 0.01),
        (110, Standing.WITHIN, 0),
        (120, Standing.WITHIN, 0),
        (125, Standing.ABOVE, -5),
    ],
)
def test_the_gap_to_the_target_is_in_kilograms(
    lowered_kg: float, standing: Standing, gap_kg: float
) -> None:
    # The working target of 1.10 to 1.20: common practice, no source.
    reserve = Reserve(lowered_kg, lifted_kg=100)
    assert reserve.standing is standing
    assert reserve.gap_kg == pytest.approx(gap_kg)


@pytest.mark.parametrize(
    ("ratio", "is_questionable"),
    # Men, free and machine lifts: 27 to 49 % (Hollander et al. 2007, JSCR 21:34). 2.46 has been
    # measured in women on a bench machine, so it is asked about and worked out all the same.
    [(1.27, False), (1.49, False), (1.5, False), (2.46, True)],
)
def test_what_is_rarely_measured_is_asked_about(ratio: float, is_questionable: bool) -> None:
    reserve = Reserve(ratio * 40, lifted_kg=40)
    assert reserve.is_questionable is is_questionable
    assert reserve.ratio == pytest.approx(ratio)


@given(st.floats(1, 600), st.floats(1, 600))
def test_closing_the_gap_reaches_the_target(lowered_kg: float, lifted_kg: float) -> None:
    reserve = Reserve(lowered_kg, lifted_kg)
    closed = Reserve(lowered_kg + reserve.gap_kg, lifted_kg)
    assert closed.standing is Standing.WITHIN
