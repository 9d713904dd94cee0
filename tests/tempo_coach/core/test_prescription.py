from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings

from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.prescription import (
    Prescription,
    check_name,
    clean_name,
    parse_prescription,
    rest_text,
)
from tempo_coach.core.tempo import Phase, Speed, Tempo
from tempo_coach.errors import NotationError, OutOfRange
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.harmless import is_harmless


def refusal(line: str) -> NotationError:
    with pytest.raises(NotationError) as caught:
        parse_prescription(line)
    return caught.value


def value_or_refusal(line: str) -> Prescription | NotationError:
    try:
        return parse_prescription(line)
    except NotationError as fault:
        return fault


def test_a_whole_line_is_read() -> None:
    line = "front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00 lead raise"
    assert parse_prescription(line) == Prescription(
        exercise="front squat",
        sets=4,
        reps=5,
        load=Load(Decimal(80), LoadUnit.KG),
        tempo=Tempo(4000, 1000, Speed.FAST, 1000),
        rest_ms=180_000,
        lead=Phase.RAISE,
    )


def test_load_rest_and_lead_may_be_left_out() -> None:
    read = parse_prescription("dip 3x8 3-1-X")
    assert (read.load, read.rest_ms, read.lead) == (None, None, Phase.LOWER)


@pytest.mark.parametrize("scheme", ["4x5", "4X5", "4×5", "4 x 5", "04x005"])
def test_sets_and_reps_can_be_written_in_several_ways(scheme: str) -> None:
    read = parse_prescription(f"dip {scheme} 41X1")
    assert (read.sets, read.reps) == (4, 5)


@pytest.mark.parametrize("scheme", ["4xmax", "4xMAX", "4 x max"])
def test_max_reps_run_until_stopped(scheme: str) -> None:
    read = parse_prescription(f"dip {scheme} 41X1")
    assert (read.sets, read.reps) == (4, None)


@pytest.mark.parametrize(
    ("load", "expected"),
    [
        ("@ 80 kg", "80 kg"),
        ("@80kg", "80 kg"),
        ("@ 175 lb", "175 lb"),
        ("@ 72%", "72%"),
        ("@ bw", "bw"),
        ("@ bw+10 kg", "bw+10 kg"),
        ("@ bw + 10 kg", "bw+10 kg"),
    ],
)
def test_every_form_of_load_is_read(load: str, expected: str) -> None:
    assert str(parse_prescription(f"dip 4x5 {load} 41X1").load) == expected


@pytest.mark.parametrize(
    ("rest", "rest_ms"),
    [
        ("90", 90_000),
        ("90 s", 90_000),
        ("90s", 90_000),
        ("3:00", 180_000),
        ("0:45", 45_000),
        ("3 min", 180_000),
        ("3 MIN", 180_000),
        ("0", 0),
        ("20:00", 1_200_000),
    ],
)
def test_every_form_of_rest_is_read(rest: str, rest_ms: int) -> None:
    assert parse_prescription(f"dip 4x5 41X1 rest {rest}").rest_ms == rest_ms


@pytest.mark.parametrize("unit", ["MİN", "mın"])
def test_minutes_from_a_turkish_keyboard_are_minutes(unit: str) -> None:
    assert parse_prescription(f"dip 4x5 41X1 rest 3 {unit}").rest_ms == 180_000


@pytest.mark.parametrize("tempo", ["4-1-X-1", "4/1/X/1", "41X1", "4–1–X–1", "4-1-x-1"])
def test_every_form_of_tempo_is_read(tempo: str) -> None:
    expected = Tempo(4000, 1000, Speed.FAST, 1000)
    assert parse_prescription(f"dip 4x5 {tempo} rest 90").tempo == expected


def test_rest_and_lead_may_stand_in_either_order() -> None:
    one = parse_prescription("dip 4x5 41X1 rest 90 lead raise")
    assert parse_prescription("dip 4x5 41X1 LEAD Raise Rest 90") == one


