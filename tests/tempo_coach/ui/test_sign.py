from __future__ import annotations

import pytest

from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.running_set import RunningRest, RunningSet
from tempo_coach.core.timeline import Timeline
from tempo_coach.ui.canvas import Ink
from tempo_coach.ui.sign import Sign, clock_text, pacing_sign, ready_sign, rest_sign, since_sign
from tests.tempo_coach.fakes import NOON


def running(line: str, *, zero_ms: int = 0) -> RunningSet:
    prescription = parse_prescription(line)
    timeline = Timeline.of(prescription)
    return RunningSet("id", "Ana", prescription, timeline, zero_ms, NOON)


def shown(line: str, now_ms: int) -> Sign:
    sign = pacing_sign(running(line), now_ms, number=2)
    assert sign is not None
    return sign


LINE = "front squat 4x5 @ 80 kg 4-1-X-1"
OWN = "press 3x2 2-0-V-0 lead lower"
HELP = "bench press 3x2 3-0-A-1"


@pytest.mark.parametrize(
    ("now_ms", "figure"),
    [(0, "10"), (1, "10"), (1000, "9"), (6999, "4"), (7000, "3"), (9999, "1")],
)
def test_before_rep_1_the_seconds_to_go_are_counted_down(now_ms: int, figure: str) -> None:
    sign = shown(LINE, now_ms)

    assert (sign.word, sign.figure, sign.aside) == ("READY", figure, ("SET", "2/4"))
    assert sign.height == 1.0


def test_until_the_sound_begins_the_countdown_waits_at_its_first_second() -> None:
    sign = pacing_sign(running(LINE, zero_ms=320), 0, number=1)

    assert sign is not None
    assert sign.figure == "10"


@pytest.mark.parametrize(
    ("now_ms", "word", "figure", "height", "ink"),
    [
        (10_000, "LOWER", "1", 1.0, Ink.LOWER),
        (11_000, "LOWER", "2", 0.75, Ink.LOWER),
        (13_999, "LOWER", "4", pytest.approx(0.00025), Ink.LOWER),
        (14_000, "PAUSE", "1", 0.0, Ink.PAUSE),
        (15_000, "RAISE", "FAST", 0.0, Ink.RAISE),
        (15_500, "RAISE", "FAST", 0.5, Ink.RAISE),
        (16_000, "TOP", "1", 1.0, Ink.TOP),
    ],
)
def test_each_phase_has_its_word_its_second_and_its_height(
    now_ms: int, word: str, figure: str, height: float, ink: Ink
) -> None:
    sign = shown(LINE, now_ms)

    assert (sign.word, sign.figure, sign.height, sign.ink) == (word, figure, height, ink)
    assert sign.aside == ("REP", "1/5")


def test_speeds_are_named_since_their_seconds_are_an_allowance() -> None:
    assert shown(OWN, 12_500).figure == "OWN SPEED"
    assert shown(HELP, 14_000).figure == "WITH HELP"


def test_the_last_rep_is_told_in_words_from_its_first_phase_on() -> None:
    assert shown(LINE, 10_000 + 4 * 7_000 - 1).aside == ("REP", "4/5")
    assert shown(LINE, 10_000 + 4 * 7_000).aside == ("LAST", "REP", "5/5")


def test_an_open_ended_set_counts_reps_without_an_end() -> None:
    line = "plank row 2xmax 2-0-2-0"

    assert shown(line, 10_000).aside == ("REP", "1")
    assert shown(line, 10_000 + 99 * 4_000).aside == ("REP", "100")


def test_room_is_kept_for_the_most_that_follows_so_that_nothing_changes_its_size() -> None:
    first = shown("squat 1x12 12-1-X-1", 10_000)
    last = shown("squat 1x12 12-1-X-1", 10_000 + 11 * 15_000 + 11_000)

    assert (first.figure, last.figure) == ("1", "12")
    assert first.figure_room == last.figure_room == "00"
    assert first.aside_room == last.aside_room == ("LAST", "REP", "12/12")


def test_a_set_that_is_over_has_no_sign() -> None:
    assert pacing_sign(running(LINE), 45_000, number=1) is None


def test_a_set_waits_with_the_bar_where_a_rep_begins() -> None:
    assert ready_sign(running(LINE).timeline).height == 1.0
    assert ready_sign(running("deadlift 1x5 3-1-X-1").timeline).height == 0.0


def test_a_rest_shows_the_whole_seconds_that_are_left() -> None:
    rest = RunningRest(zero_ms=1_000, rest_ms=90_000)

    figures = [rest_sign(rest, now_ms).figure for now_ms in (1_000, 1_001, 2_000, 90_999, 91_000)]

    assert figures == ["1:30", "1:30", "1:29", "0:01", "0:00"]
    assert rest_sign(rest, 500_000).figure == "0:00"


def test_a_rest_without_an_end_counts_up() -> None:
    assert [since_sign(500, now_ms).figure for now_ms in (0, 1_499, 1_500, 65_500)] == [
        "0:00",
        "0:00",
        "0:01",
        "1:05",
    ]


def test_seconds_read_as_minutes_and_seconds() -> None:
    assert [clock_text(seconds) for seconds in (0, 59, 60, 3_600)] == [
        "0:00",
        "0:59",
        "1:00",
        "60:00",
    ]


@pytest.mark.parametrize(
    ("line", "into_ms", "word", "figure", "aside"),
    [
        ("dip 1x2 6-0-1-0 stop 2 s at 1/2", 3500, "STOP", "1", ("REP", "1/2")),
        ("bench press 1x2 4-0-A-0 lowering only", 4500, "RAISE", "BY OTHERS", ("REP", "1/2")),
        ("split squat 1x4 4-0-1-0 sides alternating", 5500, "LOWER", "1", ("RIGHT", "REP", "2/4")),
        ("leg press 1x4 4-0-1-0 two up one down lead lower", 4500, "RAISE", "1", ("REP", "1/4")),
    ],
)
def test_the_shape_of_a_rep_is_seen(
    line: str, into_ms: int, word: str, figure: str, aside: tuple[str, ...]
) -> None:
    sign = shown(line, 10_000 + into_ms)

    assert (sign.word, sign.figure, sign.aside) == (word, figure, aside)
