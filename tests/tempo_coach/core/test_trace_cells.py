from __future__ import annotations

import math

import pytest

from tempo_coach.core.trace_cells import cells_of, moment, number


@pytest.mark.parametrize(
    ("cell", "decimal", "value"),
    [
        ("1.5", ".", 1.5),
        ("1,5", ",", 1.5),
        ("-.5", ".", -0.5),
        ("−0,25", ",", -0.25),
        ("1e-3", ".", 0.001),
        ("1,234.5", ".", 1234.5),
        ("1.234,5", ",", 1234.5),
        ("1,234,567", ".", 1_234_567.0),
        ("1 234,5", ",", 1234.5),
        ("1'234.5", ".", 1234.5),
        ("0.123", ".", 0.123),
    ],
)
def test_numbers_are_read_as_their_country_writes_them(
    cell: str, decimal: str, value: float
) -> None:
    assert number(cell, decimal=decimal) == value


@pytest.mark.parametrize("cell", ["", "NaN", "NA", "null", "-"])
def test_a_cell_may_say_that_it_holds_nothing(cell: str) -> None:
    value = number(cell, decimal=".")

    assert value is not None
    assert math.isnan(value)


@pytest.mark.parametrize("cell", ["left", "1.2.3", "12a", "0x10", "1,2"])
def test_a_text_is_no_number(cell: str) -> None:
    assert number(cell, decimal=".") is None


@pytest.mark.parametrize(
    ("cell", "seconds"),
    [
        ("0:01:02.50", 62.5),
        ("1:02.5", 62.5),
        ("62.5", 62.5),
    ],
)
def test_a_clock_s_time_is_in_seconds(cell: str, seconds: float) -> None:
    assert moment(cell, decimal=".") == seconds


def test_two_times_of_a_day_are_as_far_apart_as_they_say() -> None:
    one, other = (
        moment(f"2026-11-25T18:00:{second}+01:00", decimal=".") for second in ("10.000", "10.040")
    )

    assert one is not None
    assert other is not None
    assert other - one == pytest.approx(0.04, abs=1e-6)


@pytest.mark.parametrize(
    ("line", "separator", "cells"),
    [
        ('"0,01","1,23"', ",", ["0,01", "1,23"]),
        ("0.01;;3", ";", ["0.01", "", "3"]),
        (" 0.01   1.23", "", ["0.01", "1.23"]),
        ('"bar height" 2', "", ["bar height", "2"]),
    ],
)
def test_cells_are_parted_and_unquoted(line: str, separator: str, cells: list[str]) -> None:
    assert cells_of(line, separator) == cells