def test_the_exercise_decides_the_lead_unless_the_line_does() -> None:
    assert parse_prescription("deadlift 4x5 41X1").lead is Phase.RAISE
    assert parse_prescription("deadlift 4x5 41X1 lead lower").lead is Phase.LOWER
    assert parse_prescription("front squat 4x5 41X1").lead is Phase.LOWER
    assert parse_prescription("front squat 4x5 41X1 lead raise").lead is Phase.RAISE


def test_an_exercise_may_hold_numbers_signs_and_any_script() -> None:
    for exercise in ("box squat 40 cm", "press/row", "21-step squat", "ヒップ", "½ squat", "rest"):
        assert parse_prescription(f"{exercise} 4x5 41X1").exercise == exercise


def test_an_exercise_is_kept_in_one_spelling() -> None:
    read = parse_prescription("  e\u0301le\u0301vation \t late\u0301rale  4x5 41X1")
    assert read.exercise == "\u00e9l\u00e9vation lat\u00e9rale"


def test_a_compact_tempo_is_not_taken_for_sets_and_reps() -> None:
    assert "sets and reps are missing" in refusal("front squat 41X1").message
    assert parse_prescription("front squat 10x5 41X1").sets == 10


def test_the_most_sets_and_reps_are_accepted() -> None:
    read = parse_prescription("dip 30x100 41X1")
    assert (read.sets, read.reps) == (30, 100)


