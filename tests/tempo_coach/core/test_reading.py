from __future__ import annotations

import pytest

from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.reading import cue_words, headline, spell_out
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.timeline import Timeline


def read(line: str, *, allowances: Allowances | None = None) -> tuple[str, ...]:
    prescription = parse_prescription(line)
    return spell_out(prescription, Timeline.of(prescription, allowances=allowances))


def test_a_line_is_spelt_out_with_its_rep_its_length_and_its_rest() -> None:
    assert read("front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00") == (
        "front squat: 4 sets of 5 reps with 80 kg, lower first.",
        "A rep: lower 4 s, pause at the bottom 1 s, raise as fast as possible, "
        "stay at the top 1 s.",
        "A set: about 35 s of lifting, about 7 s a rep; lowering 20 s, tension about 35 s.",
        "Rest 3:00 between sets.",
        "'About': X as 1 s, counted by allowance.",
    )


def test_a_tempo_of_seconds_alone_is_not_about_anything() -> None:
    assert read("chin-up 1x1 3-0-2.5-0 rest 90") == (
        "chin-up: 1 set of 1 rep, raise first.",
        "A rep: raise 2.5 s, lower 3 s.",
        "A set: 5.5 s of lifting, 5.5 s a rep; lowering 3 s, tension 5.5 s.",
    )


def test_lowering_at_the_lifters_own_speed_is_about_too() -> None:
    sentences = read("squat 1x10 V-0-A-0", allowances=Allowances(own_ms=2500, assisted_ms=4000))
    assert sentences[1] == ("A rep: lower at your own speed, raise with the spotters' help.")
    assert "lowering about 25 s, tension about 65 s" in sentences[2]
    assert sentences[-1] == "'About': V as 2.5 s and A as 4 s, counted by allowance."


def test_a_speed_that_stands_twice_is_explained_once() -> None:
    assert read("squat 1x5 X-0-X-0")[-1] == "'About': X as 1 s, counted by allowance."


def test_a_set_that_runs_until_stopped_says_how_far_it_can_go() -> None:
    sentences = read("squat 3xmax @ bw 4-0-2-0")
    assert sentences[0] == "squat: 3 sets of as many reps as you choose with bw, lower first."
    assert sentences[2] == "Each rep 6 s, until you stop, at most 100 reps."


@pytest.mark.parametrize(
    ("line", "length"),
    [("squat 1x10 4-0-2-0", "1 min of lifting"), ("squat 1x15 4.1-0-2-0", "1 min 31.5 s of")],
)
def test_a_minute_and_more_is_given_in_minutes(line: str, length: str) -> None:
    assert length in read(line)[2]


def test_controls_in_a_name_are_spelt_out() -> None:
    prescription = parse_prescription("squat\x1b[2J 4x5 @ 80 kg 41X1")
    assert read("squat\x1b[2J 4x5 41X1")[0].startswith("squat\\x1b[2J: 4 sets")
    assert headline(prescription) == "squat\\x1b[2J · 80 kg · 4-1-X-1"


def test_a_headline_leaves_out_a_load_that_is_not_given() -> None:
    assert headline(parse_prescription("dip 4x5 41X1")) == "dip · 4-1-X-1"


def test_each_cue_has_its_words() -> None:
    timeline = Timeline.of(parse_prescription("squat 1x1 2-0-X-0"), setup_ms=3000)
    assert [cue_words(cue) for cue in timeline.cues()] == [
        "ready 3", "ready 2", "ready 1", "lower 2 s", "lower, second 2", "raise X 1 s",
        "end: rack it",
    ]  # fmt: skip
