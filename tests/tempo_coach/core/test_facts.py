from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from pydantic import ValidationError

from tempo_coach.core.clauses import parse_shape
from tempo_coach.core.facts import (
    FACTS,
    Changes,
    Fact,
    SetCorrected,
    SetDone,
    SetStruck,
    facts_schema,
    line_of,
)
from tempo_coach.core.phase_seconds import PhaseSeconds
from tempo_coach.core.tempo import Speed, Tempo, parse_tempo
from tempo_coach.core.work import PhaseTimes
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.done_sets import MONDAY, done_set, seconds

GOLDEN = Path(__file__).with_name("set_done.jsonl")
SCHEMA = jsonschema.Draft202012Validator(facts_schema())
LATER = MONDAY + timedelta(minutes=2)


def fields() -> dict[str, Any]:
    read: dict[str, Any] = json.loads(GOLDEN.read_bytes())
    return read


def line(**changes: Any) -> str:
    return json.dumps(fields() | changes)


def test_a_set_is_written_as_one_line_with_these_keys_in_this_order() -> None:
    assert line_of(done_set()) == GOLDEN.read_bytes()


def test_the_golden_line_reads_as_the_set() -> None:
    read = FACTS.validate_json(GOLDEN.read_bytes())
    assert read == done_set()
    assert isinstance(read, SetDone)
    assert read.tempo == Tempo(4000, 1000, Speed.FAST, 1000)
    assert read.started_at.utcoffset() == timedelta(hours=1)


def test_a_correction_writes_only_what_it_changes() -> None:
    fact = SetCorrected(id="5c2e", at=LATER, changes=Changes(reps_done=4, effort=None))
    assert line_of(fact) == (
        b'{"v":1,"kind":"set_corrected","id":"5c2e","at":"2026-03-02T18:06:05.250000+01:00",'
        b'"changes":{"reps_done":4,"effort":null}}\n'
    )


def test_a_strike_is_written_with_its_reason() -> None:
    assert line_of(SetStruck(id="5c2e", at=LATER, why="wrong bar")) == (
        b'{"v":1,"kind":"set_struck","id":"5c2e","at":"2026-03-02T18:06:05.250000+01:00",'
        b'"why":"wrong bar"}\n'
    )


@given(strategies.facts)
def test_any_fact_is_one_line_of_utf_8_and_reads_as_itself(fact: Fact) -> None:
    written = line_of(fact)
    assert written.endswith(b"\n")
    assert b"\n" not in written[:-1]
    written.decode("utf-8", errors="strict")
    assert FACTS.validate_json(written) == fact
    assert line_of(FACTS.validate_json(written)) == written


@given(strategies.facts)
def test_any_fact_is_what_the_json_schema_says(fact: Fact) -> None:
    assert list(SCHEMA.iter_errors(json.loads(line_of(fact)))) == []


def test_the_json_schema_is_one() -> None:
    SCHEMA.check_schema(SCHEMA.schema)


@pytest.mark.parametrize(
    "changes",
    [
        {"v": 3},
        {"kind": "set_planned"},
        {"lead": "pause"},
        {"reps_done": "5"},
        {"load_kg": 0},
        {"effort": 10.5},
        {"seconds": {"lower": 20, "pause": 5, "top": 5}},
        {"planet": "Mars"},
    ],
)
def test_the_json_schema_refuses_what_the_program_refuses(changes: dict[str, Any]) -> None:
    assert not SCHEMA.is_valid(fields() | changes)
    with pytest.raises(ValidationError):
        FACTS.validate_json(line(**changes))


