from __future__ import annotations

import pytest
from hypothesis import given

from tempo_coach.core.rep_shape import PLAIN
from tempo_coach.core.tempo import (
    Allowances,
    Phase,
    Speed,
    Tempo,
    is_compact,
    parse_tempo,
    seconds_text,
)
from tempo_coach.core.timeline import rep_times
from tempo_coach.errors import NotationError, OutOfRange
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.harmless import is_harmless

FAST, OWN, ASSISTED = Speed.FAST, Speed.OWN, Speed.ASSISTED


def refusal(text: str) -> NotationError:
    with pytest.raises(NotationError) as caught:
        parse_tempo(text)
    return caught.value


def value_or_refusal(text: str) -> Tempo | NotationError:
    try:
        return parse_tempo(text)
    except NotationError as fault:
        return fault


@pytest.mark.parametrize(
    ("text", "rep_s"),
    [
        # Wilk and others, J Hum Kinet, "Impact of movement tempo distribution on bar velocity
        # during a multi-set bench press": 5 s down, no pause, 2 s up, no pause is 7 s a rep.
        ("5/0/2/0", 7),
        # Lu, Du and Zhou 2023, J Hum Kinet 87:157, 10.5114/jhk/161472: 6 s a rep.
        ("3/1/2/0", 6),
    ],
)
def test_a_published_tempo_takes_its_published_time(text: str, rep_s: int) -> None:
    rep = rep_times(parse_tempo(text), Allowances(), PLAIN)
    assert rep.tension_ms == rep_s * 1000


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # Wilk and others, J Hum Kinet, as above: X is maximal speed.
        ("2/0/X/0", Tempo(2000, 0, FAST, 0)),
        # Wilk and others 2020, J Hum Kinet 72:151, 10.2478/hukin-2020-0001.
        ("V/0/V/0", Tempo(OWN, 0, OWN, 0)),
        ("2/0/V/0", Tempo(2000, 0, OWN, 0)),
        ("5/0/V/0", Tempo(5000, 0, OWN, 0)),
        ("8/0/V/0", Tempo(8000, 0, OWN, 0)),
        ("10/0/V/0", Tempo(10_000, 0, OWN, 0)),
        # Wilk and others 2020, J Sports Sci Med 19:317: three places.
        ("2/0/X", Tempo(2000, 0, FAST, 0)),
        # Wilk and others 2020, as above: X may stand in the first place.
        ("X/0/X/0", Tempo(FAST, 0, FAST, 0)),
    ],
)
def test_a_published_notation_is_read(text: str, expected: Tempo) -> None:
    assert parse_tempo(text) == expected


@pytest.mark.parametrize(
    "text",
    ["4-1-X-1", "4/1/X/1", "41X1", "41x1", "4-1-x-1", " 4-1-X-1 ", "04-1-X-1.0", "4.000/1/X/1"],
)
def test_one_tempo_can_be_written_in_several_ways(text: str) -> None:
    assert parse_tempo(text) == Tempo(4000, 1000, FAST, 1000)


@pytest.mark.parametrize("dash", "‐‑‒–—−")
def test_a_dash_of_any_kind_separates(dash: str) -> None:
    assert parse_tempo(f"4{dash}1{dash}X{dash}1") == Tempo(4000, 1000, FAST, 1000)


def test_phases_can_have_two_digits_and_decimals() -> None:
    assert parse_tempo("10-0-X-0") == Tempo(10_000, 0, FAST, 0)
    assert parse_tempo("2.5-0-1-0.001") == Tempo(2500, 0, 1000, 1)


def test_three_places_leave_the_top_at_zero() -> None:
    assert parse_tempo("3-1-X") == Tempo(3000, 1000, FAST, 0)


def test_the_raise_can_be_assisted() -> None:
    assert parse_tempo("6-0-A-0") == Tempo(6000, 0, ASSISTED, 0)


def test_the_longest_phase_and_the_longest_rep_are_accepted() -> None:
    assert parse_tempo("60-0-60-0") == Tempo(60_000, 0, 60_000, 0)


