from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from pydantic import ValidationError

from tempo_coach.core.discs import POUNDS, POWERLIFTING, parse_discs
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.loading import Rack
from tempo_coach.core.mass import Mass, parse_mass
from tempo_coach.core.rack_values import read_bar, read_collars, read_releaser
from tempo_coach.core.settings import Settings
from tempo_coach.errors import OutOfRange

NOTHING = parse_mass("0 kg")


def test_without_settings_it_is_a_bar_of_20_kg_with_discs_down_to_1_25() -> None:
    settings = Settings()

    # The men's bar of the International Weightlifting Federation's rules.
    assert settings.rack == Rack(parse_mass("20 kg"), NOTHING, POWERLIFTING)
    assert settings.releaser == NOTHING


def test_a_rack_is_set_by_texts_and_written_back_as_such() -> None:
    texts = {"bar": "45 lb", "collars": "5 kg", "discs": "45lbx8 10x2", "releaser": "1.5 kg"}

    settings = Settings.model_validate(texts)

    assert settings.rack == Rack(
        parse_mass("45 lb"), parse_mass("5 kg"), parse_discs("45lbx8 10x2")
    )
    assert {key: settings.model_dump(mode="json")[key] for key in texts} == texts


def test_a_set_is_named_in_the_settings() -> None:
    assert Settings.model_validate({"discs": "pounds"}).discs == POUNDS


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"bar": "20"}, "'20' is no mass; a number with its unit"),
        ({"bar": 20}, "a text between quotes: a number with its unit"),
        ({"bar": "0 kg"}, "a bar of 0 kg is not possible; 1 to 60 kg"),
        ({"bar": ""}, "'' is no mass"),
        ({"collars": "21 kg"}, "a pair of collars of 21 kg is not possible"),
        ({"releaser": "-1 kg"}, "'-1 kg' is no mass"),
        ({"discs": "20y4"}, "'20y4' is no size with its count"),
        ({"discs": 4}, "a text between quotes: such as powerlifting"),
    ],
)
def test_a_bad_value_is_refused_at_the_door(given: dict[str, Any], said: str) -> None:
    with pytest.raises(ValidationError) as refusal:
        Settings.model_validate(given)

    assert said in refusal.value.errors()[0]["msg"]


@pytest.mark.parametrize("read", [read_bar, read_collars, read_releaser])
def test_a_bare_number_is_in_the_unit_that_is_given(read: Callable[..., Mass]) -> None:
    assert read("10", unit=LoadUnit.LB) == parse_mass("10 lb")
    with pytest.raises(OutOfRange):
        read("10")
