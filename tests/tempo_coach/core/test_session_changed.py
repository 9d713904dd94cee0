from __future__ import annotations

import json
from datetime import date, datetime, timedelta
from random import Random
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from tempo_coach.core.facts import FACTS, Fact, line_of
from tempo_coach.core.history import fold
from tempo_coach.core.load import parse_load
from tempo_coach.core.log_lines import read_line
from tempo_coach.core.session_facts import SessionChanged
from tests.tempo_coach.core import strategies

AT = datetime.fromisoformat("2026-11-30T18:20:00+01:00")
SCHEMA = jsonschema.Draft202012Validator(FACTS.json_schema())


def changed(set_id: str = "c1", **fields: Any) -> SessionChanged:
    """Return a skipped first item; the fields take the place of its own."""
    given: dict[str, Any] = {
        "id": set_id,
        "at": AT,
        "lifter": "Mirela Oude",
        "plan": "Winter block",
        "date": date(2026, 11, 30),
        "item": 1,
        "change": "skipped",
    }
    if "change" not in fields:
        given["why"] = "knee"
    return SessionChanged(**(given | fields))


_changes = st.sampled_from(
    (
        {"change": "skipped", "why": ""},
        {"change": "skipped", "why": "sore\nknee"},
        {"change": "added_set"},
        {"change": "swapped", "exercise": "goblet squat"},
        {"change": "load_changed", "load": parse_load("bw+2.5 kg")},
        {"change": "moved", "to": 3},
    )
)
session_changes = st.builds(
    lambda set_id, at, item, change: changed(set_id, at=at, item=item, **change),
    strategies.ids,
    strategies.times,
    st.integers(1, 4),
    _changes,
)


def test_a_change_is_one_line_with_what_it_needs_and_nothing_else() -> None:
    assert line_of(changed()) == (
        b'{"v":1,"kind":"session_changed","id":"c1","at":"2026-11-30T18:20:00+01:00",'
        b'"lifter":"Mirela Oude","plan":"Winter block","date":"2026-11-30","item":1,'
        b'"change":"skipped","why":"knee"}\n'
    )
    load = changed(change="load_changed", load=parse_load("70 kg"))
    assert line_of(load).endswith(b'"change":"load_changed","load":"70 kg"}\n')


@given(session_changes)
def test_any_change_reads_as_itself_and_is_what_the_schema_says(change: SessionChanged) -> None:
    line = line_of(change)
    assert read_line(line[:-1]) == change
    SCHEMA.validate(json.loads(line))


@pytest.mark.parametrize(
    "fields",
    [
        {"change": "skipped"},
        {"change": "skipped", "why": "knee", "to": 2},
        {"change": "added_set", "why": "knee"},
        {"change": "swapped", "exercise": ""},
        {"change": "load_changed", "load": "heavy"},
        {"change": "load_changed", "load": 70},
        {"change": "moved", "to": 0},
        {"change": "struck"},
        {"item": 0},
        {"date": "2026-11-31"},
        {"date": "20261130"},
        {"date": datetime(2026, 11, 30)},  # noqa: DTZ001 - no date, whatever its offset
        {"v": 2},
    ],
)
def test_a_change_without_what_it_needs_or_with_more_is_refused(fields: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        changed(**fields)


@given(st.lists(session_changes | strategies.facts, max_size=8), st.randoms(use_true_random=False))
def test_the_order_and_number_of_the_facts_make_no_difference(
    facts: list[Fact], random: Random
) -> None:
    shuffled = facts + facts
    random.shuffle(shuffled)
    assert fold(shuffled) == fold(facts)


def test_changes_come_in_the_order_of_time_and_the_later_of_one_id_counts() -> None:
    first, second = changed("a"), changed("b", at=AT - timedelta(hours=1))
    assert fold([first, second]).changes == (second, first)
    later = changed("a", at=AT + timedelta(hours=1), why="back")
    assert fold([later, first]).changes == fold([first, later]).changes == (later,)
