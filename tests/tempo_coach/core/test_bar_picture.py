from __future__ import annotations

from decimal import Decimal
from itertools import chain

from hypothesis import example, given
from hypothesis import strategies as st

from tempo_coach.core.bar_picture import (
    ASCII_INKS,
    BLOCK_INKS,
    NARROWEST_PICTURE,
    WIDEST_PICTURE,
    Inks,
    bar_picture,
    picture_text,
)
from tempo_coach.core.discs import DISC_SETS, IWF, DiscColour
from tempo_coach.core.loading import LoadedBar, loading
from tempo_coach.core.mass import parse_mass
from tests.tempo_coach.core.racks import rack_of, small_disc_sets


def bar_of(kg: str, **rack: str) -> LoadedBar:
    found = loading(rack_of(**rack), Decimal(kg)).exact
    assert found is not None
    return found


def test_both_sides_are_drawn_with_the_masses_beneath() -> None:
    drawn = bar_picture(bar_of("110", collars="5 kg"), inks=ASCII_INKS)

    assert picture_text(drawn).split("\n") == [
        "            ##          ##",
        "         ## ##          ## ##",
        "      #  ## ##          ## ##  #",
        "===[==#==##=##==========##=##==#==]===",
        "      #  ## ##          ## ##  #",
        "         ## ##          ## ##",
        "            ##          ##",
        "     2.5 15 25          25 15 2.5",
    ]


def test_where_there_is_less_room_one_side_is_drawn() -> None:
    drawn = bar_picture(bar_of("142.5", collars="5 kg"), width=NARROWEST_PICTURE, inks=BLOCK_INKS)

    assert picture_text(drawn).split("\n") == [
        "          ██ ██",
        "          ██ ██",
        "          ██ ██ █  █",
        "━━━━━━━━━━██━██━█━━█━━━█━━━▌━━━",
        "          ██ ██ █  █",
        "          ██ ██",
        "          ██ ██",
        "          25 25 5 2.5 1.25",
    ]


def test_discs_in_two_units_say_which() -> None:
    alike = bar_picture(bar_of("40", discs="45lbx2 10x2"), inks=ASCII_INKS)
    mixed = bar_picture(bar_of("80.8233133", discs="45lbx2 10x2"), inks=ASCII_INKS)

    assert picture_text(alike).split("\n")[-1].split() == ["10", "10"]
    assert picture_text(mixed).split("\n")[-1].split() == ["10kg", "45lb", "45lb", "10kg"]


def test_the_empty_bar_is_a_line() -> None:
    drawn = bar_picture(bar_of("25", collars="5 kg"), inks=ASCII_INKS)

    assert picture_text(drawn) == "===[==========]===\n"


def test_colours_are_those_of_the_discs() -> None:
    rack = rack_of(IWF)
    found = loading(rack, Decimal(100)).exact
    assert found is not None

    parts = list(chain.from_iterable(bar_picture(found, inks=ASCII_INKS)))

    assert {part.colour for part in parts if part.text.strip("#") == ""} == {
        DiscColour.RED, DiscColour.YELLOW,
    }  # fmt: skip
    assert {part.colour for part in parts if "#" not in part.text} == {None}


def bar_of_discs(*kg: str) -> LoadedBar:
    """Return a bar with these discs a side, from the inside out, in just this order."""
    return LoadedBar(rack_of(), tuple(map(parse_mass, (f"{one} kg" for one in kg))))


@st.composite
def bars(draw: st.DrawFn) -> LoadedBar:
    """Return a bar with discs of a set in any order."""
    discs = draw(st.sampled_from(list(DISC_SETS.values())) | small_disc_sets())
    stock = [disc for disc, many in discs.pairs for _ in range(many)]
    side = draw(st.permutations(stock).map(tuple))[: draw(st.integers(0, len(stock)))]
    return LoadedBar(rack_of(discs, collars=draw(st.sampled_from(("0 kg", "5 kg")))), side)


def count_of(label: str) -> int:
    """Return for how many discs a word beneath the picture stands."""
    if label.startswith("+"):
        return int(label)
    count, times, _ = label.partition("x")
    return int(count) if times else int(label != "more")


def test_discs_without_room_are_counted_one_by_one() -> None:
    many = bar_of_discs("1.25", "1.25", "2.5", "1.25", "2.5", "5", "5", "2.5", "5", "5", "1.25")

    rows = picture_text(bar_picture(many, width=NARROWEST_PICTURE, inks=ASCII_INKS)).split("\n")

    assert rows[-1].split() == ["2x1.25", "2.5", "1.25", "+7", "more"]


@given(
    bars(),
    st.integers(NARROWEST_PICTURE, WIDEST_PICTURE),
    st.sampled_from((ASCII_INKS, BLOCK_INKS)),
)
@example(bar_of_discs("20", "15", "15", "20"), NARROWEST_PICTURE, ASCII_INKS)
def test_no_picture_is_wider_than_its_room_and_every_disc_is_named_or_counted(
    bar: LoadedBar, width: int, inks: Inks
) -> None:
    rows = picture_text(bar_picture(bar, width=width, inks=inks)).split("\n")
    labels = rows[-1].split()
    # One side alone begins with ten columns of the grip; the same discs may read both ways there.
    is_whole = len(rows[-1]) - len(rows[-1].lstrip()) < 10
    sides = 2 if is_whole else 1

    assert all(len(row) <= width for row in rows)
    assert len(rows) <= 8
    assert sum(map(count_of, labels)) == sides * len(bar.side)


def test_plain_characters_are_ascii() -> None:
    drawn = bar_picture(bar_of("357.5", collars="5 kg"), inks=ASCII_INKS)

    assert picture_text(drawn).isascii()
