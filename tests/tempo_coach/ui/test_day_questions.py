from __future__ import annotations

import pytest

from tempo_coach.core.load import LoadUnit
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.day_questions import exercise_question, load_question, reason_question
from tests.tempo_coach.core.plans import TEXT
from tests.tempo_coach.core.test_session import session
from tests.tempo_coach.core.test_session_changed import changed

SQUATS, CHINS = session().items


@pytest.mark.parametrize(
    ("text", "load"),
    [
        ("82.5", "82.5 kg"),
        ("180 lb", "180 lb"),
        ("bw+10 kg", "bw+10 kg"),
        ("70%", "70%"),
        ("", "72%"),
        ("  ", "72%"),
    ],
)
def test_a_load_is_read_as_typed_and_nothing_means_the_written_one(text: str, load: str) -> None:
    assert str(load_question(SQUATS, LoadUnit.KG).read(text)) == load


def test_a_number_hangs_where_the_load_before_it_hung() -> None:
    assert str(load_question(CHINS, LoadUnit.KG).read("12.5")) == "bw+12.5 kg"


def test_where_no_load_is_written_nothing_can_t_mean_it() -> None:
    bare = session(text=TEXT.replace(" @ 72%", "")).items[0]
    question = load_question(bare, LoadUnit.LB)

    assert str(question.read("180")) == "180 lb"
    with pytest.raises(OutOfRange, match="no load is written"):
        question.read("")


def test_another_exercise_is_read_and_nothing_means_the_written_one() -> None:
    swapped = session(changed(change="swapped", exercise="goblet squat")).items[0]

    assert exercise_question(SQUATS).read(" goblet   squat ") == "goblet squat"
    assert exercise_question(swapped).read("") == "front squat"
    with pytest.raises(OutOfRange, match="81 characters"):
        exercise_question(SQUATS).read("n" * 81)


def test_a_reason_may_be_empty_but_not_endless() -> None:
    assert reason_question(SQUATS).read(" knee ") == "knee"
    assert reason_question(SQUATS).read("") == ""
    with pytest.raises(OutOfRange, match="2001 characters"):
        reason_question(SQUATS).read("n" * 2_001)
