from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.clauses import parse_shape
from tempo_coach.core.facts import Changes, Fact, SetCorrected, SetDone, SetStruck, line_of
from tempo_coach.core.history import History, fold
from tempo_coach.errors import UnknownSet
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.done_sets import MONDAY, done_set, seconds

LATER = MONDAY + timedelta(minutes=2)

fact_lists = st.lists(strategies.facts, max_size=8)


def corrected(set_id: str = "5c2e", at: datetime = LATER, **changes: object) -> SetCorrected:
    given = Changes.model_validate(changes)
    return SetCorrected(v=given.version, id=set_id, at=at, changes=given)


def lines(history: History) -> list[bytes]:
    """Return the sets to the last byte; as values, times with different offsets can be equal."""
    return [line_of(done) for done in history.sets]


# What a fold is, for any facts.


@given(fact_lists, st.randoms(use_true_random=False))
@strategies.WHOLE_LOGS
def test_the_order_of_the_facts_makes_no_difference(facts: list[Fact], random: Random) -> None:
    shuffled = list(facts)
    random.shuffle(shuffled)
    assert fold(shuffled) == fold(facts)
    assert lines(fold(shuffled)) == lines(fold(facts))


@given(fact_lists)
@strategies.WHOLE_LOGS
def test_the_same_facts_twice_make_no_difference(facts: list[Fact]) -> None:
    assert fold(facts + facts) == fold(facts)


@given(fact_lists, fact_lists, fact_lists)
@strategies.WHOLE_LOGS
def test_logs_can_be_merged_in_any_grouping_and_order(
    one: list[Fact], two: list[Fact], three: list[Fact]
) -> None:
    merged = fold(one + two + three)
    assert fold(three + (two + one)) == merged
    assert fold(two + (one + three) + one) == merged


@given(fact_lists, strategies.strikes, fact_lists)
@strategies.WHOLE_LOGS
def test_a_struck_set_stays_struck(
    before: list[Fact], strike: SetStruck, after: list[Fact]
) -> None:
    history = fold([*before, strike, *after])
    assert strike.id not in {done.id for done in history.sets}
    assert (strike.id in history.struck) != (strike.id in history.orphaned)


@given(fact_lists)
@strategies.WHOLE_LOGS
def test_every_id_ends_up_in_one_place(facts: list[Fact]) -> None:
    history = fold(facts)
    counting = {done.id for done in history.sets}
    assert counting | history.struck | set(history.orphaned) == {fact.id for fact in facts}
    assert not counting & history.struck
    assert not (counting | history.struck) & set(history.orphaned)


# What it says of single facts.


def test_nothing_folds_to_nothing() -> None:
    history = fold([])
    assert (history.sets, history.struck, history.orphaned) == ((), frozenset(), ())


def test_sets_come_in_the_order_they_were_done() -> None:
    first = done_set(id="b", started_at=MONDAY)
    second = done_set(id="a", started_at=MONDAY + timedelta(hours=1))
    assert fold([second, first]).sets == (first, second)


def test_a_correction_puts_its_values_in_place_and_leaves_the_rest() -> None:
    history = fold([done_set(), corrected(reps_done=4, seconds=seconds(lower=16), effort=None)])
    assert history.sets == (done_set(reps_done=4, seconds=seconds(lower=16), effort=None),)
    assert history.corrected == {"5c2e": LATER}


def test_the_later_correction_of_a_field_counts_whichever_was_written_first() -> None:
    later = corrected(at=LATER + timedelta(seconds=1), reps_done=3, note="bar slipped")
    earlier = corrected(at=LATER, reps_done=4, effort=9.0)
    expected = done_set(reps_done=3, note="bar slipped", effort=9.0)
    assert fold([done_set(), later, earlier]).sets == (expected,)


def test_later_means_the_moment_and_not_the_local_time() -> None:
    east = datetime(2026, 3, 2, 19, 0, tzinfo=timezone(timedelta(hours=5)))
    west = datetime(2026, 3, 2, 15, 0, tzinfo=UTC)
    history = fold([done_set(), corrected(at=west, reps_done=3), corrected(at=east, reps_done=4)])
    assert history.sets[0].reps_done == 3


def test_two_corrections_of_one_moment_give_one_set_whichever_was_written_first() -> None:
    one, other = corrected(note="bar slipped"), corrected(note="left side")
    notes = {fold([done_set(), *both]).sets[0].note for both in ([one, other], [other, one])}
    assert len(notes) == 1