@pytest.mark.parametrize(
    ("line", "column", "message", "hint"),
    [
        ("", 1, "the line is empty", "such as front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00"),
        ("  ", 1, "the line is empty", "such as front squat"),
        ("dip", 4, "sets and reps are missing", "such as 4x5 or 4xmax, behind the exercise"),
        ("dip 41X1", 5, "sets and reps are missing", "behind the exercise"),
        ("dip 4-1-X-1", 5, "sets and reps are missing", "behind the exercise"),
        ("dip @ 80 kg", 5, "sets and reps are missing", "behind the exercise"),
        ("4x5 41X1", 1, "the exercise is missing", "as in front squat 4x5"),
        ("dip @80 4x5 41X1", 5, "the load comes behind sets and reps", "as in front squat 4x5"),
        ("dip 4-1-X-1 4x5", 5, "the tempo comes behind sets and reps", "as in front squat 4x5"),
        (f"{'a' * 81} 4x5 41X1", 1, "has 81 characters", "at most 80"),
        ("d\ud800p 4x5 41X1", 1, "the name of the exercise is not valid text", "UTF-8"),
        ("dip 0x5 41X1", 5, "'0' sets are not possible", "1 to 30, so at least 1"),
        ("dip 31x12 41X1", 5, "'31' sets are not possible", "1 to 30, so at most 30"),
        ("dip 4x0 41X1", 7, "'0' reps are not possible", "1 to 100, so at least 1"),
        ("dip 4x101 41X1", 7, "'101' reps are not possible", "1 to 100, so at most 100"),
        ("dip 4xfive 41X1", 7, "'five' is no number of reps", "4x5, or 4xmax"),
        ("dip 4x-5 41X1", 7, "'-5' is no number of reps", "4x5, or 4xmax"),
        ("dip 4x５ 41X1", 7, "'５' is no number of reps", "4x5, or 4xmax"),
        ("dip 4x", 7, "the reps are missing", "such as 4x5, or 4xmax to run until stopped"),
        ("dip 4x5 @", 10, "the load is missing behind '@'", "80 kg, 175 lb, 72%, bw"),
        ("dip 4x5 @ 41X1", 11, "the load is missing behind '@'", "80 kg, 175 lb, 72%, bw"),
        ("dip 4x5 @ 4-1-X-1", 11, "the load is missing behind '@'", "80 kg, 175 lb, 72%, bw"),
        ("dip 4x5 @ 80 41X1", 11, "'80' is no load", "write 80 kg, 80 lb or 80%"),
        ("dip 4x5 @ 82,5 kg 41X1", 11, "'82,5' is no load", "write 82.5 kg, 82.5 lb or 82.5%"),
        ("dip 4x5 @ heavy 41X1", 11, "'heavy' is no load", "80 kg, 175 lb, 72%, bw or bw+10 kg"),
        ("dip 4x5 @ 0 kg 41X1", 11, "a load of 0 kg is not possible", "at most 1000 kg"),
        ("dip 4x5 @ 99999 kg 41X1", 11, "too many digits", "at most four"),
        ("dip 4x5 80 kg 41X1", 9, "a load stands behind '@'", "write @ 80 kg"),
        ("dip 4x5 80kg\x1b[31m 41X1", 9, "a load stands behind '@'", "write @ 80kg"),
        ("dip 4x5 bw 41X1", 9, "a load stands behind '@'", "write @ bw"),
        ("dip 4x5", 8, "the tempo is missing", "lower-pause-raise-top, such as 4-1-X-1"),
        ("dip 4x5 @ 80 kg", 16, "the tempo is missing", "lower-pause-raise-top"),
        ("dip 4x5 rest 90", 9, "the tempo is missing", "lower-pause-raise-top"),
        ("dip 4x5 lead raise", 9, "the tempo is missing", "lower-pause-raise-top"),
        ("dip 4x5 4-X-1-1", 11, "the pause can't be X", "give the seconds"),
        ("dip 4x5 @ bw 2:4", 14, "does not say which phase comes first", "4-0-2-0"),
        ("dip 4x5 41X1 rest", 18, "the rest is missing", "write 90, 90 s, 3:00 or 3 min"),
        ("dip 4x5 41X1 rest long", 19, "'long' is no rest", "write 90, 90 s, 3:00 or 3 min"),
        ("dip 4x5 41X1 rest 3:60", 19, "'3:60' is no rest", "write 90, 90 s, 3:00 or 3 min"),
        ("dip 4x5 41X1 rest 1.5 min", 19, "'1.5' is no rest", "3 min"),
        ("dip 4x5 41X1 rest 21 min", 19, "a rest of '21 min' is too long", "at most 20 min"),
        ("dip 4x5 41X1 rest 20:01", 19, "a rest of '20:01' is too long", "at most 20 min"),
        ("dip 4x5 41X1 rest 90 rest 90", 22, "'rest' stands there twice", "give it once"),
        ("dip 4x5 41X1 lead raise lead raise", 25, "'lead' stands there twice", "give it once"),
        ("dip 4x5 41X1 lead", 18, "the lead is missing", "write lead lower or lead raise"),
        ("dip 4x5 41X1 lead top", 19, "'top' is no lead", "write lead lower or lead raise"),
        ("dip 4x5 41X1 slowly", 14, "'slowly' is not understood behind the tempo", "'rest 3:00'"),
        ("dip 4x5 41X1 @ 80 kg", 14, "'@' is not understood behind the tempo", "'rest 3:00'"),
        ("dip 4x5 41X1 \u202e", 14, "'\\u202e' is not understood behind the tempo", "'lead"),
    ],
)
def test_a_refusal_names_the_column_the_value_and_what_is_allowed(
    line: str, column: int, message: str, hint: str
) -> None:
    fault = refusal(line)
    assert fault.text == line
    assert fault.column == column
    assert message in fault.message
    assert hint in fault.hint


@pytest.mark.parametrize(
    "line",
    [
        "dip {}x5 41X1",
        "dip 4x{} 41X1",
        "dip 4x5 @ {} kg 41X1",
        "dip 4x5 {}-1-X-1",
        "dip 4x5 41X1 rest {}",
        "dip 4x5 41X1 rest {}:00",
        "dip 4x5 41X1 rest {} min",
    ],
)
def test_a_number_of_any_length_is_refused_in_a_short_message(line: str) -> None:
    fault = refusal(line.format("9" * 5000))
    assert len(str(fault)) < 200


def test_a_refusal_says_where_what_and_the_nearest_good_answer() -> None:
    assert str(refusal("dip 4x5 @ 82,5 kg 41X1")) == (
        "column 11: '82,5' is no load; write 82.5 kg, 82.5 lb or 82.5%"
    )


@given(strategies.lines())
def test_a_line_written_out_reads_as_itself(line: str) -> None:
    read = parse_prescription(line)
    assert parse_prescription(str(read)) == read