def test_the_shortest_tempo_is_a_millisecond() -> None:
    assert parse_tempo("0.001-0-0-0") == Tempo(1, 0, 0, 0)


@pytest.mark.parametrize(
    ("text", "column", "message", "hint"),
    [
        ("", 1, "the tempo is missing", "lower-pause-raise-top, such as 4-1-X-1"),
        (" \t", 1, "the tempo is missing", "lower-pause-raise-top, such as 4-1-X-1"),
        ("4-X-1-1", 3, "the pause can't be X", "X stands for lower or raise only"),
        ("4-1-1-X", 7, "the top can't be X", "X stands for lower or raise only"),
        ("41V1-", 6, "three or four places, not 2", "lower-pause-raise-top"),
        ("4V11", 2, "the pause can't be V", "V stands for lower or raise only"),
        ("A-0-1-0", 1, "the lower can't be A", "A stands for raise only"),
        ("61-0-1-0", 1, "a lower of '61' s is too long", "at most 60 s a phase"),
        ("4-60.001-1-0", 3, "a pause of '60.001' s is too long", "at most 60 s a phase"),
        ("60-1-60-0", 1, "a rep of 121 s is too long", "a rep is at most 120 s"),
        ("0-0-0-0", 1, "a tempo of zeros has no length", "at least one phase, as in 4-1-X-1"),
        ("0000", 1, "a tempo of zeros has no length", "at least one phase"),
        ("2,5-0-1-0", 1, "'2,5' is no length for the lower", "write 2.5"),
        (".5-0-1-0", 1, "'.5' is no length for the lower", "write 0.5"),
        ("4-1s-1-0", 3, "'1s' is no length for the pause", "write 1"),
        ("4-1-fast-1", 5, "'fast' is no length for the raise", "such as 2 or 2.5, or X or V or A"),
        ("4-soft-1-1", 3, "'soft' is no length for the pause", "give seconds, such as 2 or 2.5"),
        ("1.0005-0-1-0", 1, "'1.0005' is finer than a millisecond", "at most three decimals"),
        ("4-1/X-1", 4, "one kind of separator", "write all as '-' or all as '/'"),
        ("4/1-X/1", 4, "one kind of separator", "write all as '-' or all as '/'"),
        ("4--X-1", 3, "the pause is missing", "write 0 for a phase that is left out"),
        ("4-1-X-", 7, "the top is missing", "write 0 for a phase that is left out"),
        ("4-1", 3, "three or four places, not 2", "lower-pause-raise-top"),
        ("4-1-X-1-0", 9, "three or four places, not 5", "lower-pause-raise-top"),
        ("31X", 1, "without separators it is exactly four characters", "write 3-1-X"),
        ("310X1", 1, "without separators it is exactly four characters", "4-1-X-1 or 41X1"),
        ("10.50", 1, "without separators it is exactly four characters", "4-1-X-1 or 41X1"),
        ("41Z1", 3, "'41Z1' is no tempo", "lower-pause-raise-top, such as 4-1-X-1"),
        ("４-1-X-1", 1, "'４' is no length for the lower", "give seconds"),
        ("4-²-X-1", 3, "'²' is no length for the pause", "give seconds"),
        ("٤1X1", 1, "'٤1X1' is no tempo", "lower-pause-raise-top"),
        ("4-1\x1b[2J-X-1", 3, "'1\\x1b[2J' is no length for the pause", "give seconds"),
        ("4-\u202e1-X-1", 3, "'\\u202e1' is no length for the pause", "give seconds"),
        ("4-\ud800-X-1", 3, "'\\ud800' is no length for the pause", "give seconds"),
        ("  4-X-1-1", 5, "the pause can't be X", "give the seconds"),
        ("-4-1-X-1", 8, "three or four places, not 5", "lower-pause-raise-top"),
        ("+4-1-X-1", 1, "'+4' is no length for the lower", "give seconds"),
        ("1e1-0-1-0", 1, "'1e1' is no length for the lower", "give seconds"),
        ("1_0-0-1-0", 1, "'1_0' is no length for the lower", "give seconds"),
        ("nan-0-1-0", 1, "'nan' is no length for the lower", "give seconds"),
    ],
)
def test_a_refusal_names_the_column_the_value_and_what_is_allowed(
    text: str, column: int, message: str, hint: str
) -> None:
    fault = refusal(text)
    assert fault.text == text
    assert fault.column == column
    assert message in fault.message
    assert hint in fault.hint


