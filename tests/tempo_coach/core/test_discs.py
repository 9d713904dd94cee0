from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given

from tempo_coach.core.discs import (
    DISC_SETS,
    IWF,
    MOST_SIZES,
    POUNDS,
    POWERLIFTING,
    DiscColour,
    DiscSet,
    parse_discs,
)
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core.racks import small_disc_sets


def sizes(discs: DiscSet) -> list[str]:
    return [str(disc) for disc, _ in discs.counts]


def test_the_sizes_are_those_of_the_federations() -> None:
    # Rules of the International Weightlifting Federation: discs of 25 to
    # 0.5 kg. Powerlifting: discs down to 1.25 kg.
    assert sizes(IWF) == [
        f"{kg} kg" for kg in ("25", "20", "15", "10", "5", "2.5", "2", "1.5", "1", "0.5")
    ]
    assert sizes(POWERLIFTING) == [
        f"{kg} kg" for kg in ("25", "20", "15", "10", "5", "2.5", "1.25")
    ]
    # Common practice, no source.
    assert sizes(POUNDS) == [f"{lb} lb" for lb in ("45", "35", "25", "10", "5", "2.5")]


def test_the_colours_are_those_of_the_weightlifting_rules_and_no_others_are_made_up() -> None:
    # Rules of the International Weightlifting Federation.
    red, blue, yellow, green, white = DiscColour
    colours = [IWF.colour(disc) for disc, _ in IWF.counts]

    assert colours == [red, blue, yellow, green, white, red, blue, yellow, green, white]
    for other in (POWERLIFTING, POUNDS, parse_discs("25x2 20x2")):
        assert {other.colour(disc) for disc, _ in other.counts} == {None}


@pytest.mark.parametrize("name", DISC_SETS)
def test_a_named_set_has_ten_pairs_of_the_heaviest_and_four_of_each_other(name: str) -> None:
    discs = parse_discs(name.upper())

    assert str(discs) == name
    assert [many for _, many in discs.pairs] == [10] + [4] * (len(discs.counts) - 1)


@given(small_disc_sets())
def test_a_list_that_is_written_out_reads_as_the_same(discs: DiscSet) -> None:
    assert parse_discs(str(discs)) == discs


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("20x4 15x2 10x4 5x4 2.5x4 1.25x2", "20x4 15x2 10x4 5x4 2.5x4 1.25x2"),
        (" 10X4,  20 kg x 4 , 45lb×2", "45lbx2 20x4 10x4"),
        ("2.50x2 45 LB x3", "45lbx3 2.5x2"),
    ],
)
def test_a_list_may_be_written_in_several_ways(text: str, written: str) -> None:
    assert str(parse_discs(text)) == written


def test_an_odd_disc_is_kept_and_not_loaded() -> None:
    discs = parse_discs("20x3 10x1 5x2")

    assert str(discs) == "20x3 10x1 5x2"
    assert [(disc.number, many) for disc, many in discs.pairs] == [("20", 1), ("5", 1)]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "no discs are given; iwf, powerlifting"),
        ("powrlifting", "'powrlifting' is no set of discs; the nearest is 'powerlifting'"),
        ("20x4 10y4", "'10y4' is no size with its count; iwf, powerlifting"),
        ("20x4;10x4", "'20x4;10x4' is no size with its count"),
        ("20x4 20.0x2", "discs of 20 kg stand there twice; give them once"),
        ("0x4", "a disc of 0 kg is not possible; above 0 and at most 50 kg"),
        ("51x4", "a disc of 51 kg is not possible; above 0 and at most 50 kg"),
        ("20x0", "0 discs of 20 kg are not possible; 1 to 40, counting single discs"),
        ("20x41", "41 discs of 20 kg are not possible; 1 to 40, counting single discs"),
        ("20x1 10x1", "no two discs are alike; a bar is loaded in pairs"),
        ("-20x4", "'-20x4' is no size with its count"),
        ("\x1b[2Jx4", r"'\x1b[2Jx4' is no size with its count"),
    ],
)
def test_what_is_no_list_is_refused_with_what_is_allowed(text: str, said: str) -> None:
    with pytest.raises(OutOfRange) as refusal:
        parse_discs(text)

    assert str(refusal.value).startswith(said)


def test_more_sizes_than_a_search_can_take_are_refused() -> None:
    many = " ".join(f"{size}x2" for size in range(1, MOST_SIZES + 2))

    with pytest.raises(OutOfRange, match=f"discs of {MOST_SIZES + 1} sizes are too many"):
        parse_discs(many)


def test_more_sums_than_a_search_can_take_are_refused() -> None:
    # Each weighed to the gram, so that hardly two sums are alike.
    weighed = "20.013x20 15.007x20 10.003x20 5.017x20 2.531x20"

    with pytest.raises(OutOfRange, match="make more than 50000 different sums a side"):
        parse_discs(weighed)


def test_what_is_on_the_bar_is_not_left_beside_it() -> None:
    discs = parse_discs("20x4 10x2")
    twenty = discs.counts[0][0]

    left = discs.without((twenty,))

    assert twenty.kg == Decimal(20)
    assert [(disc.number, many) for disc, many in left] == [("20", 1), ("10", 1)]