@given(strategies.any_text)
@settings(max_examples=300)
def test_any_text_is_a_prescription_or_a_refusal_inside_the_text(text: str) -> None:
    read = value_or_refusal(text)
    if isinstance(read, NotationError):
        assert 1 <= read.column <= len(text) + 1
        assert read.text == text
        assert is_harmless(str(read))
    else:
        assert parse_prescription(str(read)) == read


@given(strategies.fragments)
@settings(max_examples=300)
def test_any_ending_of_a_line_is_read_or_refused(ending: str) -> None:
    read = value_or_refusal(f"dip 4x5 {ending}")
    if isinstance(read, NotationError):
        assert is_harmless(str(read))
    else:
        assert parse_prescription(str(read)) == read


@pytest.mark.parametrize(
    ("rest_ms", "text"),
    [(0, "0 s"), (45_000, "45 s"), (60_000, "1:00"), (90_000, "1:30"), (3_600_000, "60:00")],
)
def test_a_rest_is_written_in_seconds_below_a_minute(rest_ms: int, text: str) -> None:
    assert rest_text(rest_ms) == text


def test_a_name_is_cleaned_of_spaces_and_spellings() -> None:
    assert clean_name(" Jose\u0301  \t Lind ") == "Jos\u00e9 Lind"


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("", "the name of the lifter is empty"),
        ("a" * 81, "the name of the lifter has 81 characters"),
        ("\udcff", "the name of the lifter is not valid text"),
    ],
)
def test_a_name_that_can_not_be_kept_is_refused(name: str, message: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        check_name(name, what="lifter")
    assert caught.value.message == message
    assert caught.value.hint


@pytest.mark.parametrize(
    "line",
    [
        "bench press 3x3 @ 110% 5-0-A-0 lowering only rest 4:00 method overloaded-lowering",
        "back squat 3x5 @ 80% 3-0-X-0 lower @ 105%",
        "back squat 4x5 @ 100 kg 3-0-X-0 first lower @ 120 kg",
        "leg press 3x6 @ 60 kg 5-0-1-0 two up one down lead raise",
        "dip 3x4 @ bw 6-0-1-0 stop 2 s at 1/3 2/3 sides alternating",
        "pin press 3x3 @ 90% 2-0-X-0 raise only rest 3:00",
    ],
)
def test_a_line_with_the_shape_of_its_reps_is_written_as_it_is_read(line: str) -> None:
    assert str(parse_prescription(line)) == line


def test_who_only_raises_begins_with_the_raise() -> None:
    assert parse_prescription("pin press 3x3 2-0-X-0 raise only").lead is Phase.RAISE
    assert parse_prescription("pin press 3x3 2-0-X-0 raise only lead lower").lead is Phase.LOWER


@pytest.mark.parametrize(
    ("line", "column", "message"),
    [
        ("dip 4x5 0-1-X-1 lowering only", 17, "with a lower of 0 s is not possible"),
        ("dip 4x5 4-1-0-1 raise only", 17, "with a raise of 0 s is not possible"),
        ("dip 4x5 0-1-X-1 stop 1 s at 1/2", 17, "with a lower of 0 s is not possible"),
        ("dip 4x5 60-0-50-0 stop 6 s at 1/3 2/3", 19, "a rep of 122 s with its stops is too long"),
        ("dip 4x5 4-1-X-1 lower @ 105%", 17, "without a load to raise"),
        ("dip 4x5 @ 80% 4-1-X-1 lower @ 80%", 23, "is no more than the load 80%"),
        ("dip 4x5 @ 80 kg 4-1-X-1 first lower @ 70 kg", 25, "is no more than the load 80 kg"),
        ("dip 4x5 41X1 method", 20, "the method is missing"),
        ("dip 4x5 41X1 method slow-lowerin", 21, "'slow-lowerin' is no method"),
    ],
)
def test_a_shape_that_can_t_be_done_is_refused_where_it_stands(
    line: str, column: int, message: str
) -> None:
    fault = refusal(line)

    assert message in fault.message
    assert fault.column == column