@pytest.mark.parametrize(
    "changes",
    [
        {"v": "1"},
        {"v": True},
        {"v": 1.0},
        {"load_kg": float("nan")},
        {"load_kg": float("inf")},
        {"load_kg": "80"},
        {"load_kg": True},
        {"load_kg": -80},
        {"reps_done": "5"},
        {"reps_done": 5.0},
        {"reps_done": True},
        {"reps_done": -1},
        {"reps_done": None},
        {"reps_prescribed": 0},
        {"effort": 7.3},
        {"effort": 0.5},
        {"lifter": ""},
        {"lifter": 7},
        {"exercise": "a" * 81},
        {"tempo": "4-X-1-1"},
        {"tempo": 4111},
        {"tempo": None},
        {"timing": "guessed"},
        {"note": None},
        {"seconds": {"lower": -0.001, "pause": 5, "raise": 5, "top": 5}},
        {"seconds": {"lower": float("nan"), "pause": 5, "raise": 5, "top": 5}},
        {"seconds": {"lower": "20", "pause": 5, "raise": 5, "top": 5}},
        {"seconds": {"lower": 20, "pause": 5, "raise_": 5, "top": 5}},
        {"seconds": [20, 5, 5, 5]},
        {"Lifter": "Ansa Vireo"},
    ],
)
def test_a_value_of_another_kind_or_size_is_refused(changes: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        FACTS.validate_json(line(**changes))


@pytest.mark.parametrize("key", [key for key in fields() if key not in ("v", "kind")])
def test_a_set_without_one_of_its_keys_is_refused(key: str) -> None:
    kept = {name: value for name, value in fields().items() if name != key}
    with pytest.raises(ValidationError, match=key):
        FACTS.validate_json(json.dumps(kept))


@pytest.mark.parametrize(
    "time",
    [
        "2026-03-02T18:04:05",
        "2026-03-02 18:04:05+01:00",
        "2026-03-02",
        "2026-13-02T18:04:05Z",
        "2026-W10-1T18:04:05Z",
        "20260302T180405Z",
        "２026-03-02T18:04:05Z",
        1_772_471_045,
        1_772_471_045.25,
        "1772471045",
        None,
        True,
    ],
)
def test_a_time_that_is_not_rfc_3339_with_an_offset_is_refused(time: object) -> None:
    with pytest.raises(ValidationError, match="started_at"):
        FACTS.validate_json(line(started_at=time))


@pytest.mark.parametrize(
    ("time", "in_utc"),
    [
        # RFC 3339, section 5.8: these two name the same moment.
        ("1996-12-19T16:39:57-08:00", "1996-12-20T00:39:57+00:00"),
        ("1996-12-20T00:39:57Z", "1996-12-20T00:39:57+00:00"),
        # RFC 3339, section 5.6: T and Z may be lower case.
        ("1985-04-12t23:20:50.52z", "1985-04-12T23:20:50.520000+00:00"),
    ],
)
def test_a_time_as_rfc_3339_writes_it_is_read(time: str, in_utc: str) -> None:
    read = FACTS.validate_json(line(started_at=time))
    assert isinstance(read, SetDone)
    assert read.started_at.astimezone(UTC).isoformat() == in_utc


def test_a_naive_time_is_refused_in_code_too() -> None:
    with pytest.raises(ValidationError, match="offset"):
        done_set(started_at=datetime(2026, 3, 2))  # noqa: DTZ001 - it lacks its offset on purpose


def test_a_fact_can_not_be_changed() -> None:
    with pytest.raises(ValidationError, match="frozen"):
        done_set().reps_done = 6  # type: ignore[misc] # refused at run time too


def test_seconds_keep_every_millisecond() -> None:
    times = PhaseTimes(20_001, 5_999, 333, 600_000)
    assert PhaseSeconds.of(times).times() == times


def test_ten_hours_of_a_phase_are_the_most() -> None:
    assert seconds(lower=36_000).lower == 36_000
    with pytest.raises(OutOfRange, match=r"36000\.001 s in one phase are not possible"):
        seconds(lower=36_000.001)


def test_a_correction_changes_at_least_one_thing() -> None:
    with pytest.raises(ValidationError, match="at least one thing"):
        Changes()


def test_a_correction_of_what_was_lowered_is_of_version_2_and_no_other_is() -> None:
    lowered, reps = Changes(lower_load_kg=130.0), Changes(reps_done=4)
    assert (lowered.version, reps.version) == (2, 1)
    for version, changes in ((1, lowered), (2, reps)):
        with pytest.raises(ValidationError, match="these changes are of version"):
            SetCorrected(v=version, id="5c2e", at=LATER, changes=changes)


@pytest.mark.parametrize(
    "name", ["exercise", "load_as_written", "lower_load_kg", "reps_done", "seconds", "note"]
)
def test_only_load_and_effort_can_be_emptied(name: str) -> None:
    with pytest.raises(ValidationError, match=f"{name} can't be emptied"):
        Changes.model_validate({name: None})
    assert Changes(load_kg=None, effort=None).given() == {"load_kg": None, "effort": None}


# The shape of a rep.


def shaped(shape: str, **changes: Any) -> SetDone:
    return done_set(v=2, shape=parse_shape(shape), **changes)


def test_a_set_with_a_shape_is_of_version_2_and_reads_as_itself() -> None:
    done = shaped("lower @ 105%", lower_load_kg=100.0)

    assert b'"v":2' in line_of(done)
    assert b'"shape":"lower @ 105%","lower_load_kg":100.0' in line_of(done)
    assert FACTS.validate_json(line_of(done)) == done


def test_a_set_without_a_shape_is_written_as_it_ever_was() -> None:
    assert b'"v":1' in line_of(done_set())
    assert b"shape" not in line_of(done_set())


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({"v": 2}, "version 2 and the shape '' don't go together"),
        ({"shape": "lowering only"}, "version 1 and the shape 'lowering only' don't go together"),
        ({"v": 2, "shape": "lowering only", "lower_load_kg": 90.0}, "without a lower load"),
        ({"v": 2, "shape": "upside down"}, "'upside' is not understood"),
        ({"v": 2, "shape": 3}, "a text such as lowering only"),
    ],
)
def test_a_shape_that_does_not_fit_is_refused(changes: dict[str, Any], why: str) -> None:
    with pytest.raises(ValidationError, match=why):
        FACTS.validate_json(line(**changes))


def test_what_is_lowered_counts_over_the_time_of_lowering() -> None:
    # 5 reps of 4 s: 120 kg for the first 4 s of 20, 80 kg for the rest.
    first = shaped("first lower @ 120 kg", lower_load_kg=120.0)

    assert first.mean_lower_kg == pytest.approx(88)
    assert shaped("lower @ 120 kg", lower_load_kg=120.0).mean_lower_kg == 120
    assert shaped("lower @ 120%").mean_lower_kg is None
    assert shaped("first lower @ 120 kg", load_kg=None, lower_load_kg=120.0).mean_lower_kg is None
    assert shaped("lowering only").mean_lower_kg == 80


def test_without_a_prescribed_length_the_reps_share_the_time_evenly() -> None:
    own_speed = shaped("first lower @ 120 kg", lower_load_kg=120.0, tempo=parse_tempo("V-0-X-0"))

    assert own_speed.mean_lower_kg == pytest.approx(88)


def test_a_first_rep_that_was_not_lowered_at_all_has_the_load_itself() -> None:
    none = shaped("first lower @ 120 kg", lower_load_kg=120.0, reps_done=0, seconds=seconds())

    assert none.mean_lower_kg == 80
