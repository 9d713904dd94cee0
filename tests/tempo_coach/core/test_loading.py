from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tempo_coach.core.disc_piles import mass_kg
from tempo_coach.core.discs import IWF, POUNDS, DiscSet
from tempo_coach.core.load import KG_PER_LB
from tempo_coach.core.loading import (
    LoadedBar,
    Rack,
    least_change,
    loading,
    lowering,
    nearest_loadable,
)
from tempo_coach.core.mass import parse_mass
from tests.tempo_coach.core.racks import (
    disc_texts,
    every_pile,
    fewest_moves,
    rack_of,
    small_disc_sets,
)

MEET = rack_of(collars="5 kg")
"""A powerlifting bar with its collars: 25 kg."""
NOTHING = parse_mass("0 kg")


def exactly(rack: Rack, kg: str) -> LoadedBar:
    found = loading(rack, Decimal(kg)).exact
    assert found is not None
    return found


# Check values.


@pytest.mark.parametrize(
    ("rack", "kg", "side"),
    [
        # Powerlifting, bar with collars 25 kg: 110 kg is 25 + 15 + 2.5 a side. Common practice, no
        # source; and the same sum for 142.5 kg.
        (MEET, "110", "25+15+2.5"),
        (MEET, "142.5", "25+25+5+2.5+1.25"),
        # Rules of the International Weightlifting Federation: bars of 20 and
        # 15 kg, collars of 2.5 kg each.
        (rack_of(IWF, collars="5 kg"), "25", ""),
        (rack_of(IWF, collars="5 kg"), "26", "0.5"),
        (rack_of(IWF, bar="15 kg", collars="5 kg"), "100", "25+15"),
        (rack_of("20x4 15x2 10x4 5x4 2.5x4 1.25x2"), "87.5", "20+10+2.5+1.25"),
    ],
)
def test_a_load_has_its_discs_a_side(rack: Rack, kg: str, side: str) -> None:
    assert disc_texts(exactly(rack, kg).side) == side


def test_pounds_are_loaded_exactly() -> None:
    # A bar of 45 lb with a disc of 45 lb a side is 135 lb: common practice, no source.
    rack = rack_of(POUNDS, bar="45 lb")

    found = loading(rack, 135 * KG_PER_LB)

    assert found.exact is not None
    assert disc_texts(found.exact.side) == "45"
    assert found.exact.kg == Decimal("61.23496995")


def test_a_load_that_cant_be_had_has_its_neighbours() -> None:
    # Lates and others 2022, JSCR 36:1485, bench press 1RM 125.0 kg; lowered at 105 % as in Wagle
    # and others 2018, Sports 6:59: 131.25 kg.
    found = loading(MEET, Decimal("131.25"))

    assert found.exact is None
    assert nearest_loadable(MEET, Decimal("131.25")) == (Decimal(130), Decimal("132.5"))


def test_below_the_bar_and_above_all_discs_there_is_one_neighbour() -> None:
    rack = rack_of("10x2 5x2")

    assert nearest_loadable(rack, Decimal(19)) == (None, Decimal(20))
    assert nearest_loadable(rack, Decimal(60)) == (Decimal(50), None)
    assert nearest_loadable(rack, Decimal(20)) == (Decimal(20), Decimal(20))


def test_a_tenth_has_no_rounding() -> None:
    # Ten times 0.1 is not 1 in binary fractions.
    rack = rack_of("0.1x20", bar="1 kg")

    assert disc_texts(exactly(rack, "3").side) == "+".join(["0.1"] * 10)


# Every way tried.


@settings(max_examples=150)
@given(small_disc_sets(most_sizes=3, most_pairs=2), st.data())
def test_no_order_of_moves_changes_the_bar_with_fewer_discs_moved(
    discs: DiscSet, data: st.DataObject
) -> None:
    rack = rack_of(discs)
    piles = list(every_pile(discs.pairs))
    before = tuple(data.draw(st.permutations(data.draw(st.sampled_from(piles)))))
    side_kg = mass_kg(data.draw(st.sampled_from(piles)))

    change = least_change(LoadedBar(rack, before), rack.empty_kg + 2 * side_kg)

    assert change is not None
    assert change.cost == fewest_moves(discs.pairs, before, side_kg)


