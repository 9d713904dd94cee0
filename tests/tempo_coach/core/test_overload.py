from __future__ import annotations

import pytest

from tempo_coach.core.load import parse_load
from tempo_coach.core.overload import lowered_load, overload_question
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.strength import UNKNOWN, Best, Strength
from tempo_coach.errors import OutOfRange

LIFTED = Best(parse_load("100 kg"), "")
TESTED = Strength(lifted=LIFTED, lowered=Best(parse_load("115 kg"), ""))
LOWERING = "squat 3x2 @ {} 4-0-A-0 lowering only"


@pytest.mark.parametrize(
    ("line", "load"),
    [
        ("squat 3x5 @ 80 kg 3-0-1-0", "80 kg"),
        ("squat 3x5 @ 80 kg 3-0-1-0 lower @ 105 kg", "105 kg"),
        ("squat 3x5 @ 80 kg 3-0-1-0 first lower @ 120 kg", "120 kg"),
        ("squat 3x5 @ 80 kg 3-0-1-0 raise only", "None"),
        ("squat 3x5 3-0-1-0", "None"),
    ],
)
def test_what_is_lowered_is_the_more_of_two_loads(line: str, load: str) -> None:
    assert str(lowered_load(parse_prescription(line))) == load


@pytest.mark.parametrize(
    ("line", "strength", "asks"),
    [
        (LOWERING.format("110 kg"), TESTED, False),
        (LOWERING.format("115 kg"), TESTED, False),
        (LOWERING.format("117.5 kg"), TESTED, True),
        (LOWERING.format("120%"), TESTED, True),
        (LOWERING.format("110 kg"), Strength(lifted=LIFTED), True),
        (LOWERING.format("100 kg"), Strength(lifted=LIFTED), False),
        (LOWERING.format("105%"), UNKNOWN, True),
        (LOWERING.format("110 kg"), UNKNOWN, False),
        (LOWERING.format("110 kg") + " method overloaded-lowering", UNKNOWN, True),
        ("squat 3x5 @ 80% 3-0-X-0 lower @ 105%", UNKNOWN, True),
        ("squat 3x5 @ 80% 3-0-X-0 lower @ 105%", TESTED, False),
        ("squat 3x5 @ 80 kg 3-0-X-0", TESTED, False),
        ("rack pull 3x1 @ 120 kg 1-0-X-0 raise only", TESTED, False),
    ],
)
def test_the_load_is_asked_for_where_more_is_lowered_than_was_ever_tested(
    line: str, strength: Strength, asks: bool
) -> None:
    assert (overload_question(parse_prescription(line), strength) is not None) is asks


def test_the_load_itself_is_the_answer_and_nothing_else() -> None:
    question = overload_question(parse_prescription(LOWERING.format("120 kg")), TESTED)
    assert question is not None
    assert question.why == (
        "120 kg is to be lowered: more than the most lowered under control, 115 kg."
    )
    for typed in ("120", " 120 kg ", "120.0kg"):
        assert str(question.read(typed)) == "120 kg"
    for typed in ("119", "yes", "", "120 lb", "120%"):
        with pytest.raises(OutOfRange):
            question.read(typed)
    with pytest.raises(OutOfRange) as refused:
        question.read("12")
    assert refused.value.hint == "type 120 kg, or leave and choose another load"


def test_a_share_is_typed_as_a_share() -> None:
    question = overload_question(parse_prescription(LOWERING.format("105%")), UNKNOWN)
    assert question is not None
    assert str(question.read("105")) == str(question.read("105 %")) == "105%"
