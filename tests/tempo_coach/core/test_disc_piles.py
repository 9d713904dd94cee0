from __future__ import annotations

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from tempo_coach.core.disc_piles import has_more_sums, mass_kg, nearest_piles
from tempo_coach.core.discs import DiscSet
from tempo_coach.core.mass import parse_mass
from tests.tempo_coach.core.racks import every_pile, small_disc_sets


@settings(max_examples=100)
@given(
    small_disc_sets(),
    st.sampled_from([Decimal(kg) for kg in ("-200", "-0.01", "0", "0.01", "200")]),
    st.data(),
)
def test_the_nearest_piles_are_those_that_trying_all_of_them_finds(
    discs: DiscSet, beside_kg: Decimal, data: st.DataObject
) -> None:
    piles = list(every_pile(discs.pairs))
    target_kg = mass_kg(data.draw(st.sampled_from(piles))) + beside_kg
    below = [mass_kg(pile) for pile in piles if mass_kg(pile) <= target_kg]
    above = [mass_kg(pile) for pile in piles if mass_kg(pile) >= target_kg]

    found = nearest_piles(discs.pairs, target_kg)

    assert (None if found[0] is None else mass_kg(found[0])) == max(below, default=None)
    assert (None if found[1] is None else mass_kg(found[1])) == min(above, default=None)


def test_the_lightest_pile_above_may_be_one_heavy_disc() -> None:
    five, twenty = parse_mass("5 kg"), parse_mass("20 kg")

    assert nearest_piles(((twenty, 1), (five, 1)), Decimal("5.01")) == ((five,), (twenty,))


@settings(max_examples=100)
@given(small_disc_sets(), st.data())
def test_of_the_ways_to_one_mass_it_is_the_one_of_fewest_discs_then_the_heaviest_first(
    discs: DiscSet, data: st.DataObject
) -> None:
    piles = list(every_pile(discs.pairs))
    target_kg = mass_kg(data.draw(st.sampled_from(piles)))
    ways = [pile for pile in piles if mass_kg(pile) == target_kg]
    best = min(ways, key=lambda pile: (len(pile), [-disc.kg for disc in pile]))

    assert nearest_piles(discs.pairs, target_kg) == (best, best)


@given(small_disc_sets(), st.integers(0, 60))
def test_sums_are_counted_as_trying_all_of_them_counts(discs: DiscSet, than: int) -> None:
    most_kg = Decimal(40)
    sums = {mass_kg(pile) for pile in every_pile(discs.pairs)}
    counted = len([kg for kg in sums if kg <= most_kg])

    assert has_more_sums(discs.pairs, than=than, most_kg=most_kg) == (counted > than)