@given(small_disc_sets(most_sizes=3, most_pairs=2), st.data())
def test_a_change_is_made_from_the_outside_and_leads_to_the_load(
    discs: DiscSet, data: st.DataObject
) -> None:
    rack = rack_of(discs)
    piles = list(every_pile(discs.pairs))
    before = data.draw(st.sampled_from(piles))
    kg = rack.empty_kg + 2 * mass_kg(data.draw(st.sampled_from(piles)))

    change = least_change(LoadedBar(rack, before), kg)

    assert change is not None
    stack = list(before)
    for disc in change.off:
        assert stack.pop() == disc
    stack.extend(change.on)
    assert change.after == LoadedBar(rack, tuple(stack))
    assert change.after.kg == kg
    assert all(many >= 0 for _, many in discs.without(change.after.side))


# Changes.


def test_a_disc_inside_comes_off_only_behind_those_outside() -> None:
    bar = exactly(MEET, "110")

    change = least_change(bar, Decimal(100))

    # 25 + 15 + 2.5 becomes 25 + 10 + 2.5: the 2.5 goes off and on again.
    assert change is not None
    assert (disc_texts(change.off), disc_texts(change.on)) == ("2.5+15", "10+2.5")
    assert change.moves == 4


def test_of_changes_with_as_many_moves_it_is_the_one_that_leaves_the_fewest_discs() -> None:
    rack = rack_of("20x2 10x4 5x4")

    change = least_change(exactly(rack, "50"), Decimal(80))

    # 10 + 5 becomes 10 + 20, and not 10 + 5 + 10 + 5.
    assert change is not None
    assert (disc_texts(change.after.side), change.moves) == ("10+20", 2)


def test_the_same_load_needs_no_move() -> None:
    bar = exactly(MEET, "142.5")

    change = least_change(bar, bar.kg)

    assert change is not None
    assert (change.moves, change.after) == (0, bar)


def test_there_is_no_change_to_a_load_that_cant_be_had() -> None:
    assert least_change(exactly(MEET, "110"), Decimal("131.25")) is None
    assert least_change(exactly(MEET, "110"), Decimal(20)) is None


# Lowering.


def test_what_hangs_on_the_releasers_comes_from_the_discs_left_over() -> None:
    rack = rack_of("25x4 10x2 5x2")
    raised = exactly(rack, "70")

    found = lowering(raised, Decimal(120), releaser=NOTHING)

    assert disc_texts(raised.side) == "25"
    assert found.exact is not None
    assert disc_texts(found.exact.hung) == "25"
    assert found.exact.kg == 120


def test_the_releasers_own_mass_counts_on_both_sides() -> None:
    found = lowering(exactly(rack_of(), "100"), Decimal(124), releaser=parse_mass("2 kg"))

    assert found.exact is not None
    assert disc_texts(found.exact.hung) == "10"
    assert found.exact.kg == 124


def test_an_overload_that_cant_be_had_has_its_neighbours() -> None:
    # As above: 125.0 kg, lowered at 105 % and raised at 80 %.
    found = lowering(exactly(rack_of(), "100"), Decimal("131.25"), releaser=NOTHING)

    assert found.exact is None
    assert found.below is not None
    assert found.above is not None
    assert (found.below.kg, found.above.kg) == (Decimal(130), Decimal("132.5"))


def test_releasers_may_be_heavier_than_the_difference_and_discs_left_over_lighter() -> None:
    raised = exactly(rack_of("10x2 5x2"), "40")

    heavy = lowering(raised, Decimal(42), releaser=parse_mass("3 kg"))
    light = lowering(raised, Decimal(90), releaser=NOTHING)

    assert heavy.below is None
    assert heavy.above is not None
    assert heavy.above.kg == 46
    assert light.above is None
    assert light.below is not None
    assert light.below.kg == 50
