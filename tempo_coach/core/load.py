"""The load of a set as it is written, and in kilograms."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from tempo_coach.core.legible import quoted
from tempo_coach.errors import OutOfRange

KG_PER_LB = Decimal("0.45359237")
"""Exact: international yard and pound agreement, 1959."""


class LoadUnit(StrEnum):
    """What a load is counted in."""

    KG = "kg"
    LB = "lb"
    PERCENT = "%"
    """Of the 1RM."""


_MOST = {LoadUnit.KG: 1000, LoadUnit.LB: 2200, LoadUnit.PERCENT: 160}

LOAD_FORMS = "80 kg, 175 lb, 72%, bw or bw+10 kg"

_LOAD = re.compile(
    r"(?P<body>bw)(?:\s*\+\s*(?P<extra>[0-9]+(?:\.[0-9]+)?)\s*(?P<extra_unit>kg|lb))?"
    r"|(?P<amount>[0-9]+(?:\.[0-9]+)?)\s*(?P<unit>kg|lb|%)",
    re.IGNORECASE,
)

_BARE_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


@dataclass(frozen=True, slots=True)
class Load:
    """A load as a coach writes it: ``80 kg``, ``175 lb``, ``72%``, ``bw``, ``bw+10 kg``.

    Raises
    ------
    OutOfRange
        The amount is not above 0, or above what its unit allows.
    """

    amount: Decimal
    """In `unit`; 0 for body mass alone."""
    unit: LoadUnit
    on_body: bool = False
    """The amount comes on top of the lifter's body mass."""

    def __post_init__(self) -> None:
        if self.on_body and self.unit is LoadUnit.PERCENT:
            raise OutOfRange("a share of the 1RM can't hang on the body", hint=LOAD_FORMS)
        most = _MOST[self.unit]
        if not (0 <= self.amount <= most) or (self.amount == 0 and not self.on_body):
            raise OutOfRange(
                f"a load of {self} is not possible", hint=f"above 0 and at most {most} {self.unit}"
            )

    def kg(self, *, max_kg: float | None = None, body_kg: float | None = None) -> float | None:
        """Return the load in kg, or None where the 1RM or the body mass it needs is not known."""
        if self.unit is LoadUnit.PERCENT:
            return None if max_kg is None else float(self.amount * Decimal(str(max_kg)) / 100)
        hung = self.amount * (KG_PER_LB if self.unit is LoadUnit.LB else 1)
        if not self.on_body:
            return float(hung)
        return None if body_kg is None else float(hung + Decimal(str(body_kg)))

    def __str__(self) -> str:
        amount = f"{self.amount.normalize():f}"
        gap = "" if self.unit is LoadUnit.PERCENT else " "
        if not self.on_body:
            return f"{amount}{gap}{self.unit}"
        return f"bw+{amount}{gap}{self.unit}" if self.amount else "bw"


def match_load(text: str, start: int) -> tuple[Load, int] | None:
    """Read a load that begins at an index of the text.

    Returns
    -------
    tuple of Load and int, or None
        The load and the index behind it; None where no load begins.

    Raises
    ------
    OutOfRange
        It reads as a load, but the amount is not possible.
    """
    found = _LOAD.match(text, start)
    if found is None or text[found.end() : found.end() + 1].strip():
        return None
    if found["body"]:
        extra = _amount(found["extra"] or "0")
        # Nothing on top is the same in either unit.
        unit = LoadUnit(found["extra_unit"].lower()) if extra else LoadUnit.KG
        return Load(extra, unit, on_body=True), found.end()
    return Load(_amount(found["amount"]), LoadUnit(found["unit"].lower())), found.end()


def parse_load(text: str) -> Load:
    """Read a text that is a load and nothing else.

    Raises
    ------
    OutOfRange
        The text is no load, or its amount is not possible.
    """
    body = text.strip()
    found = match_load(body, 0)
    if found is None or found[1] != len(body):
        number = _BARE_NUMBER.fullmatch(body.replace(",", "."))
        nearest = f"write {number[0]} kg or {number[0]} lb" if number else LOAD_FORMS
        raise OutOfRange(f"{quoted(text)} is no load", hint=nearest)
    return found[0]


def _amount(digits: str) -> Decimal:
    whole, _, decimals = digits.partition(".")
    if len(whole.lstrip("0")) > 4 or len(decimals) > 3:
        raise OutOfRange(
            "the load has too many digits", hint="at most four before the point and three behind"
        )
    return Decimal(digits)
