"""The units of a trace, and what one of each is in the SI."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from tempo_coach.core.legible import quoted
from tempo_coach.core.trace import Quantity
from tempo_coach.errors import OutOfRange

INCH_M = Fraction(254, 10_000)
FOOT_M = Fraction(3_048, 10_000)
"""Both exact: the international yard and pound agreement, 1959."""
STANDARD_GRAVITY_M_S2 = Fraction(980_665, 100_000)
"""Exact: the third General Conference on Weights and Measures, 1901."""

_LENGTHS: Mapping[str, Fraction] = MappingProxyType(
    {
        "m": Fraction(1),
        "cm": Fraction(1, 100),
        "mm": Fraction(1, 1000),
        "in": INCH_M,
        "ft": FOOT_M,
    }
)
_TIMES: Mapping[str, Fraction] = MappingProxyType(
    {
        "s": Fraction(1),
        "ms": Fraction(1, 1000),
        "us": Fraction(1, 1_000_000),
        "ns": Fraction(1, 1_000_000_000),
        "min": Fraction(60),
    }
)
UNITS: Mapping[Quantity, Mapping[str, Fraction]] = MappingProxyType(
    {
        Quantity.HEIGHT: _LENGTHS,
        Quantity.SPEED: MappingProxyType(
            {f"{name}/s": size for name, size in _LENGTHS.items()} | {"km/h": Fraction(10, 36)}
        ),
        Quantity.ACCELERATION: MappingProxyType(
            {f"{name}/s2": size for name, size in _LENGTHS.items()} | {"g": STANDARD_GRAVITY_M_S2}
        ),
    }
)
"""By quantity, each unit in terms of that of the SI."""

_SPELLINGS: Mapping[str, str] = MappingProxyType(
    {
        "sec": "s", "secs": "s", "second": "s", "seconds": "s",
        "msec": "ms", "millisecond": "ms", "milliseconds": "ms", "millis": "ms",
        "µs": "us", "μs": "us", "microseconds": "us", "nanoseconds": "ns",
        "minute": "min", "minutes": "min",
        "metre": "m", "metres": "m", "meter": "m", "meters": "m",
        "centimetres": "cm", "centimeters": "cm", "millimetres": "mm", "millimeters": "mm",
        "inch": "in", "inches": "in", '"': "in", "foot": "ft", "feet": "ft", "'": "ft",
        "mps": "m/s", "kmh": "km/h", "km/hr": "km/h", "kph": "km/h",
        "g0": "g", "gs": "g",
    }
)  # fmt: skip


def known_unit(text: str, quantity: Quantity | None) -> str | None:
    """Return the name of a unit however it is spelt, or None where it is none of that quantity.

    Parameters
    ----------
    text
        Such as ``cm``, ``Seconds`` or ``m/s²``.
    quantity
        None for time.
    """
    plain = "".join(text.split()).lower()
    for sign in ("^", "*", "·", ".", "**"):
        plain = plain.replace(sign, "")
    plain = plain.replace("²", "2").replace("⁻1", "-1").replace("⁻¹", "-1").replace("⁻2", "-2")
    plain = plain.replace("/s/s", "/s2").replace("/sec", "/s")
    if plain.endswith("s-1"):
        plain = f"{plain[:-3]}/s"
    if plain.endswith("s-2"):
        plain = f"{plain[:-3]}/s2"
    found = _SPELLINGS.get(plain, plain)
    return found if found in units_of(quantity) else None


def units_of(quantity: Quantity | None) -> Mapping[str, Fraction]:
    """Return the units of a quantity; None is time."""
    return _TIMES if quantity is None else UNITS[quantity]


def unit_size(text: str, quantity: Quantity | None) -> Fraction:
    """Return what a unit is in the SI.

    Raises
    ------
    OutOfRange
        It is no unit of that quantity.
    """
    found = known_unit(text, quantity)
    if found is None:
        of = "time" if quantity is None else quantity.value
        raise OutOfRange(
            f"{quoted(text)} is no unit of {of}", hint=f"give {', '.join(units_of(quantity))}"
        )
    return units_of(quantity)[found]
