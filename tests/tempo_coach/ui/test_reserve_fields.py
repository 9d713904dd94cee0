from __future__ import annotations

import pytest

from tempo_coach.core.load import LoadUnit
from tempo_coach.ui.reserve_fields import USUAL, Field, read_fields

TYPED = {Field.EXERCISE: "bench  press", Field.MAX: "100"} | USUAL


def test_the_usual_values_make_a_test_of_the_usual_steps() -> None:
    wish, faults = read_fields(TYPED, unit=LoadUnit.KG)

    assert faults == {}
    assert wish is not None
    assert (wish.exercise, wish.rest_ms) == ("bench press", 240_000)
    span = wish.span
    assert [span.max_kg, span.step_kg, span.ceiling_kg] == [100, 5, 130]
    assert span.lower_s == 5


def test_a_bare_number_is_counted_in_the_unit_of_the_settings() -> None:
    wish, _ = read_fields(TYPED | {Field.MAX: "220"}, unit=LoadUnit.LB)

    assert wish is not None
    assert float(wish.span.max_kg) == pytest.approx(220 * 0.45359237)


@pytest.mark.parametrize(
    ("field", "text"),
    [
        (Field.EXERCISE, " "),
        (Field.MAX, "bw"),
        (Field.MAX, "601 kg"),
        (Field.STEP, "10.1%"),
        (Field.STEP, "0.5 kg"),
        (Field.STEP, "bw+5 kg"),
        (Field.LOWER, "0"),
        (Field.LOWER, "1e1"),
        (Field.CEILING, "99%"),
        (Field.CEILING, "161%"),
        (Field.REST, "0"),
    ],
)
def test_each_field_is_refused_by_itself(field: Field, text: str) -> None:
    wish, faults = read_fields(TYPED | {field: text}, unit=LoadUnit.KG)

    assert wish is None
    assert list(faults) == [field]


def test_a_step_is_judged_by_itself_where_the_usual_ceiling_is_too_high() -> None:
    _, faults = read_fields(TYPED | {Field.MAX: "500"}, unit=LoadUnit.KG)
    assert list(faults) == [Field.CEILING]


def test_without_a_max_the_other_fields_are_not_blamed() -> None:
    _, faults = read_fields(TYPED | {Field.MAX: ""}, unit=LoadUnit.KG)
    assert list(faults) == [Field.MAX]
