"""Racks small enough to try every way of loading them, and a search that does."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from itertools import product

from hypothesis import strategies as st

from tempo_coach.core.disc_piles import Pile, Stock, mass_kg
from tempo_coach.core.discs import POWERLIFTING, DiscSet, parse_discs
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.loading import Rack
from tempo_coach.core.mass import Mass, parse_mass


def rack_of(discs: DiscSet | str = POWERLIFTING, bar: str = "20 kg", collars: str = "0 kg") -> Rack:
    return Rack(
        parse_mass(bar),
        parse_mass(collars),
        parse_discs(discs) if isinstance(discs, str) else discs,
    )


def disc_texts(pile: Pile) -> str:
    """Return such as ``25+15``."""
    return "+".join(disc.number for disc in pile)


_KINDS = (
    # Of these many sums can be had in several ways.
    st.builds(Mass, st.sampled_from([Decimal(kg) for kg in (20, 15, 10, 5)]), st.just(LoadUnit.KG)),
    # And of these hardly any.
    st.builds(
        Mass, st.decimals("0.1", "30", places=1), st.sampled_from((LoadUnit.KG, LoadUnit.LB))
    ),
)


@st.composite
def small_disc_sets(draw: st.DrawFn, *, most_sizes: int = 4, most_pairs: int = 3) -> DiscSet:
    """Return a set of which every pile can be tried."""
    sizes = draw(st.sampled_from(_KINDS))
    masses = draw(st.lists(sizes, min_size=1, max_size=most_sizes, unique=True))
    counts = draw(
        st.lists(st.integers(2, 2 * most_pairs + 1), min_size=len(masses), max_size=len(masses))
    )
    ordered = sorted(zip(masses, counts, strict=True), key=lambda one: one[0].kg, reverse=True)
    return DiscSet(tuple(ordered))


def every_pile(stock: Stock) -> Iterator[Pile]:
    """Yield every choice of discs, the heaviest first."""
    for many in product(*(range(most + 1) for _, most in stock)):
        yield tuple(
            disc for (disc, _), count in zip(stock, many, strict=True) for _ in range(count)
        )


def fewest_moves(stock: Stock, before: Pile, target_kg: Decimal) -> tuple[int, int] | None:
    """Take off and put on one disc after another, in every order, until the target is there.

    Returns
    -------
    tuple of int, or None
        The moves, and the fewest discs that are on the side after as many; None where no order of
        moves leads there.
    """
    seen = {before}
    reached = [before]
    moves = 0
    while reached:
        there = [len(pile) for pile in reached if mass_kg(pile) == target_kg]
        if there:
            return moves, min(there)
        reached = [
            pile for one in reached for pile in _after_one_move(stock, one) if pile not in seen
        ]
        reached = list(dict.fromkeys(reached))
        seen.update(reached)
        moves += 1
    return None


def _after_one_move(stock: Stock, pile: Pile) -> Iterator[Pile]:
    if pile:
        yield pile[:-1]
    on = Counter(pile)
    for disc, most in stock:
        if on[disc] < most:
            yield (*pile, disc)
