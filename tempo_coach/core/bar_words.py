"""What is on a bar, and what changes, in words."""

from __future__ import annotations

from decimal import Decimal
from itertools import groupby

from tempo_coach.core.disc_piles import Pile
from tempo_coach.core.load import KG_PER_LB, LoadUnit
from tempo_coach.core.loading import BarChange, LoadedBar
from tempo_coach.core.mass import Mass
from tempo_coach.core.set_bar import SetBar

_FEWEST_COUNTED = 3
"""From here on discs that are alike are counted."""
_HUNDREDTHS = Decimal("0.01")


def kg_words(kg: Decimal, unit: LoadUnit) -> str:
    """Return a mass in a unit, and before it in the other one where only that is exact."""
    words, is_exact = _rounded(kg, unit)
    other, other_is_exact = _rounded(kg, LoadUnit.KG if unit is LoadUnit.LB else LoadUnit.LB)
    return f"{other} ({words})" if other_is_exact and not is_exact else words


def _rounded(kg: Decimal, unit: LoadUnit) -> tuple[str, bool]:
    """Return a mass to the hundredth, ``about`` it where that is not all of it."""
    amount = kg / KG_PER_LB if unit is LoadUnit.LB else kg
    rounded = amount.quantize(_HUNDREDTHS)
    is_exact = rounded == amount
    return f"{'' if is_exact else 'about '}{Mass(rounded, unit)}", is_exact


def difference_words(difference_kg: Decimal, unit: LoadUnit) -> str:
    """Return such as ``1.25 kg less``; negative is less."""
    return f"{kg_words(abs(difference_kg), unit)} {'less' if difference_kg < 0 else 'more'}"


def pile_words(pile: Pile) -> str:
    """Return such as ``25 + 15 + 2.5 kg``, in the order of the pile."""
    if not pile:
        return "no discs"
    units = {disc.unit for disc in pile}
    shown = []
    for disc, several in groupby(pile):
        count = len(list(several))
        text = disc.number if len(units) == 1 else str(disc)
        if count >= _FEWEST_COUNTED:
            shown.append(f"{count} x {text}")
        else:
            shown.extend([text] * count)
    words = " + ".join(shown)
    return f"{words} {units.pop()}" if len(units) == 1 else words


def side_words(bar: LoadedBar) -> str:
    """Return what is on each side."""
    return f"{pile_words(bar.side)} a side" if bar.side else "the empty bar"


def change_words(change: BarChange) -> str:
    """Return what comes off each side and what goes on."""
    if not change.moves:
        return "the bar stays as it is"
    parts = []
    if change.off:
        parts.append(f"take off {pile_words(change.off)}")
    if change.on:
        parts.append(f"put on {pile_words(change.on)}")
    return f"{', '.join(parts)} a side"


def set_words(found: SetBar) -> str:
    """Say what is on the bar for a set, or what is nearest to it, and what changes."""
    if found.bar is None:
        near = ", ".join(
            f"{kg_words(bar.kg, found.load.unit)} is {side_words(bar)}"
            for bar in (found.loading.below, found.loading.above)
            if bar is not None
        )
        return f"{found.load} can't be loaded: {near}"
    if found.change is None:
        return side_words(found.bar)
    return f"{side_words(found.bar)}; {change_words(found.change)}"
