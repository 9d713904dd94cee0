from __future__ import annotations

from decimal import Decimal

import pytest

from tempo_coach.core.bar_words import kg_words, pile_words, set_words, side_words
from tempo_coach.core.load import KG_PER_LB, LoadUnit, parse_load
from tempo_coach.core.loading import LoadedBar
from tempo_coach.core.mass import parse_mass
from tempo_coach.core.set_bar import bar_after, set_bar
from tests.tempo_coach.core.racks import rack_of

RACK = rack_of()


@pytest.mark.parametrize(
    ("kg", "unit", "words"),
    [
        (Decimal("57.50"), LoadUnit.KG, "57.5 kg"),
        (185 * KG_PER_LB, LoadUnit.LB, "185 lb"),
        (Decimal("77.5"), LoadUnit.LB, "77.5 kg (about 170.86 lb)"),
        (185 * KG_PER_LB, LoadUnit.KG, "185 lb (about 83.91 kg)"),
        (20 + 45 * KG_PER_LB, LoadUnit.KG, "about 40.41 kg"),
    ],
)
def test_a_mass_is_said_exactly_in_one_unit_or_about(
    kg: Decimal, unit: LoadUnit, words: str
) -> None:
    assert kg_words(kg, unit) == words


@pytest.mark.parametrize(
    ("discs", "words"),
    [
        ((), "no discs"),
        (("25 kg",), "25 kg"),
        (("25 kg", "25 kg", "2.5 kg"), "25 + 25 + 2.5 kg"),
        (("25 kg", "25 kg", "25 kg", "5 kg"), "3 x 25 + 5 kg"),
        (("45 lb", "10 kg"), "45 lb + 10 kg"),
    ],
)
def test_a_pile_is_said_from_the_inside_out(discs: tuple[str, ...], words: str) -> None:
    assert pile_words(tuple(map(parse_mass, discs))) == words


def test_a_bar_without_discs_is_empty() -> None:
    assert side_words(LoadedBar(RACK, ())) == "the empty bar"


@pytest.mark.parametrize(
    ("before", "load", "words"),
    [
        (None, "100 kg", "25 + 15 kg a side"),
        ("100 kg", "100 kg", "25 + 15 kg a side; the bar stays as it is"),
        ("100 kg", "105 kg", "25 + 15 + 2.5 kg a side; put on 2.5 kg a side"),
        ("100 kg", "70 kg", "25 kg a side; take off 15 kg a side"),
        ("100 kg", "90 kg", "25 + 10 kg a side; take off 15 kg, put on 10 kg a side"),
        (
            None,
            "131.25 kg",
            "131.25 kg can't be loaded: 130 kg is 25 + 25 + 5 kg a side, "
            "132.5 kg is 25 + 25 + 5 + 1.25 kg a side",
        ),
        (
            None,
            "1000 kg",
            "1000 kg can't be loaded: 950 kg is "
            "10 x 25 + 4 x 20 + 4 x 15 + 4 x 10 + 4 x 5 + 4 x 2.5 + 4 x 1.25 kg a side",
        ),
    ],
)
def test_a_set_s_bar_is_said_with_what_changes(before: str | None, load: str, words: str) -> None:
    stood = None
    if before is not None:
        stood = bar_after(RACK, exercise="squat", load=parse_load(before), before=None)

    found = set_bar(RACK, exercise="squat", load=parse_load(load), before=stood)

    assert found is not None
    assert set_words(found) == words
