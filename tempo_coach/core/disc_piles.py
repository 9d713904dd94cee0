"""Piles of discs of which each size has only so many: which mass they can have."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from functools import lru_cache
from itertools import chain
from typing import TypeAlias

from tempo_coach.core.mass import Mass

Pile: TypeAlias = tuple[Mass, ...]
"""Discs, in the order in which they are put on."""
Stock: TypeAlias = tuple[tuple[Mass, int], ...]
"""Sizes, the heaviest first, each with how many there are for one pile."""


def mass_kg(pile: Iterable[Mass]) -> Decimal:
    """Return what a pile weighs, exactly."""
    return sum((disc.kg for disc in pile), Decimal(0))


@lru_cache(maxsize=512)
def nearest_piles(stock: Stock, target_kg: Decimal) -> tuple[Pile | None, Pile | None]:
    """Return the heaviest pile of at most the target, and the lightest of at least as much.

    Of the piles of one mass it is the one of fewest discs, and of these the one that begins with
    the heaviest.

    Returns
    -------
    tuple of Pile or None
        Below and above, the heaviest disc first; both the same where the target can be had, and
        None where all piles are too heavy, or too light.
    """
    layers = _layers(stock, target_kg)
    reached = layers[-1].keys()
    below = max((kg for kg in reached if kg <= target_kg), default=None)
    above = min((kg for kg in reached if kg >= target_kg), default=None)
    return (
        None if below is None else _pile(stock, layers, below),
        None if above is None else _pile(stock, layers, above),
    )


_Layer: TypeAlias = dict[Decimal, tuple[int, int]]
"""By the mass of a pile: how many discs it has, and how many of them are of the last size."""


def _layers(stock: Stock, target_kg: Decimal) -> list[_Layer]:
    """Return what can be had with the lightest size alone, with the next one too, and so on.

    Without any one of its discs, the lightest pile above the target would be below it: so nothing
    heavier than the target and one disc is looked at.
    """
    most_kg = max(target_kg, Decimal(0)) + max((disc.kg for disc, _ in stock), default=Decimal(0))
    layers: list[_Layer] = [{Decimal(0): (0, 0)}]
    for disc, many in reversed(stock):
        layer: _Layer = {}
        for kg, (count, _) in layers[-1].items():
            for more in range(many + 1):
                heavier_kg = kg + more * disc.kg
                if heavier_kg > most_kg:
                    break
                known = layer.get(heavier_kg)
                # Of as many discs, the more of this size, the heavier the first ones.
                if known is None or (count + more, -more) < (known[0], -known[1]):
                    layer[heavier_kg] = (count + more, more)
        layers.append(layer)
    return layers


def _pile(stock: Stock, layers: Sequence[_Layer], kg: Decimal) -> Pile:
    discs = []
    for (disc, _), layer in zip(stock, reversed(layers), strict=False):
        _, many = layer[kg]
        discs.append((disc,) * many)
        kg -= many * disc.kg
    return tuple(chain.from_iterable(discs))


def has_more_sums(stock: Stock, *, than: int, most_kg: Decimal) -> bool:
    """Tell whether the piles up to a mass have more than so many different masses."""
    sums = {Decimal(0)}
    for disc, many in stock:
        added = (kg + more * disc.kg for kg in sums for more in range(many + 1))
        sums = {kg for kg in added if kg <= most_kg}
        if len(sums) > than:
            return True
    return False
