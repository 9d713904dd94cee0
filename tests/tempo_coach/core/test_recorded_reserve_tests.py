from __future__ import annotations

from datetime import timedelta
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.facts import FACTS, Fact, MaxStruck, SetStruck, line_of
from tempo_coach.core.history import fold
from tempo_coach.core.maxes import known_maxes
from tempo_coach.core.reserve_facts import AttemptMade, ReserveBegun
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.reserve_tests import BEGUN_AT, attempt_made, reserve_begun
from tests.tempo_coach.core.text_logs import log_of, merge_of

HELD = attempt_made(0, 110, held=True)
LOST = attempt_made(1, 115, held=False)
TEST: tuple[Fact, ...] = (reserve_begun(), HELD, LOST)
any_fact = strategies.facts | strategies.max_facts | strategies.reserve_facts
fact_lists = st.lists(any_fact, max_size=8)


@given(fact_lists, st.randoms(use_true_random=False))
def test_order_and_repetition_make_no_difference(facts: list[Fact], random: Random) -> None:
    shuffled = [*facts, *facts]
    random.shuffle(shuffled)
    assert fold(shuffled) == fold(facts)


@given(st.lists(fact_lists, max_size=3))
def test_merged_logs_hold_the_same_tests_and_maxes_as_the_fold(logs: list[list[Fact]]) -> None:
    read = merge_of(*(log_of(facts) for facts in logs))
    whole = fold(fact for facts in logs for fact in facts)
    assert read.reserve_tests == whole.reserve_tests
    assert [one.id for one in read.maxes.tested] == [one.id for one in whole.maxes.tested]


@given(strategies.reserve_facts)
def test_a_fact_survives_its_line(fact: ReserveBegun | AttemptMade) -> None:
    assert FACTS.validate_json(line_of(fact)) == fact


def test_a_finished_test_is_a_lowered_max() -> None:
    maxes = fold(TEST).maxes.of("jonne tarval", "Bench Press")
    (known,) = known_maxes(maxes, exercise="bench press")
    assert (known.what, known.load_kg, known.lower_s) == ("lowered", 110, 5)
    assert known.words == "the log's max, lowered in 5 s, tested 2026-11-25"


def test_a_struck_set_strikes_its_attempt() -> None:
    history = fold([*TEST, SetStruck(id="set-1", at=BEGUN_AT)])
    (test,) = history.reserve_tests.tests
    assert test.attempts == (HELD,)
    assert history.maxes.tested == ()


def test_the_max_of_a_test_is_struck_like_any_other() -> None:
    history = fold([*TEST, MaxStruck(id="e5e5", at=BEGUN_AT)])
    assert (history.maxes.tested, history.maxes.struck) == ((), frozenset({"e5e5"}))
    assert len(history.reserve_tests.tests[0].attempts) == 2


def test_the_latest_answer_about_a_set_counts() -> None:
    again = attempt_made(2, 115, held=True, set="set-1", at=LOST.at + timedelta(milliseconds=1))
    (test,) = fold([again, *TEST]).reserve_tests.tests
    assert test.attempts == (HELD, again)


def test_ids_that_disagree_are_told_and_the_later_fact_counts() -> None:
    other = reserve_begun(at=BEGUN_AT + timedelta(seconds=1), max_kg=102.0)
    tests = fold([other, *TEST]).reserve_tests
    assert (tests.disagreeing, tests.tests[0].begun) == (("e5e5",), other)


def test_attempts_without_their_test_are_told() -> None:
    tests = fold([HELD]).reserve_tests
    assert (tests.tests, tests.orphaned) == ((), ("e5e5",))
