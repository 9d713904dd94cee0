from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given

from tempo_coach.core.clauses import parse_shape
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.rep_shape import PLAIN, LowerLoad, RepShape, Sides, Stops
from tempo_coach.core.tempo import Phase
from tempo_coach.errors import NotationError, OutOfRange
from tests.tempo_coach.core.strategies import shapes

HALF = (Fraction(1, 2),)
MORE = LowerLoad(Load(Decimal(105), LoadUnit.PERCENT))


@pytest.mark.parametrize(
    ("text", "shape"),
    [
        ("", PLAIN),
        ("lowering only", RepShape(only=Phase.LOWER)),
        ("RAISE  Only", RepShape(only=Phase.RAISE)),
        ("stop 2 s at 1/2", RepShape(stops=Stops(2000, HALF))),
        ("stop 1.5 at 1/3 2/3", RepShape(stops=Stops(1500, (Fraction(1, 3), Fraction(2, 3))))),
        ("stop 2s at 2/4", RepShape(stops=Stops(2000, HALF))),
        ("sides alternating", RepShape(sides=Sides.ALTERNATING)),
        ("two up one down", RepShape(sides=Sides.ONE_DOWN)),
        ("lower @ 105%", RepShape(lower_load=MORE)),
        ("first lower @105%", RepShape(lower_load=LowerLoad(MORE.load, first_rep_only=True))),
    ],
)
def test_a_shape_is_read_in_the_trades_words(text: str, shape: RepShape) -> None:
    assert parse_shape(text) == shape


@given(shapes)
def test_a_shape_that_is_written_reads_as_itself(shape: RepShape) -> None:
    assert parse_shape(str(shape)) == shape
    assert bool(shape) == bool(str(shape))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("stop 0 s at 1/2", "a stop of 0 s is not possible"),
        ("stop 61 s at 1/2", "a stop of 61 s is not possible"),
        ("stop 1 s at 1/1", "a stop at 1 of the way down is not possible"),
        ("stop 1 s at 0/2", "a stop at 0 of the way down is not possible"),
        ("stop 1 s at 1/13", "a stop at 1/13 of the way down is not possible"),
        ("stop 1 s at 1/0", "a part of nothing"),
        ("stop 1 s at 2/3 1/3", "not in order"),
        ("stop 1 s at 1/2 2/4", "not in order"),
        ("stop 1 s at 1/7 2/7 3/7 4/7 5/7 6/7", "6 stops in one lower"),
        ("stop 1 s", "the stop is not understood"),
        ("stop 1 s at half", "the stop is not understood"),
        ("stop 1.23456 s at 1/2", "too many digits"),
        ("lower 105%", "stands behind '@'"),
        ("lower @ much", "'much' is no load"),
        ("lower @", "the load is missing"),
        ("lower @ 170%", "a load of 170% is not possible"),
        ("raise only lower @ 105%", "'raise only' and 'lower @ 105%' can't go together"),
        ("raise only stop 1 s at 1/2", "can't go together"),
        ("lowering only two up one down", "can't go together"),
        ("lowering only lower @ 105%", "write what is lowered as the load"),
        ("lowering only raise only", "whose work the rep is stands there twice"),
        ("sides alternating two up one down", "how the sides take turns stands there twice"),
        ("lower @ 105% first lower @ 120%", "what is lowered stands there twice"),
        ("lowering", "'lowering' is not understood"),
        ("rest 90", "says more than the shape of a rep"),
    ],
)
def test_a_shape_that_is_none_is_refused_with_what_is_wrong(text: str, said: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse_shape(text)

    assert said in str(caught.value)
    assert caught.value.hint


def test_a_shape_of_no_stops_is_refused() -> None:
    with pytest.raises(OutOfRange, match="0 stops in one lower"):
        Stops(1000, ())


def test_whose_work_a_phase_is_follows_from_the_shape() -> None:
    lowering, raising = RepShape(only=Phase.LOWER), RepShape(only=Phase.RAISE)

    assert [lowering.counts(phase) for phase in Phase] == [True, True, False, True]
    assert [raising.counts(phase) for phase in Phase] == [False, True, True, True]
    assert all(map(PLAIN.counts, Phase))
