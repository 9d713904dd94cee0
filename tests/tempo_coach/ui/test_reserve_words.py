from __future__ import annotations

from decimal import Decimal

import pytest

from tempo_coach.core.load import LoadUnit
from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.ui.reserve_stage import Question
from tempo_coach.ui.reserve_words import ahead_sentence, count_words, load_help, question_sentence
from tests.tempo_coach.core.done_sets import done_set
from tests.tempo_coach.core.reserve_tests import attempt_made, reserve_begun

BEGUN = ReserveTest(reserve_begun())
HALFWAY = ReserveTest(reserve_begun(), (attempt_made(0, 100, held=True),))
KG = Decimal("107.5")


@pytest.mark.parametrize(
    ("said", "lowered_s", "words"),
    [
        (None, None, "107.5 kg: held under control for 5 s, or lost? H or L."),
        (True, None, "107.5 kg held: Enter or Page Down logs it."),
        (True, 4.5, "107.5 kg held: Enter or Page Down logs it."),
        (False, 5.0, "107.5 kg lost: Enter or Page Down logs it."),
        (
            True,
            4.4,
            "4.4 s is less than 4.5 s: this counts as lost. "
            "107.5 kg lost: Enter or Page Down logs it.",
        ),
    ],
)
def test_the_question_says_what_would_be_logged(
    said: bool | None, lowered_s: float | None, words: str
) -> None:
    question = Question(KG, done_set(), said_held=said)
    assert question_sentence(question, lowered_s=lowered_s, lower_s=5.0) == words


def test_the_attempt_ahead_is_told_before_and_after_the_rest() -> None:
    rested = ahead_sentence(HALFWAY, KG, setup_ms=10_000, rests=False)
    assert rested.startswith("Attempt 2: 107.5 kg, 107.5 % of the 1RM. Space or Page Down starts")
    assert rested.endswith("begins 10 s later.")
    resting = ahead_sentence(HALFWAY, KG, setup_ms=10_000, rests=True)
    assert resting.startswith("Rest · next: attempt 2")


def test_a_question_asked_again_is_about_the_attempt_before() -> None:
    assert count_words(HALFWAY, None) == "attempt 2"
    again = Question(KG, done_set(), is_asked_again=True)
    assert count_words(HALFWAY, again) == "attempt 1"


def test_the_help_names_the_bound_of_the_next_load() -> None:
    assert "At most the 1RM, to begin with." in load_help(BEGUN, LoadUnit.KG)
    assert "At most 10% of the 1RM above the 100 kg" in load_help(HALFWAY, LoadUnit.LB)
