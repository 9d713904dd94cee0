from __future__ import annotations

import pytest

from tempo_coach.core.nearest import nearest, nearest_of

NAMES = ("front squat", "Überzug", "chin-up")


@pytest.mark.parametrize(
    ("given", "near"),
    [("frontsquat", "front squat"), ("UBERZUG", "Überzug"), ("chinup", "chin-up"), ("row", None)],
)
def test_the_nearest_word_is_found_whatever_its_case(given: str, near: str | None) -> None:
    assert nearest(given, NAMES) == near


def test_where_nothing_is_near_the_hint_lists_what_is_known() -> None:
    assert nearest_of("row", NAMES) == "known are front squat, Überzug, chin-up"
    assert nearest_of("q", [f"n{number}" for number in range(20)]).endswith("n11, and more")


def test_a_hint_shows_no_control_characters() -> None:
    assert nearest_of("a\x1b", ["a\x1bb"]) == r"the nearest is 'a\x1bb'"


def test_where_nothing_is_known_that_is_the_hint() -> None:
    assert nearest_of("row", []) == "none is known yet"
