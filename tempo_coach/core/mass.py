"""The mass of a bar, a disc, collars or a releaser."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from tempo_coach.core.legible import quoted
from tempo_coach.core.load import KG_PER_LB, LoadUnit
from tempo_coach.errors import OutOfRange

MASS_FORMS = "a number with its unit, such as 20 kg or 45 lb"
_MASS = re.compile(
    r"(?P<amount>[0-9]{1,4}(?:\.[0-9]{1,3})?)\s*(?P<unit>kg|lb)?", re.IGNORECASE | re.ASCII
)


@dataclass(frozen=True, slots=True)
class Mass:
    """What a thing weighs, as it is stamped on it: ``20 kg``, ``45 lb``.

    Raises
    ------
    OutOfRange
        The amount is below 0, or the unit weighs nothing.
    """

    amount: Decimal
    """In `unit`; at most three decimals, so that sums in kilograms are exact."""
    unit: LoadUnit
    """`LoadUnit.KG` or `LoadUnit.LB`."""

    def __post_init__(self) -> None:
        if self.unit is LoadUnit.PERCENT or self.amount < 0:
            raise OutOfRange(f"{self} is no mass", hint=MASS_FORMS)

    @property
    def kg(self) -> Decimal:
        """The mass in kilograms, exactly."""
        return self.amount * (KG_PER_LB if self.unit is LoadUnit.LB else 1)

    @property
    def number(self) -> str:
        """The amount without its unit."""
        return f"{self.amount.normalize():f}"

    def __str__(self) -> str:
        return f"{self.number} {self.unit}"


def parse_mass(text: str, *, unit: LoadUnit | None = None) -> Mass:
    """Read a mass.

    Parameters
    ----------
    text
        Such as ``20 kg`` or ``45 lb``.
    unit
        What a bare number is counted in; None refuses it.

    Raises
    ------
    OutOfRange
        The text is no mass.
    """
    found = _MASS.fullmatch(text.strip())
    if found is None or not (found["unit"] or unit):
        raise OutOfRange(f"{quoted(text)} is no mass", hint=MASS_FORMS)
    return Mass(Decimal(found["amount"]), LoadUnit((found["unit"] or str(unit)).lower()))


def check_mass(mass: Mass, *, what: str, least_kg: int, most_kg: int) -> Mass:
    """Return the mass, if it is possible for what it is of.

    Raises
    ------
    OutOfRange
        It is too small or too large.
    """
    if not least_kg <= mass.kg <= most_kg:
        raise OutOfRange(f"{what} of {mass} is not possible", hint=f"{least_kg} to {most_kg} kg")
    return mass
