from __future__ import annotations

from tempo_coach.core.facts import Fact
from tempo_coach.core.next_sets import NextSet, sets_ahead
from tests.tempo_coach.core.test_session import chin_up, session, squat
from tests.tempo_coach.core.test_session_changed import changed


def ahead(*facts: Fact, first: int | None = None) -> list[tuple[str, int]]:
    sets = sets_ahead(session(*facts), first=first)
    return [(one.prescription.exercise, one.number) for one in sets]


def test_a_fresh_day_begins_with_the_first_set_of_each_item_in_order() -> None:
    assert ahead() == [("front squat", 1), ("chin-up", 1)]


def test_the_chosen_item_comes_first_and_the_others_follow() -> None:
    assert ahead(squat(1), first=2) == [("chin-up", 1), ("front squat", 2)]


def test_items_that_are_done_or_skipped_have_nothing_ahead() -> None:
    assert ahead(*(chin_up(number) for number in (1, 2, 3)), first=2) == [("front squat", 1)]
    assert ahead(changed(why="knee")) == [("chin-up", 1)]


def test_what_is_ahead_has_the_load_that_goes_on_the_bar() -> None:
    first = sets_ahead(session())[0]

    assert first == NextSet(session().items[0].prescription, load_kg=65.0)
    assert str(first.prescription.load) == "65 kg"
