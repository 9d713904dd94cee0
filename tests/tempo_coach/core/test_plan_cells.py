from __future__ import annotations

from contextlib import suppress
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.load import LoadUnit
from tempo_coach.core.plan_cells import (
    Cell,
    SheetDate,
    SheetTime,
    is_blank,
    load_of,
    reps_of,
    rest_of,
    sets_of,
    tempo_of,
    text_of,
    weeks_of,
)
from tempo_coach.errors import NotationError, OutOfRange
from tests.tempo_coach.core import strategies

APRIL_1 = date(2001, 4, 1)

cells = st.one_of(
    st.none(),
    st.text(max_size=12),
    # No reader of a file lets half of a pair through.
    strategies.fragments.map(lambda text: text.replace("\ud800", "")),
    st.integers(-5, 5000),
    st.floats(allow_nan=False, allow_infinity=False),
    st.builds(SheetDate, st.dates(), st.permutations("dmy").map("".join)),
    st.builds(SheetTime, st.integers(0, 99), st.integers(0, 59), st.integers(0, 59)),
)


@pytest.mark.parametrize(
    ("cell", "tempo"),
    [
        ("4-1-X-1", "4-1-X-1"),
        (4111, "4-1-1-1"),
        (3010.0, "3-0-1-0"),
        ("41x1", "4-1-X-1"),
        ("4 1 X 1", "4-1-X-1"),
        ("4.1.1.0", "4-1-1-0"),
        ("4:1:1:0", "4-1-1-0"),
    ],
)
def test_a_tempo_is_read_as_coaches_write_it(cell: Cell, tempo: str) -> None:
    assert tempo_of(cell) == (tempo_of(tempo)[0], "")
    assert str(tempo_of(cell)[0]) == tempo


@pytest.mark.parametrize(
    ("cell", "tempo", "shown"),
    [
        # The same typing, 4-1-1, where the month, the day or the year comes first.
        (SheetDate(APRIL_1, "mdy"), "4-1-1-0", "2001-04-01"),
        (SheetDate(date(2001, 1, 4), "dmy"), "4-1-1-0", "2001-01-04"),
        (SheetDate(date(2004, 1, 1), "ymd"), "4-1-1-0", "2004-01-01"),
        ("04.01.2001", "4-1-1-0", "04.01.2001"),
        ("4/1/2001", "4-1-1-0", "4/1/2001"),
        ("2004-01-01", "4-1-1-0", "2004-01-01"),
        ("2004-01-01 00:00:00", "4-1-1-0", "2004-01-01 00:00:00"),
    ],
)
def test_a_tempo_that_became_a_date_is_read_and_said(cell: Cell, tempo: str, shown: str) -> None:
    read, said = tempo_of(cell)
    assert str(read) == tempo
    assert said == f"the date {shown} was read as the tempo {tempo}"


@pytest.mark.parametrize("cell", ["", None, "fast", 301, "2:4", SheetDate(date(2099, 1, 1), "ymd")])
def test_what_is_no_tempo_is_refused(cell: Cell) -> None:
    with pytest.raises(NotationError):
        tempo_of(cell)


