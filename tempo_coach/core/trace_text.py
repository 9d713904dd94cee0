"""Reads a trace from the text of a table."""

from __future__ import annotations

import numpy as np

from tempo_coach.core.bar_motion import Floats
from tempo_coach.core.legible import quoted
from tempo_coach.core.marks import counted
from tempo_coach.core.trace import Quantity, Trace
from tempo_coach.core.trace_cells import is_clock
from tempo_coach.core.trace_columns import Chosen, Column, Wishes, chosen_columns, unit_hint
from tempo_coach.core.trace_table import Dialect, columns_of, dialect_of, line_of, rows_of
from tempo_coach.core.trace_units import known_unit, unit_size, units_of
from tempo_coach.errors import TraceRefused

_WIDEST_M = 5.0
"""No bar goes further: its unit is another. Ours, by choice."""
_FASTEST_M_S = 15.0
_LATEST_S = 100_000.0
"""A clock that shows more does not count from a recording's beginning."""


def read_trace(text: str, wishes: Wishes | None = None) -> Trace:
    """Read a table with a row for each sample.

    Separators, decimal marks, headings and units are found in the text, or given.

    Raises
    ------
    TraceRefused
        There is no such table, a column or unit is not clear, a cell is no number, or the time
        does not go on.
    OutOfRange
        A unit that is given is none.
    """
    wishes = wishes or Wishes()
    dialect = dialect_of(text)
    headings = dialect.headings if len(dialect.headings) == dialect.columns else ()
    if dialect.headings and not headings:
        raise TraceRefused(
            f"line {dialect.first_row + 1} has {counted(dialect.columns, 'cell')}, and the "
            f"headings above it are {len(dialect.headings)}",
            hint="part the cells of all lines by the same sign",
        )
    chosen = chosen_columns(headings, dialect.units, dialect.columns, wishes)
    places = [chosen.bar.place] if chosen.time is None else [chosen.bar.place, chosen.time.place]
    values, *times = columns_of(text, dialect, places)
    remarks = list(chosen.remarks)
    if chosen.time is None:
        assert wishes.rate_hz is not None  # noqa: S101 - chosen_columns asks for one of the two
        times_s = np.arange(values.size) / wishes.rate_hz
    else:
        times_s, values = _times(text, dialect, chosen.time, times[0], values, wishes, remarks)
    values = values * _size(chosen.bar, chosen.quantity, wishes.unit, remarks)
    _check_size(values, chosen, wishes)
    trace = -values if wishes.down_positive else values
    return Trace(times_s, trace, chosen.quantity, tuple(remarks))


def _times(
    text: str, dialect: Dialect, column: Column, given: Floats, values: Floats, wishes: Wishes,
    remarks: list[str],
) -> tuple[Floats, Floats]:  # fmt: skip
    """Return the times in seconds, with the values of those rows that have one."""
    _, cells = next(rows_of(text, dialect))
    if wishes.time_unit is None and is_clock(cells[column.place]):
        size = 1.0
    else:
        size = _size(column, None, wishes.time_unit, remarks)
    has_time = np.isfinite(given)
    if untimed := int((~has_time).sum()):
        remarks.append(f"{counted(untimed, 'row')} without a time left out.")
    steps = np.diff(given[has_time])
    wrong = np.flatnonzero(steps <= 0)
    if wrong.size:
        before, row = np.flatnonzero(has_time)[wrong[0] : wrong[0] + 2]
        line = line_of(text, dialect, int(row))
        at, to = f"{given[before]:g}", f"{given[row]:g}"
        if given[row] == given[before]:
            raise TraceRefused(
                f"line {line}: the time {to} stands there twice",
                hint="take one out; where times are rounded, --rate 100 counts the rows instead",
            )
        raise TraceRefused(
            f"line {line}: the time runs backwards, from {at} to {to}",
            hint="sort the rows, or give the part before it as a file of its own",
        )
    times = given[has_time]
    if times.size and abs(times[0]) * size > _LATEST_S:
        times = times - times[0]
        remarks.append("Times are counted from the first sample.")
    return times * size, values[has_time]


def _size(
    column: Column, quantity: Quantity | None, given: str | None, remarks: list[str]
) -> float:
    """Return what one of a column's units is in the SI."""
    if given is not None:
        return float(unit_size(given, quantity))
    what = "time" if quantity is None else quantity.value
    if column.unit is None:
        unit = "s" if quantity is None else quantity.unit
        remarks.append(f"The {what} names no unit and is read as {unit}.")
        return 1.0
    if known_unit(column.unit, quantity) is None:
        raise TraceRefused(
            f"the {what} is in {quoted(column.unit)}, which is no unit of it that is known here",
            hint=unit_hint(quantity),
        )
    return float(units_of(quantity)[column.unit])


def _check_size(values: Floats, chosen: Chosen, wishes: Wishes) -> None:
    """Refuse a unit that was only assumed and can't be so."""
    if wishes.unit is not None or chosen.bar.unit is not None or not np.isfinite(values).any():
        return
    spread, largest = float(np.nanmax(values) - np.nanmin(values)), float(np.nanmax(np.abs(values)))
    if chosen.quantity is Quantity.HEIGHT and spread > _WIDEST_M:
        raise TraceRefused(
            f"the height names no unit, and a bar does not go {spread:.4g} m",
            hint=unit_hint(Quantity.HEIGHT),
        )
    if chosen.quantity is Quantity.SPEED and largest > _FASTEST_M_S:
        raise TraceRefused(
            f"the speed names no unit, and a bar does not reach {largest:.4g} m/s",
            hint=unit_hint(Quantity.SPEED),
        )
