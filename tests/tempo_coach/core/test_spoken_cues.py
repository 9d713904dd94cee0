from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given

from sounds_gen.voice.words import PHRASES, Spoken, number, word
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.settings import CountDirection
from tempo_coach.core.spoken_cues import rep_numbers, spoken_cues
from tempo_coach.core.timeline import Timeline
from tests.tempo_coach.core.strategies import timelines

NAMES: Mapping[int, str] = {id(word(name)): name for name in PHRASES} | {
    id(number(value)): str(value) for value in range(1, 101)
}


def name_of(spoken: Spoken) -> str:
    return NAMES[id(spoken)]


def said(line: str, *, count: CountDirection = "up") -> list[tuple[int, str]]:
    timeline = Timeline.of(parse_prescription(line), setup_ms=3000)
    return [(at_ms, name_of(spoken)) for at_ms, spoken in spoken_cues(timeline, count=count)]


def test_each_phase_begins_with_its_name_and_then_its_seconds() -> None:
    assert said("squat 1x2 4-1-X-1")[:10] == [
        (0, "3"), (1000, "2"), (2000, "1"),
        (3000, "lower"), (4000, "2"), (5000, "3"), (6000, "4"),
        (7000, "pause"), (8000, "raise"),
        (9000, "1"),
    ]  # fmt: skip


def test_the_last_rep_says_so_in_place_of_its_first_phase_and_ends_with_rack_it() -> None:
    last = said("squat 1x2 4-1-X-1")[10:]
    assert last[0] == (10_000, "last rep")
    assert last[-2:] == [(16_000, "2"), (17_000, "rack it")]


@pytest.mark.parametrize(
    ("line", "counted"),
    [
        ("squat 1x2 4-0-0-0", ["4", "3", "2", "1"]),
        ("squat 1x2 2.5-0-0-0", ["3", "2", "1"]),
    ],
)
def test_counting_down_ends_with_one(line: str, counted: list[str]) -> None:
    lower = [name for at_ms, name in said(line, count="down") if at_ms > 3000][: len(counted) - 1]
    assert lower == counted[1:]


@pytest.mark.parametrize(
    ("line", "at_ms"),
    [
        ("squat 1x2 4-1-X-1", 6000),  # with the top, in place of its name
        ("curl 1x2 2-0-2-3", 3000),  # a long top keeps its name
        ("squat 1x2 4-1-X-0", 5550),  # as the bar comes to the top
        ("squat 1x2 0.5-0-0.5-0", 500),  # in place of a short raise's name
        ("nordic curl 1x2 5-0-0-0", 0),  # as it begins at the top
    ],
)
def test_the_rep_s_number_comes_with_the_top(line: str, at_ms: int) -> None:
    timeline = Timeline.of(parse_prescription(line), setup_ms=3000)
    numbers = [(at, name_of(spoken)) for at, spoken in rep_numbers(timeline)]
    assert numbers == [(3000 + at_ms, "1"), (3000 + at_ms + timeline.rep_ms, "2")]


def test_a_second_that_falls_together_with_the_number_gives_way_to_it() -> None:
    curl = said("curl 1x2 0-0-2.6-0")
    assert (5000, "3") not in curl
    assert (5150, "1") in curl


@given(timelines)
def test_nothing_is_said_twice_at_once_and_each_rep_has_its_number(timeline: Timeline) -> None:
    moments = [at_ms for at_ms, _ in spoken_cues(timeline, count="up")]
    assert moments == sorted(set(moments))
    assert 0 <= moments[0] <= moments[-1] <= timeline.length_ms
    assert [name_of(spoken) for _, spoken in rep_numbers(timeline)] == [
        str(rep) for rep in range(1, timeline.reps + 1)
    ]


def test_the_side_whose_turn_it_is_is_said_in_place_of_its_first_phase() -> None:
    heard = said("split squat 1x3 2-0-1-0 sides alternating")
    names = [name for _, name in heard if name in ("left", "right", "last rep", "lower")]
    assert names == ["left", "right", "last rep"]