def test_a_struck_set_no_longer_counts_even_if_corrected_later() -> None:
    struck = SetStruck(id="5c2e", at=LATER)
    later = corrected(at=LATER + timedelta(days=1), reps_done=3)
    history = fold([done_set(), struck, later])
    assert history.sets == ()
    assert history.struck == {"5c2e"}


def test_different_sets_under_one_id_are_reported_and_the_one_that_ended_later_counts() -> None:
    early = done_set(reps_done=4)
    late = done_set(ended_at=MONDAY + timedelta(minutes=1))
    history = fold([late, early, late])
    assert history.sets == (late,)
    assert history.disagreeing == ("5c2e",)


def test_the_same_set_in_two_logs_is_no_disagreement() -> None:
    history = fold([done_set(), done_set()])
    assert history.sets == (done_set(),)
    assert history.disagreeing == ()


def test_one_moment_in_two_local_dates_is_a_disagreement_and_the_order_does_not_decide() -> None:
    # Half past midnight on Monday here is still Sunday there, which is another week.
    monday = datetime(2026, 3, 2, 0, 30, tzinfo=timezone(timedelta(hours=1)))
    here = done_set(started_at=monday)
    there = done_set(started_at=monday.astimezone(UTC))
    dates = {fold(order).sets[0].started_at.date() for order in ([here, there], [there, here])}
    assert len(dates) == 1
    assert fold([here, there]).disagreeing == ("5c2e",)


def test_facts_about_a_set_that_is_not_there_are_named() -> None:
    history = fold([corrected("nine", reps_done=1), SetStruck(id="eight", at=LATER)])
    assert history.orphaned == ("eight", "nine")
    assert history.corrected == {}


# Lifters and ids.


def test_a_lifter_is_found_under_any_spelling_of_the_name() -> None:
    hers = done_set(id="a", lifter="Jos\u00e9 Lind")
    other = done_set(id="b", lifter="Oda Falk")
    assert fold([hers, other]).of("JOSE\u0301 LIND") == (hers,)


def test_lifters_are_named_once_as_last_written_in_alphabetical_order() -> None:
    sets = [
        done_set(id="a", lifter="oda falk"),
        done_set(id="b", lifter="Ansa Vireo", started_at=MONDAY + timedelta(hours=1)),
        done_set(id="c", lifter="Oda Falk", started_at=MONDAY + timedelta(hours=2)),
    ]
    assert fold(sets).lifters() == ("Ansa Vireo", "Oda Falk")


def test_what_was_lowered_is_corrected_only_where_the_shape_lowers_another_load() -> None:
    releasers = done_set(v=2, shape=parse_shape("lower @ 130 kg"), lower_load_kg=130.0)
    for done, kg in ((releasers, 125.0), (done_set(), None)):
        (now,) = fold([done, corrected(lower_load_kg=125.0)]).sets
        assert now.lower_load_kg == kg
        assert line_of(now) == line_of(SetDone.model_validate(now))


def test_a_set_is_found_by_the_beginning_of_its_id() -> None:
    one, other = done_set(id="5c2e"), done_set(id="5d00")
    history = fold([one, other])
    assert history.find("5c") == one
    assert history.find("5d00") == other


def test_a_whole_id_is_found_even_if_it_begins_another() -> None:
    short, long = done_set(id="5c"), done_set(id="5c2e")
    assert fold([short, long]).find("5c") == short


@pytest.mark.parametrize(
    ("set_id", "message"),
    [
        ("5", "2 sets have an id that begins with '5'"),
        ("7a", "no set has the id '7a'"),
        ("", "no set has the id ''"),
        ("gone", "the set 'gone' is struck"),
        ("\x1b[2J", "no set has the id '\\x1b[2J'"),
    ],
)
def test_an_id_that_names_no_single_set_is_refused(set_id: str, message: str) -> None:
    history = fold(
        [
            done_set(id="5c2e"),
            done_set(id="5d00"),
            done_set(id="gone"),
            SetStruck(id="gone", at=LATER),
        ]
    )
    with pytest.raises(UnknownSet) as caught:
        history.find(set_id)
    assert caught.value.message == message
    assert caught.value.set_id == set_id
    assert "lists the ids" in caught.value.hint
