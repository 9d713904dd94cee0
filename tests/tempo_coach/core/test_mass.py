from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.load import LoadUnit
from tempo_coach.core.mass import Mass, check_mass, parse_mass
from tempo_coach.errors import OutOfRange

masses = st.builds(
    Mass,
    st.decimals("0", "9999", places=3),
    st.sampled_from((LoadUnit.KG, LoadUnit.LB)),
)


def test_a_pound_is_exact() -> None:
    # International yard and pound agreement, 1959.
    assert parse_mass("1 lb").kg == Decimal("0.45359237")
    assert parse_mass("45 lb").kg == Decimal("20.41165665")


@given(masses)
def test_a_mass_that_is_written_out_reads_as_the_same(mass: Mass) -> None:
    assert parse_mass(str(mass)) == mass


@pytest.mark.parametrize("text", ["20kg", " 20 KG ", "20.0 kg"])
def test_a_mass_may_be_written_in_several_ways(text: str) -> None:
    assert parse_mass(text) == Mass(Decimal(20), LoadUnit.KG)


def test_a_bare_number_needs_a_unit_from_elsewhere() -> None:
    assert parse_mass("45", unit=LoadUnit.LB) == Mass(Decimal(45), LoadUnit.LB)
    with pytest.raises(OutOfRange, match="'45' is no mass; a number with its unit"):
        parse_mass("45")


@pytest.mark.parametrize("text", ["", "-1 kg", "1e3 kg", "20 %", "20 kg 5", "1.2345 kg", "٢٠ kg"])
def test_what_is_no_mass_is_refused(text: str) -> None:
    with pytest.raises(OutOfRange, match="is no mass"):
        parse_mass(text, unit=LoadUnit.KG)


@pytest.mark.parametrize(
    ("amount", "unit"), [(Decimal(-1), LoadUnit.KG), (Decimal(1), LoadUnit.PERCENT)]
)
def test_a_mass_is_not_below_zero_and_no_share(amount: Decimal, unit: LoadUnit) -> None:
    with pytest.raises(OutOfRange, match="is no mass"):
        Mass(amount, unit)


def test_a_mass_out_of_bounds_is_refused_with_the_bounds() -> None:
    bar = parse_mass("0 kg")
    with pytest.raises(OutOfRange, match="a bar of 0 kg is not possible; 1 to 60 kg"):
        check_mass(bar, what="a bar", least_kg=1, most_kg=60)
