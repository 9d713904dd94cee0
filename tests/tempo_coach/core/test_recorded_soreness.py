from __future__ import annotations

from datetime import date, datetime
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from tempo_coach.core.facts import FACTS, Fact, line_of
from tempo_coach.core.history import fold
from tempo_coach.core.legible import name_key
from tempo_coach.core.recorded_soreness import fold_soreness
from tempo_coach.core.soreness_facts import SorenessTold
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.text_logs import log_of, merge_of

answers = st.lists(strategies.soreness_facts, max_size=8)


def told(at: str, soreness: Any, **changes: Any) -> SorenessTold:
    fields: dict[str, Any] = {
        "id": f"{at}-{soreness}",
        "at": datetime.fromisoformat(at),
        "lifter": "Ana",
        "soreness": soreness,
    }
    return SorenessTold(**(fields | changes))


@given(answers, answers, st.randoms(use_true_random=False))
@strategies.WHOLE_LOGS
def test_order_repetition_and_grouping_make_no_difference(
    one: list[SorenessTold], other: list[SorenessTold], random: Random
) -> None:
    shuffled = [*one, *other, *one]
    random.shuffle(shuffled)
    found, plain = fold_soreness(shuffled), fold_soreness(one + other)
    assert found == plain
    assert list(map(line_of, found.told)) == list(map(line_of, plain.told))


@given(answers)
def test_each_local_day_of_a_lifter_has_one_answer(facts: list[SorenessTold]) -> None:
    days = [(name_key(one.lifter), one.at.date()) for one in fold_soreness(facts).told]
    assert len(set(days)) == len(days)
    assert set(days) <= {(name_key(one.lifter), one.at.date()) for one in facts}


@given(st.lists(strategies.facts | strategies.soreness_facts, max_size=8))
@strategies.WHOLE_LOGS
def test_one_log_and_merged_ones_say_the_same_and_sets_are_left_alone(facts: list[Fact]) -> None:
    own = [fact for fact in facts if isinstance(fact, SorenessTold)]
    assert fold(facts).soreness == fold_soreness(own)
    assert merge_of(log_of(facts)).soreness == fold_soreness(own)
    assert fold(facts).sets == fold(f for f in facts if not isinstance(f, SorenessTold)).sets


@given(strategies.soreness_facts)
def test_an_answer_is_read_back_as_it_was_written(fact: SorenessTold) -> None:
    assert FACTS.validate_json(line_of(fact)) == fact


def test_the_latest_answer_of_a_local_day_counts() -> None:
    found = fold_soreness(
        [
            told("2026-11-30T19:00:00+01:00", 3),
            told("2026-11-30T07:00:00+01:00", 8),
            told("2026-12-01T07:00:00+01:00", 1, lifter="ana"),
        ]
    )

    assert [one.soreness for one in found.of("ANA")] == [3, 1]
    monday = found.on("Ana", date(2026, 11, 30))
    assert monday is not None
    assert monday.soreness == 3
    assert found.on("Ana", date(2026, 12, 2)) is None
    assert found.on("Bo", date(2026, 11, 30)) is None


def test_one_moment_in_two_places_can_be_of_two_days() -> None:
    west = told("2026-11-30T22:00:00-05:00", 4)
    east = told("2026-12-01T14:00:00+11:00", 6)
    assert west.at == east.at

    found = fold_soreness([east, west])

    assert {one.at.date(): one.soreness for one in found.told} == {
        date(2026, 11, 30): 4,
        date(2026, 12, 1): 6,
    }


def test_an_id_under_which_two_answers_stand_is_named_and_the_later_counts() -> None:
    early = told("2026-11-30T07:00:00+01:00", 2, id="a")
    late = told("2026-11-30T08:00:00+01:00", 7, id="a")

    found = fold_soreness([late, early])

    assert found.disagreeing == ("a",)
    assert found.told == (late,)


@pytest.mark.parametrize("soreness", [-1, 11, 5.5, "5", True])
def test_what_is_no_whole_number_from_0_to_10_is_refused(soreness: object) -> None:
    with pytest.raises(ValidationError):
        told("2026-11-30T07:00:00+01:00", soreness)