@pytest.mark.parametrize(
    ("cell", "reps"), [(5, 5), ("5", 5), (5.0, 5), ("max", None), ("MAX", None)]
)
def test_reps_are_a_number_or_as_many_as_can_be_done(cell: Cell, reps: int | None) -> None:
    assert reps_of(cell) == reps


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        ("8-10", "'8-10' is no number of reps; one whole number from 1 to 100"),
        (None, "the reps are missing; "),
        (0, "'0' is no number of reps"),
        (101, "'101' is no number of reps"),
        (5.5, "'5.5' is no number of reps"),
        (SheetDate(date(2026, 10, 8), "dmy"), "the date '2026-10-08' is no number of reps"),
    ],
)
def test_what_is_no_single_number_of_reps_is_refused(cell: Cell, said: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        reps_of(cell)
    assert str(caught.value).startswith(said)


def test_sets_are_at_most_thirty() -> None:
    assert sets_of(30) == 30
    with pytest.raises(OutOfRange, match="'31' is no number of sets; one whole number"):
        sets_of(31)


@pytest.mark.parametrize(
    ("cell", "unit", "rest_s"),
    [
        ("3:00", None, 180),
        ("1:30 min", None, 90),
        ("00:01:30", None, 90),
        ("90", None, 90),
        (90, None, 90),
        ("90 s", None, 90),
        ("90sec", None, 90),
        ("3 min", None, 180),
        ("2,5 min", None, 150),
        (1.5, "min", 90),
        (3, "min", 180),
        (3, "s", 3),
        ('90"', None, 90),
    ],
)
def test_a_rest_is_read_as_coaches_write_it(cell: Cell, unit: str | None, rest_s: int) -> None:
    assert rest_of(cell, unit) == (rest_s * 1000, "")


@pytest.mark.parametrize(
    ("cell", "rest_s", "said"),
    [
        (3, 180, "the rest 3 was read as minutes"),
        # A spreadsheet makes hours and minutes of what is typed as minutes and seconds.
        (SheetTime(3, 0, 0), 180, "the time 3:00:00 was read as a rest of 3:00"),
        (SheetTime(1, 30, 0), 90, "the time 1:30:00 was read as a rest of 1:30"),
        (SheetTime(0, 45, 0), 45, "the time 0:45:00 was read as a rest of 45 s"),
        (SheetTime(0, 3, 0), 180, "the time 0:03:00 was read as a rest of 3:00"),
        (SheetTime(0, 1, 30), 90, "the time 0:01:30 was read as a rest of 1:30"),
    ],
)
def test_a_rest_that_is_not_plain_is_read_and_said(cell: Cell, rest_s: int, said: str) -> None:
    assert rest_of(cell, None) == (rest_s * 1000, said)


@pytest.mark.parametrize("cell", ["2-3 min", "long", "9999999999", "99:00", SheetTime(99, 0, 0)])
def test_what_is_no_rest_is_refused(cell: Cell) -> None:
    with pytest.raises(OutOfRange):
        rest_of(cell, None)


@pytest.mark.parametrize(
    ("cell", "unit", "load"),
    [
        (80, LoadUnit.KG, "80 kg"),
        (82.5, LoadUnit.KG, "82.5 kg"),
        ("82,5", LoadUnit.KG, "82.5 kg"),
        ("80kgs", LoadUnit.KG, "80 kg"),
        (175, LoadUnit.LB, "175 lb"),
        ("175 lbs", LoadUnit.KG, "175 lb"),
        ("80 kg", LoadUnit.LB, "80 kg"),
        ("@ 72%", LoadUnit.KG, "72%"),
        ("72 % 1RM", LoadUnit.KG, "72%"),
        (72, LoadUnit.PERCENT, "72%"),
        (0.72, LoadUnit.PERCENT, "72%"),
        (1.05, LoadUnit.PERCENT, "105%"),
        ("Body weight", LoadUnit.KG, "bw"),
        ("BW + 10kg", LoadUnit.KG, "bw+10 kg"),
    ],
)
def test_a_load_is_read_as_coaches_write_it(cell: Cell, unit: LoadUnit, load: str) -> None:
    assert str(load_of(cell, unit)) == load


@pytest.mark.parametrize("cell", ["heavy", "70-75%", "0", -5, 99999, "RPE 8"])
def test_what_is_no_load_is_refused(cell: Cell) -> None:
    with pytest.raises(OutOfRange):
        load_of(cell, LoadUnit.KG)


@pytest.mark.parametrize(
    ("cell", "weeks"),
    [
        (1, range(1, 2)),
        (2.0, range(2, 3)),
        ("Week 3", range(3, 4)),
        ("W4", range(4, 5)),
        ("1-4", range(1, 5)),
        ("deload", None),
        ("4-1", None),
        (0, None),
        (SheetDate(APRIL_1, "dmy"), None),
    ],
)
def test_a_week_is_a_number_or_several(cell: Cell, weeks: range | None) -> None:
    assert weeks_of(cell) == weeks


def test_a_dash_is_as_good_as_nothing() -> None:
    assert all(is_blank(cell) for cell in (None, "", "  ", "-", "–", "n/a"))
    assert not any(is_blank(cell) for cell in (0, "0", "x"))


@given(cells)
def test_any_cell_is_read_or_refused(cell: Cell) -> None:
    assert isinstance(text_of(cell), str)
    assert weeks_of(cell) is None or len(weeks_of(cell) or ()) > 0
    for read in (tempo_of, sets_of, reps_of, lambda one: rest_of(one, None)):
        try:
            read(cell)
        except (NotationError, OutOfRange):
            continue
    for unit in LoadUnit:
        with suppress(OutOfRange):
            assert load_of(cell, unit).amount >= 0
