from __future__ import annotations

from datetime import UTC, datetime, timedelta
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.facts import Fact, MaxStruck, MaxTested, line_of
from tempo_coach.core.history import fold
from tempo_coach.core.legible import name_key
from tempo_coach.core.recorded_maxes import RecordedMaxes, fold_maxes
from tempo_coach.errors import UnknownMax
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.done_sets import done_set, max_tested
from tests.tempo_coach.core.text_logs import log_of, merge_of

AT = datetime.fromisoformat("2026-11-20T17:30:00+01:00")
STRUCK = MaxStruck(id="7d20", at=AT)
max_lists = st.lists(strategies.max_facts, max_size=8)


def lines(maxes: RecordedMaxes) -> list[bytes]:
    return [line_of(one) for one in maxes.tested]


# What a fold is, for any facts.


@given(max_lists, max_lists, st.randoms(use_true_random=False))
@strategies.WHOLE_LOGS
def test_order_repetition_and_grouping_make_no_difference(
    one: list[MaxTested | MaxStruck], other: list[MaxTested | MaxStruck], random: Random
) -> None:
    shuffled = [*one, *other, *one]
    random.shuffle(shuffled)
    assert fold_maxes(shuffled) == fold_maxes(one + other)
    assert lines(fold_maxes(shuffled)) == lines(fold_maxes(one + other))


@given(max_lists)
def test_every_id_ends_up_in_one_place(facts: list[MaxTested | MaxStruck]) -> None:
    maxes = fold_maxes(facts)
    counting = {one.id for one in maxes.tested}
    assert counting | maxes.struck | set(maxes.orphaned) == {fact.id for fact in facts}
    assert not counting & maxes.struck
    assert not (counting | maxes.struck) & set(maxes.orphaned)


@given(st.lists(strategies.facts | strategies.max_facts, max_size=8))
@strategies.WHOLE_LOGS
def test_sets_and_maxes_of_one_log_leave_each_other_alone(facts: list[Fact]) -> None:
    maxes = [fact for fact in facts if isinstance(fact, MaxTested | MaxStruck)]
    others = [fact for fact in facts if not isinstance(fact, MaxTested | MaxStruck)]
    assert fold(facts).maxes == fold_maxes(maxes)
    assert fold(facts).sets == fold(others).sets
    assert fold(facts).orphaned == fold(others).orphaned


@given(
    st.lists(strategies.facts | strategies.max_facts, max_size=6),
    st.lists(strategies.facts | strategies.max_facts, max_size=6),
)
@strategies.WHOLE_LOGS
def test_merging_logs_says_what_folding_says(one: list[Fact], other: list[Fact]) -> None:
    merged, folded = merge_of(log_of(one), log_of(other)).maxes, fold(one + other).maxes
    assert (merged.struck, merged.disagreeing, merged.orphaned) == (
        folded.struck,
        folded.disagreeing,
        folded.orphaned,
    )
    assert [(one.id, one.at, one.load_kg, name_key(one.lifter)) for one in merged.tested] == [
        (one.id, one.at, one.load_kg, name_key(one.lifter)) for one in folded.tested
    ]


# What it says of single facts.


def test_a_struck_max_no_longer_counts_whichever_was_read_first() -> None:
    orders: tuple[list[MaxTested | MaxStruck], ...] = (
        [max_tested(), STRUCK],
        [STRUCK, max_tested()],
    )
    for facts in orders:
        maxes = fold_maxes(facts)
        assert maxes.tested == ()
        assert maxes.struck == {"7d20"}


def test_the_strike_of_a_set_strikes_no_max() -> None:
    history = fold([max_tested(id="5c2e"), done_set(), MaxStruck(id="5c2e", at=AT)])
    assert [done.id for done in history.sets] == ["5c2e"]
    assert history.maxes.struck == {"5c2e"}


def test_different_maxes_under_one_id_are_reported_and_the_one_tested_later_counts() -> None:
    early, late = max_tested(load_kg=95.0), max_tested(at=AT + timedelta(days=1))
    maxes = fold_maxes([late, early, late])
    assert maxes.tested == (late,)
    assert maxes.disagreeing == ("7d20",)


def test_one_moment_in_two_local_dates_is_a_disagreement_and_the_order_does_not_decide() -> None:
    midnight = datetime.fromisoformat("2026-11-20T00:30:00+01:00")
    here = max_tested(at=midnight)
    there = max_tested(at=midnight.astimezone(UTC))
    dates = {fold_maxes(both).tested[0].at.date() for both in ([here, there], [there, here])}
    assert len(dates) == 1
    assert fold_maxes([here, there]).disagreeing == ("7d20",)


def test_the_strike_of_a_max_that_is_not_there_is_named() -> None:
    assert fold_maxes([STRUCK]).orphaned == ("7d20",)


def test_merged_maxes_have_their_names_as_the_sets_have_them_else_as_last_written() -> None:
    facts: list[Fact] = [
        done_set(lifter="Ansa VIREO"),
        max_tested(id="a", lifter="ansa vireo", exercise="Front Squat"),
        max_tested(id="b", lifter="oda falk", exercise="Row"),
        max_tested(id="c", lifter="Oda Falk", exercise="row", at=AT + timedelta(days=1)),
    ]
    merged = merge_of(log_of(facts))
    assert [(one.id, one.lifter, one.exercise) for one in merged.maxes.tested] == [
        ("a", "Ansa VIREO", "front squat"),
        ("b", "Oda Falk", "row"),
        ("c", "Oda Falk", "row"),
    ]
    assert (merged.rows.lifters, merged.skipped) == (("Ansa VIREO",), ())


# Lifters and ids.


def test_maxes_are_found_under_any_spelling_of_lifter_and_exercise() -> None:
    mine, other = max_tested(), max_tested(id="b", lifter="Oda Falk")
    maxes = fold_maxes([mine, other, max_tested(id="c", exercise="row")])
    assert maxes.of("ANSA vireo", "Front SQUAT") == (mine,)


def test_a_max_is_found_by_the_beginning_of_its_id() -> None:
    maxes = fold_maxes([max_tested(id="7d"), max_tested(id="7d20"), max_tested(id="80")])
    assert (maxes.find("8").id, maxes.find("7d").id) == ("80", "7d")


@pytest.mark.parametrize(
    ("max_id", "message"),
    [
        ("7", "2 maxes have an id that begins with '7'"),
        ("x\x1b", "no max has the id 'x\\x1b'"),
        ("", "no max has the id ''"),
        ("gone", "the max 'gone' is struck"),
    ],
)
def test_an_id_that_names_no_single_max_is_refused(max_id: str, message: str) -> None:
    maxes = fold_maxes(
        [
            max_tested(id="7d20"),
            max_tested(id="7e"),
            max_tested(id="gone"),
            MaxStruck(id="gone", at=AT),
        ]
    )
    with pytest.raises(UnknownMax) as caught:
        maxes.find(max_id)
    assert caught.value.message == message
    assert caught.value.max_id == max_id
    assert "lists the ids" in caught.value.hint
