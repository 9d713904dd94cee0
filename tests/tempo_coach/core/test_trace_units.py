from __future__ import annotations

from fractions import Fraction

import pytest

from tempo_coach.core.trace import Quantity
from tempo_coach.core.trace_units import known_unit, unit_size
from tempo_coach.errors import OutOfRange


@pytest.mark.parametrize(
    ("text", "quantity", "size"),
    [
        # 1 in = 2.54 cm and 1 ft = 0.3048 m: international yard and pound agreement, 1959.
        ("in", Quantity.HEIGHT, Fraction("0.0254")),
        ("ft", Quantity.HEIGHT, Fraction("0.3048")),
        ("ft/s", Quantity.SPEED, Fraction("0.3048")),
        # Standard gravity, 9.80665 m/s²: ISO 80000-3, CGPM 1901.
        ("g", Quantity.ACCELERATION, Fraction("9.80665")),
        ("cm", Quantity.HEIGHT, Fraction(1, 100)),
        ("mm/s", Quantity.SPEED, Fraction(1, 1000)),
        ("km/h", Quantity.SPEED, Fraction(1000, 3600)),
        ("ms", None, Fraction(1, 1000)),
    ],
)
def test_units_are_exact(text: str, quantity: Quantity | None, size: Fraction) -> None:
    assert unit_size(text, quantity) == size


@pytest.mark.parametrize(
    ("text", "quantity", "unit"),
    [
        ("m/s²", Quantity.ACCELERATION, "m/s2"),
        ("m/s^2", Quantity.ACCELERATION, "m/s2"),
        ("m·s⁻²", Quantity.ACCELERATION, "m/s2"),
        ("m s-2", Quantity.ACCELERATION, "m/s2"),
        ("m.s-1", Quantity.SPEED, "m/s"),
        ("Inches", Quantity.HEIGHT, "in"),
        ("Seconds", None, "s"),
        ("µs", None, "us"),
        ("px", Quantity.HEIGHT, None),
        ("s", Quantity.HEIGHT, None),
    ],
)
def test_units_are_known_by_their_usual_spellings(
    text: str, quantity: Quantity | None, unit: str | None
) -> None:
    assert known_unit(text, quantity) == unit


def test_a_unit_of_something_else_is_refused_with_those_that_there_are() -> None:
    with pytest.raises(OutOfRange, match=r"'kg' is no unit of height; give m, cm, mm, in, ft"):
        unit_size("kg", Quantity.HEIGHT)
