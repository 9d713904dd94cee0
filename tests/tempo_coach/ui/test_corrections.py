from __future__ import annotations

import pytest

from tempo_coach.core.facts import Changes
from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.corrections import Field, changes_from, read_field, texts
from tests.tempo_coach.core.done_sets import done_set

KG = parse_load("80 kg")
LB = parse_load("175 lb")
DONE = done_set(effort=None)


def typed(**values: str) -> dict[Field, str]:
    return texts(DONE) | {Field(name): value for name, value in values.items()}


def test_the_fields_hold_the_set_as_it_is() -> None:
    assert texts(done_set(effort=8.5, note="easy")) == {
        Field.REPS: "5",
        Field.LOAD: "80 kg",
        Field.EFFORT: "8.5",
        Field.NOTE: "easy",
    }
    assert texts(done_set(effort=8.0))[Field.EFFORT] == "8"


def test_fields_left_alone_change_nothing() -> None:
    assert changes_from(DONE, typed(), prescribed=KG, unit=LoadUnit.KG) == (None, ())


def test_a_value_typed_another_way_changes_nothing() -> None:
    assert changes_from(DONE, typed(reps=" 05", load="80.0"), prescribed=KG, unit=LoadUnit.KG) == (
        None,
        (),
    )


def test_only_what_differs_is_corrected() -> None:
    changes, faults = changes_from(
        DONE, typed(reps="4", effort="9.5", note=" grip slipped "), prescribed=KG, unit=LoadUnit.KG
    )

    assert changes == Changes(reps_done=4, effort=9.5, note="grip slipped")
    assert faults == ()


@pytest.mark.parametrize(
    ("text", "prescribed", "kg", "written"),
    [
        ("82.5", KG, 82.5, "82.5 kg"),
        ("82.5", None, 82.5, "82.5 kg"),
        ("180", LB, 81.6466266, "180 lb"),
        ("82.5 kg", LB, 82.5, "82.5 kg"),
        ("180 lb", KG, 81.6466266, "180 lb"),
        ("75", parse_load("72%"), None, "75%"),
        ("15", parse_load("bw+10 kg"), None, "bw+15 kg"),
        ("bw", KG, None, "bw"),
        ("", KG, None, ""),
    ],
)
def test_a_load_is_read_in_the_unit_of_the_line_unless_it_has_its_own(
    text: str, prescribed: Load | None, kg: float | None, written: str
) -> None:
    assert read_field(Field.LOAD, text, prescribed=prescribed, unit=LoadUnit.KG) == {
        "load_kg": kg,
        "load_as_written": written,
    }


def test_without_a_load_in_the_line_a_bare_number_is_counted_as_set() -> None:
    read = read_field(Field.LOAD, "180", prescribed=None, unit=LoadUnit.LB)

    assert read["load_as_written"] == "180 lb"


@pytest.mark.parametrize(
    ("field", "text", "sentence"),
    [
        (Field.REPS, "", "'' is no number of reps; a whole number from 0 to 100"),
        (Field.REPS, "101", "'101' is no number of reps; a whole number from 0 to 100"),
        (Field.REPS, "4.5", "'4.5' is no number of reps; a whole number from 0 to 100"),
        (Field.REPS, "٣", "'٣' is no number of reps; a whole number from 0 to 100"),
        (Field.LOAD, "82,5", "'82,5' is no load; write 82.5 kg or 82.5 lb"),
        (Field.LOAD, "0", "a load of 0 kg is not possible; above 0 and at most 1000 kg"),
        (Field.EFFORT, "8.3", "'8.3' is no effort; 1 to 10 by halves, such as 8 or 8.5"),
        (Field.EFFORT, "0.5", "'0.5' is no effort; 1 to 10 by halves, such as 8 or 8.5"),
        (Field.EFFORT, "10.5", "'10.5' is no effort; 1 to 10 by halves, such as 8 or 8.5"),
        (Field.EFFORT, "nan", "'nan' is no effort; 1 to 10 by halves, such as 8 or 8.5"),
        (Field.NOTE, "x" * 2001, "the note has 2001 characters; at most 2000"),
    ],
)
def test_a_bad_value_is_refused_in_one_sentence(field: Field, text: str, sentence: str) -> None:
    with pytest.raises(OutOfRange) as refusal:
        read_field(field, text, prescribed=KG, unit=LoadUnit.KG)

    assert str(refusal.value) == sentence


def test_a_bad_value_does_not_keep_the_good_ones_from_being_saved() -> None:
    changes, faults = changes_from(
        DONE, typed(reps="4", effort="11"), prescribed=KG, unit=LoadUnit.KG
    )

    assert changes == Changes(reps_done=4)
    assert [fault.message for fault in faults] == ["'11' is no effort"]


def test_an_effort_can_be_taken_back() -> None:
    changes, _ = changes_from(
        done_set(effort=8.0), typed(effort=""), prescribed=KG, unit=LoadUnit.KG
    )

    assert changes is not None
    assert changes.given() == {"effort": None}
