from __future__ import annotations

import pytest

from tempo_coach.core.discs import IWF
from tempo_coach.core.load import parse_load
from tempo_coach.core.set_bar import BarBefore, bar_after, set_bar
from tests.tempo_coach.core.racks import disc_texts, rack_of

RACK = rack_of()


def side_of(load: str, *, exercise: str = "squat", before: BarBefore | None = None) -> str | None:
    found = set_bar(RACK, exercise=exercise, load=parse_load(load), before=before)
    return None if found is None or found.bar is None else disc_texts(found.bar.side)


@pytest.mark.parametrize("load", ["bw", "bw+10 kg", "72%", "12 kg", "19.9 kg", "44 lb"])
def test_nothing_is_said_of_a_load_that_is_not_one_of_a_bar(load: str) -> None:
    assert set_bar(RACK, exercise="squat", load=parse_load(load)) is None


def test_nothing_is_said_without_a_load() -> None:
    assert set_bar(RACK, exercise="squat", load=None) is None


def test_a_load_of_at_least_the_empty_bar_is_loaded() -> None:
    assert side_of("20 kg") == ""
    assert side_of("80 kg") == "25+5"


def test_a_load_that_cant_be_had_has_no_bar_but_neighbours() -> None:
    found = set_bar(RACK, exercise="squat", load=parse_load("81 kg"))

    assert found is not None
    assert found.bar is None
    assert found.loading.below is not None
    assert found.loading.above is not None


def test_from_set_to_set_of_one_exercise_the_bar_is_changed_the_least() -> None:
    at_80 = bar_after(RACK, exercise="Front Squat", load=parse_load("80 kg"), before=None)
    at_100 = bar_after(RACK, exercise="front squat", load=parse_load("100 kg"), before=at_80)

    assert at_100 is not None
    assert disc_texts(at_100.bar.side) == "25+5+10"
    assert side_of("110 kg", exercise="FRONT SQUAT", before=at_100) == "25+5+10+5"


def test_another_exercise_or_another_rack_begins_anew() -> None:
    at_80 = bar_after(RACK, exercise="squat", load=parse_load("80 kg"), before=None)
    elsewhere = bar_after(rack_of(IWF), exercise="squat", load=parse_load("80 kg"), before=None)

    assert side_of("100 kg", exercise="deadlift", before=at_80) == "25+15"
    assert side_of("100 kg", before=elsewhere) == "25+15"


@pytest.mark.parametrize("load", ["bw", "81 kg"])
def test_behind_a_set_whose_bar_is_not_known_none_is(load: str) -> None:
    at_80 = bar_after(RACK, exercise="squat", load=parse_load("80 kg"), before=None)

    assert bar_after(RACK, exercise="squat", load=parse_load(load), before=at_80) is None
