from __future__ import annotations

from decimal import Decimal
from itertools import count

import pytest

from tempo_coach.core.facts import SetCorrected, SetDone
from tempo_coach.core.history import History, fold
from tempo_coach.core.ledger import Ledger
from tempo_coach.core.load_span import span_of
from tempo_coach.core.reserve_facts import AttemptMade
from tempo_coach.core.reserve_keeper import ReserveKeeper
from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.core.settings import Settings
from tests.tempo_coach.core.done_sets import done_set, seconds
from tests.tempo_coach.fakes import HandClock, MemoryLog, disk_full

RACK = Settings().rack


class Room:
    """A log with what begins tests and answers attempts."""

    def __init__(self) -> None:
        self.clock = HandClock()
        self.log = MemoryLog()
        numbers = count(1)
        self.keeper = ReserveKeeper(
            Ledger(self.log, rescue=MemoryLog()),
            clock=self.clock,
            new_id=lambda: f"fact-{next(numbers)}",
        )

    def begin(self) -> ReserveTest:
        test, fault = self.keeper.begin(
            span_of(100.0), lifter="Jonne Tarval", exercise="bench press", rack=RACK
        )
        assert fault is None
        return test

    def do(self, load_kg: float) -> SetDone:
        done = done_set(id=f"set-{load_kg:g}", load_kg=load_kg, seconds=seconds(lower=5))
        self.log.append(done)
        return done

    def history(self) -> History:
        return fold(fact for fact in self.log.facts)


def test_a_test_begins_with_the_last_load_that_there_is_as_its_ceiling() -> None:
    room = Room()
    test = room.begin()
    assert room.log.facts == [test.begun]
    assert (test.begun.max_kg, test.begun.step_kg, test.begun.ceiling_kg) == (100, 5, 130)


def test_what_is_answered_is_what_the_log_says_afterwards() -> None:
    room = Room()
    test = room.begin()
    test, _ = room.keeper.answer(test, room.do(100), said=True, lowered_s=None)
    room.clock.advance(300_000)
    test, _ = room.keeper.answer(test, room.do(105), said=False, lowered_s=None)

    assert room.history().reserve_tests.tests == (test,)
    assert (test.held_kg, test.lost_kg) == (100, 105)


def test_another_answer_about_a_set_takes_the_place_of_the_first_even_in_the_same_moment() -> None:
    room = Room()
    test, done = room.begin(), room.do(100)
    test, _ = room.keeper.answer(test, done, said=False, lowered_s=None)
    test, _ = room.keeper.answer(test, done, said=True, lowered_s=None)

    assert room.history().reserve_tests.tests == (test,)
    assert [one.held for one in test.attempts] == [True]


@pytest.mark.parametrize("said", [True, False])
def test_measured_seconds_take_the_place_of_the_paced_ones(said: bool) -> None:
    room = Room()
    room.keeper.answer(room.begin(), room.do(100), said=said, lowered_s=2.3)

    (done,) = room.history().sets
    assert (done.seconds.lower, done.seconds.top) == (2.3, 0)


def test_an_answer_without_seconds_corrects_nothing() -> None:
    room = Room()
    room.keeper.answer(room.begin(), room.do(100), said=False, lowered_s=None)
    room.keeper.answer(room.begin(), room.do(105), said=True, lowered_s=5.0)

    assert not any(isinstance(fact, SetCorrected) for fact in room.log.facts)


def test_measured_seconds_that_are_taken_back_leave_the_paced_ones() -> None:
    room = Room()
    test, done = room.begin(), room.do(100)
    test, _ = room.keeper.answer(test, done, said=True, lowered_s=4.8)
    test, _ = room.keeper.answer(test, done, said=True, lowered_s=4.9)
    assert room.history().sets[0].seconds.lower == 4.9
    room.keeper.answer(test, done, said=True, lowered_s=None)

    assert room.history().sets[0].seconds.lower == 5


def test_a_load_that_could_not_be_lifted_out_is_lost_without_a_set() -> None:
    room = Room()
    test, _ = room.keeper.lose(room.begin(), Decimal(100))
    assert (test.lost_kg, test.attempts[0].set) == (100, None)


def test_a_full_disk_is_told_and_loses_nothing() -> None:
    room = Room()
    test, done = room.begin(), room.do(100)
    room.log.fault = disk_full()
    test, fault = room.keeper.answer(test, done, said=True, lowered_s=4.8)
    room.log.fault = None
    test, after = room.keeper.lose(test, Decimal(105))

    assert fault is not None
    assert after is None
    assert sum(isinstance(fact, AttemptMade) for fact in room.log.facts) == 2
    assert room.history().sets[0].seconds.lower == 4.8