def test_a_ratio_is_refused_because_it_does_not_say_which_phase_comes_first() -> None:
    # Martins-Costa and others 2016, Motriz, 10.1590/S1980-65742016000100005, write
    # concentric : eccentric, the other way round than a tempo.
    fault = refusal("2:4")
    assert fault.message == "'2:4' does not say which phase comes first"
    assert "4-0-2-0 lowers in 4 s, 2-0-4-0 in 2 s" in fault.hint


@pytest.mark.parametrize("text", ["4:1:X:1", "2:4 s", ":", "4-1:X-1"])
def test_other_colons_are_refused_with_the_order_that_is_meant(text: str) -> None:
    assert "the order is lower-pause-raise-top" in refusal(text).hint


@pytest.mark.parametrize(
    "number", ["9" * 5000, "9" * 1_000_010, "1." + "0" * 5000 + "1", "60." + "9" * 5000]
)
def test_a_number_of_any_length_is_refused_in_a_short_message(number: str) -> None:
    fault = refusal(f"{number}-0-1-0")
    assert fault.column == 1
    assert len(fault.message) < 100


def test_leading_and_trailing_zeros_of_any_number_change_nothing() -> None:
    assert parse_tempo(f"{'0' * 5000}4.5{'0' * 5000}-1-X-1") == Tempo(4500, 1000, FAST, 1000)


@given(strategies.tempos)
def test_a_tempo_written_out_reads_as_itself(tempo: Tempo) -> None:
    assert parse_tempo(str(tempo)) == tempo


@given(strategies.any_text)
def test_any_text_is_a_tempo_or_a_refusal_inside_the_text(text: str) -> None:
    read = value_or_refusal(text)
    if isinstance(read, NotationError):
        assert 1 <= read.column <= len(text) + 1
        assert is_harmless(str(read))
    else:
        assert parse_tempo(str(read)) == read


@pytest.mark.parametrize(
    "slots",
    [
        (60_001, 0, 0, 0),
        (-1, 0, 0, 0),
        (60_000, 60_000, 1, 0),
        (0, 0, 0, 0),
        (1000, FAST, 0, 0),
        (ASSISTED, 0, 0, 0),
    ],
)
def test_no_tempo_exists_that_could_not_be_written(slots: tuple[int | Speed, ...]) -> None:
    with pytest.raises(OutOfRange):
        Tempo(*slots)


def test_a_rep_of_speeds_alone_has_a_length() -> None:
    assert str(Tempo(OWN, 0, FAST, 0)) == "V-0-X-0"


def test_slots_are_in_the_order_of_the_notation() -> None:
    assert list(parse_tempo("4-1-X-1").slots().items()) == [
        (Phase.LOWER, 4000),
        (Phase.PAUSE, 1000),
        (Phase.RAISE, FAST),
        (Phase.TOP, 1000),
    ]


def test_allowances_stand_in_for_speeds() -> None:
    allowances = Allowances(fast_ms=700, own_ms=2100, assisted_ms=3500)
    assert [allowances.of(speed) for speed in (FAST, OWN, ASSISTED)] == [700, 2100, 3500]


@pytest.mark.parametrize(
    ("length_ms", "text"),
    [(0, "0"), (1, "0.001"), (500, "0.5"), (2500, "2.5"), (10_000, "10"), (60_050, "60.05")],
)
def test_seconds_are_written_exactly_and_short(length_ms: int, text: str) -> None:
    assert seconds_text(length_ms) == text


@pytest.mark.parametrize(
    ("text", "compact"),
    [("41X1", True), ("vvva", True), ("41X", False), ("41X10", False), ("4-1-", False)],
)
def test_a_compact_tempo_has_four_marks(text: str, compact: bool) -> None:
    assert is_compact(text) is compact
