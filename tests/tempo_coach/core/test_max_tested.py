from __future__ import annotations

import json
from datetime import datetime
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from pydantic import ValidationError

from tempo_coach.core.facts import FACTS, KINDS, Fact, MaxStruck, facts_schema, line_of
from tempo_coach.core.log_lines import Unread, read_line
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.done_sets import max_tested

SCHEMA = jsonschema.Draft202012Validator(facts_schema())
AT = datetime.fromisoformat("2026-11-20T18:00:00+01:00")


def line(**changes: Any) -> bytes:
    fields: dict[str, Any] = json.loads(line_of(max_tested()))
    return json.dumps(fields | changes).encode()


def test_a_max_is_written_as_one_line_with_these_keys_in_this_order() -> None:
    assert line_of(max_tested(what="lowered", load_kg=102.5, lower_s=3.0, note="pins")) == (
        b'{"v":1,"kind":"max_tested","id":"7d20","lifter":"Ansa Vireo",'
        b'"at":"2026-11-20T17:30:00+01:00","exercise":"front squat","what":"lowered",'
        b'"load_kg":102.5,"load_as_written":"102.5 kg","lower_s":3.0,"note":"pins"}\n'
    )


def test_a_strike_is_written_with_its_reason() -> None:
    assert line_of(MaxStruck(id="7d20", at=AT, why="slip")) == (
        b'{"v":1,"kind":"max_struck","id":"7d20","at":"2026-11-20T18:00:00+01:00","why":"slip"}\n'
    )


@given(strategies.max_facts)
def test_any_max_reads_as_itself_and_is_what_the_json_schema_says(fact: Fact) -> None:
    written = line_of(fact)
    assert read_line(written.rstrip(b"\n")) == fact
    assert list(SCHEMA.iter_errors(json.loads(written))) == []


@pytest.mark.parametrize(
    "changes",
    [
        {"what": "held"},
        {"load_kg": 0},
        {"load_kg": 600.5},
        {"load_kg": None},
        {"load_kg": "90"},
        {"lower_s": -1},
        {"lower_s": 60.5},
        {"lower_s": float("nan")},
        {"at": "2026-11-20T17:30:00"},
        {"lifter": ""},
        {"effort": 9},
        {"what": "lowered", "lower_s": None},
        {"what": "lowered", "lower_s": 0},
    ],
)
def test_a_max_that_makes_no_sense_is_refused_and_not_foreign(changes: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        FACTS.validate_json(line(**changes))
    read = read_line(line(**changes))
    assert isinstance(read, Unread)
    assert not read.foreign


def test_every_kind_of_fact_is_known_as_one() -> None:
    assert set(facts_schema()["discriminator"]["mapping"]) == set(KINDS)
