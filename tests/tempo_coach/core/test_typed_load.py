from __future__ import annotations

import pytest

from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.core.typed_load import read_typed_load
from tempo_coach.errors import OutOfRange


def typed(text: str, before: str | None, unit: LoadUnit = LoadUnit.KG) -> Load:
    return read_typed_load(text, before=parse_load(before) if before else None, unit=unit)


@pytest.mark.parametrize(
    ("text", "before", "load"),
    [
        ("82.5", "80 kg", "82.5 kg"),
        (" 82.5 ", None, "82.5 kg"),
        ("180", "175 lb", "180 lb"),
        ("12.5", "bw+10 kg", "bw+12.5 kg"),
        ("82.5", "72%", "82.5 kg"),
        ("180 lb", "80 kg", "180 lb"),
        ("bw+10 kg", "80 kg", "bw+10 kg"),
        ("70%", "80 kg", "70%"),
    ],
)
def test_a_number_is_counted_as_the_load_before_it(
    text: str, before: str | None, load: str
) -> None:
    assert str(typed(text, before)) == load


def test_a_number_that_nothing_else_says_the_unit_of_takes_the_given_one() -> None:
    assert str(typed("180", "72%", LoadUnit.LB)) == "180 lb"
    assert str(typed("180", None, LoadUnit.LB)) == "180 lb"


@pytest.mark.parametrize("text", ["", "heavy", "82,5", "-5", "0", "9999"])
def test_what_is_no_load_is_refused(text: str) -> None:
    with pytest.raises(OutOfRange):
        typed(text, "80 kg")
