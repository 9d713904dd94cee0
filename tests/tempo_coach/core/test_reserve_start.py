from __future__ import annotations

from datetime import timedelta

import pytest

from tempo_coach.core.load_span import span_of
from tempo_coach.core.plan import Lifter
from tempo_coach.core.recorded_reserve_tests import RecordedReserveTests
from tempo_coach.core.reserve_start import (
    check_cleared,
    going_on,
    going_on_words,
    loads_words,
    read_rest,
)
from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.errors import OutOfRange, TempoCoachError
from tests.tempo_coach.core.reserve_tests import BEGUN_AT, attempt_made, reserve_begun

TODAY = BEGUN_AT.date()
HALFWAY = ReserveTest(reserve_begun(), (attempt_made(0, 100, held=True),))
OVER = ReserveTest(reserve_begun(id="f0f0"), (attempt_made(1, 100, held=False),))


def test_the_coachs_word_is_the_one_lock() -> None:
    with pytest.raises(TempoCoachError, match="Mirela is not cleared"):
        check_cleared("Mirela", Lifter(name="Mirela", overload=False))


@pytest.mark.parametrize("planned", [None, Lifter(name="M"), Lifter(name="M", overload=True)])
def test_without_a_no_of_the_coach_nothing_is_locked(planned: Lifter | None) -> None:
    assert check_cleared("M", planned) is None  # type: ignore[func-returns-value]  # raises or not


@pytest.mark.parametrize(
    ("tests", "days", "goes_on"),
    [
        ((), 0, False),
        ((HALFWAY,), 0, True),
        ((HALFWAY,), 1, False),
        ((OVER,), 0, False),
        ((HALFWAY, OVER), 0, False),
    ],
)
def test_only_the_last_test_of_today_goes_on(
    tests: tuple[ReserveTest, ...], days: int, goes_on: bool
) -> None:
    recorded = RecordedReserveTests(tests)
    found = going_on(recorded, "jonne tarval", "Bench Press", today=TODAY + timedelta(days=days))
    assert (found is not None) is goes_on


def test_how_far_it_went_is_said() -> None:
    assert going_on_words(HALFWAY) == "A test of today is not over: 1RM 100 kg, 100 kg held."
    assert "nothing held yet" in going_on_words(ReserveTest(reserve_begun()))


def test_the_loads_ahead_are_named_with_the_lower() -> None:
    said = loads_words(span_of(100.0, lower_s=4.0), None)
    assert said.startswith("Each lower 4 s; as far as it goes: 100 kg, 105 kg")
    assert said.endswith("130 kg.")


@pytest.mark.parametrize(
    ("text", "ms"), [("4:00", 240_000), ("240 s", 240_000), ("3 min", 180_000)]
)
def test_a_rest_is_read_as_on_a_line(text: str, ms: int) -> None:
    assert read_rest(text) == ms


@pytest.mark.parametrize("text", ["", "never", "0", "30 min"])
def test_what_is_no_rest_is_refused(text: str) -> None:
    with pytest.raises(OutOfRange):
        read_rest(text)
