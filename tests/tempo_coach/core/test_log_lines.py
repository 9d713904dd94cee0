from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.facts import Fact, SetDone, line_of
from tempo_coach.core.log_lines import Unread, read_line
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.done_sets import done_set
from tests.tempo_coach.core.harmless import is_harmless

WHOLE = line_of(done_set())[:-1]


def line(**changes: Any) -> bytes:
    return json.dumps(json.loads(WHOLE) | changes).encode()


@given(strategies.facts)
def test_a_line_that_was_written_reads_as_its_fact(fact: Fact) -> None:
    assert read_line(line_of(fact)[:-1]) == fact


@pytest.mark.parametrize(
    ("bad", "why"),
    [
        (b"", "not JSON"),
        (b"{", "not JSON"),
        (WHOLE[:-1], "not JSON"),
        (b"\x00\x01\xff\xfe", "not JSON"),
        (b'{"note":"\xff"}', "not JSON"),
        (b"[" * 100_000, "not JSON"),
        (b"[1]", "not a JSON object"),
        (b'"set_done"', "not a JSON object"),
        (b"null", "not a JSON object"),
        (b'{"a":' * 300 + b"1" + b"}" * 300, "not JSON as this program writes it"),
        (b"\xef\xbb\xbf" + WHOLE, "not JSON as this program writes it"),
        (line(note="\ud800"), "not JSON as this program writes it"),
        (b"{}", "kind: Unable to extract tag"),
        (line(kind=None), "kind: "),
        (line(kind=["set_done"]), "kind: "),
        (line(v=0), "v: Input should be greater than or equal to 1"),
        (line(v=None), "v: Input should be a valid integer"),
        (line(load_kg=float("nan")), "load_kg: Input should be a finite number"),
        (line(reps_done="5"), "reps_done: Input should be a valid integer"),
        (line(started_at="2026-03-02T18:04:05"), "started_at: not a time as RFC 3339 writes it"),
        (
            line(started_at="2026-02-30T18:04:05+01:00"),
            "started_at: there is no 2026-02-30T18:04:05+01:00",
        ),
        (
            line(started_at="2026-03-02T25:04:05+01:00"),
            "started_at: there is no 2026-03-02T25:04:05+01:00",
        ),
        (line(tempo="4-X-1-1"), "tempo: column 3: the pause can't be X"),
        (line(seconds={"lower": 1, "pause": 1, "raise": 1}), "seconds.top: Field required"),
        (line(planet="Mars"), "planet: Extra inputs are not permitted"),
        (b'{"v":1,"kind":"set_struck","id":"5c2e"}', "at: Field required"),
    ],
)
def test_a_bad_line_says_why(bad: bytes, why: str) -> None:
    read = read_line(bad)
    assert isinstance(read, Unread)
    assert read.why.startswith(why)
    assert not read.foreign


@pytest.mark.parametrize(
    ("foreign", "why"),
    [
        (line(v=3), "version 3 is newer than this program knows; kept"),
        (line(v=2, kind="set_planned"), "version 2 is newer than this program knows; kept"),
        (b'{"v":7}', "version 7 is newer than this program knows; kept"),
        (line(kind="set_planned"), "the kind 'set_planned' is not known to this program; kept"),
        (b'{"kind":"\\u001b[2J"}', "the kind '\\x1b[2J' is not known to this program; kept"),
    ],
)
def test_a_newer_version_or_an_unknown_kind_is_no_fault(foreign: bytes, why: str) -> None:
    assert read_line(foreign) == Unread(why, foreign=True)


def test_a_key_can_not_send_controls_to_the_terminal_or_fill_it() -> None:
    read = read_line(line(**{"\x1b[2J" + "a" * 5000: 1}))
    assert isinstance(read, Unread)
    assert is_harmless(read.why)
    assert len(read.why) < 200


_json = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | strategies.any_text,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(strategies.any_text, inner),
    max_leaves=5,
)


@given(st.binary() | strategies.any_text.map(lambda text: text.encode(errors="replace")))
def test_any_bytes_are_read_or_skipped_with_a_harmless_reason(garbage: bytes) -> None:
    read = read_line(garbage)
    assert isinstance(read, Unread)
    assert is_harmless(read.why)


@given(st.sampled_from(sorted(json.loads(WHOLE))) | strategies.any_text, _json)
def test_a_set_with_any_value_in_any_place_is_read_or_skipped(key: str, value: Any) -> None:
    read = read_line(line(**{key: value}))
    assert isinstance(read, SetDone) or is_harmless(getattr(read, "why", "\0"))
