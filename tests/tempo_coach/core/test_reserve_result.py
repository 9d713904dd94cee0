from __future__ import annotations

import pytest

from tempo_coach.core.method_sources import PRACTICE
from tempo_coach.core.reserve_facts import AttemptMade
from tempo_coach.core.reserve_result import attempt_words, next_weeks, result_data, result_rows
from tempo_coach.core.reserve_test import ReserveTest
from tests.tempo_coach.core.reserve_tests import attempt_made, reserve_begun


def ended(*loads: float) -> ReserveTest:
    """Return a test that held all loads but the last."""
    made = [attempt_made(at, kg, held=True) for at, kg in enumerate(loads[:-1])]
    lost = attempt_made(len(loads), loads[-1], held=False)
    return ReserveTest(reserve_begun(), (*made, lost))


def row(test: ReserveTest, label: str) -> str:
    return " | ".join(words for name, words in result_rows(test) if name == label)


def test_ratio_percent_kilograms_and_gap_are_told_against_the_target() -> None:
    test = ended(100, 105, 110)
    assert row(test, "reserve") == "105 ÷ 100 kg = 1.050: +5.0 % of the 1RM, +5.0 kg"
    assert row(test, "target") == f"1.10 to 1.20, 110.0 to 120.0 kg ({PRACTICE}): 5.0 kg below it"
    assert row(test, "between") == "105 kg held and 110 kg lost"


@pytest.mark.parametrize(("held_kg", "against"), [(115, ": within it"), (125, ": 5.0 kg above it")])
def test_within_and_above_the_target_are_told(held_kg: float, against: str) -> None:
    assert row(ended(held_kg, held_kg + 5), "target").endswith(against)


def test_lost_at_the_first_load_tells_what_is_known() -> None:
    assert row(ended(97.5), "reserve") == "none at this lower: below 97.5 % of the 1RM, 97.5 kg"


def test_a_test_that_was_left_says_so_and_advises_nothing() -> None:
    test = ReserveTest(reserve_begun(), (attempt_made(0, 100, held=True),))
    assert row(test, "ended") == "it was left before a load was lost"
    assert next_weeks(test) == ()


@pytest.mark.parametrize(
    ("test", "names_overload"),
    [
        (ended(100), False),
        (ended(95, 100), False),
        (ended(100, 105), True),
        (ended(115, 120), True),
    ],
)
def test_overload_is_named_only_for_who_holds_the_1rm_and_with_clearance(
    test: ReserveTest, names_overload: bool
) -> None:
    said = " ".join(next_weeks(test))
    assert PRACTICE in said
    assert ("If the coach clears it" in said) is names_overload
    assert ("130%" in said) is names_overload


def test_above_the_target_the_lift_is_what_can_gain() -> None:
    (said,) = next_weeks(ended(125, 130))
    assert "heavy raises" in said


@pytest.mark.parametrize(
    ("made", "words"),
    [
        (attempt_made(0, 105, held=True, lowered_s=4.8), "105 kg held, lowered in 4.8 s"),
        (attempt_made(0, 105, held=False), "105 kg lost, its seconds as paced"),
        (attempt_made(0, 105, held=False, set=None), "105 kg lost, nothing was lifted"),
    ],
)
def test_an_attempt_is_told_in_words(made: AttemptMade, words: str) -> None:
    assert attempt_words(made) == words


def test_the_data_has_units_in_its_keys() -> None:
    data = result_data(ended(110, 115))
    assert (data["ended"], data["held_kg"], data["lost_kg"]) == ("lost", 110, 115)
    assert data["reserve"]["ratio"] == 1.1
    assert data["attempts"][1] == {
        "load_kg": 115, "held": False, "lowered_s": None, "set": "set-2",
    }  # fmt: skip
