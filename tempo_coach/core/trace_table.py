"""The table in a trace's text: where it begins, how it is written, and its columns of numbers."""

from __future__ import annotations

import io
import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

import numpy as np

from tempo_coach.core.bar_motion import Floats
from tempo_coach.core.legible import quoted
from tempo_coach.core.marks import counted
from tempo_coach.core.trace_cells import cells_of, is_grouped, moment
from tempo_coach.errors import TraceRefused

MOST_ROWS = 5_000_000
"""Seven hours at 200 samples a second; as numbers, 80 MB."""
_LOOKED_AT = 200
"""Lines from which it is seen how a table is written."""
_COMMENTS = ("#", "%", "//")
# In the order of trust: a tab or a semicolon parts nothing else; a comma may be a decimal's.
_WAYS = (("\t", "."), ("\t", ","), (";", "."), (";", ","), (",", "."), ("", "."), ("", ","),
         (",", ","))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Dialect:
    """How a table is written."""

    separator: str
    """Empty for any white space."""
    decimal: str
    columns: int
    first_row: int
    """The line of the first row of numbers, from 0."""
    headings: tuple[str, ...]
    """Empty where there are none."""
    units: tuple[str, ...] = ()
    """A row of units between headings and numbers."""


def dialect_of(text: str) -> Dialect:
    """See how a trace's text is written.

    Raises
    ------
    TraceRefused
        There is no row of numbers in its first lines.
    """
    lines = list(islice(io.StringIO(text), _LOOKED_AT))
    best, best_score = None, (0.0, 0)
    for separator, decimal in _WAYS:
        found = _written(lines, separator, decimal)
        if found is None:
            continue
        dialect, rows, grouped = found
        # A column alone is what any text is to a sign that is not in it.
        trust = 0.5 if dialect.columns == 1 else 1.0
        if len(dialect.headings) not in (0, dialect.columns):
            trust *= 0.4
        # Of two ways that read as much, the one in which fewer numbers part their thousands.
        score = (round(rows * trust, 2), -grouped)
        if score > best_score:
            best, best_score = dialect, score
    if best is None:
        raise TraceRefused(
            f"there is no row of numbers in the first {len(lines)} lines",
            hint="give a table as text: a row a sample, with columns for the time and the height",
        )
    return best


def _written(
    lines: Sequence[str], separator: str, decimal: str
) -> tuple[Dialect, float, int] | None:
    """Read the first lines in one way.

    Returns
    -------
    tuple
        The way, how many rows of numbers it finds (parts of them for texts between), and how many
        of the numbers have signs between thousands. None where there are no numbers.
    """
    rows: list[tuple[int, list[str], int]] = []
    for at, line in enumerate(lines):
        if line.isspace() or line.lstrip().startswith(_COMMENTS):
            continue
        cells = cells_of(
            line.strip(" \r\n\ufeff") if separator != "\t" else line.strip("\r\n\ufeff"), separator
        )
        read = [moment(cell, decimal=decimal) for cell in cells]
        # Empty cells alone make no row of numbers.
        has_number = any(value is not None and not math.isnan(value) for value in read)
        rows.append((at, cells, has_number * sum(value is not None for value in read)))
    widths = Counter(len(cells) for _, cells, good in rows if 2 * good > len(cells))
    if not widths:
        return None
    width = widths.most_common(1)[0][0]
    data = [row for row in rows if len(row[1]) == width and 2 * row[2] > width]
    first = data[0][0]
    above = [cells for at, cells, good in rows if at < first and not good]
    headings: tuple[str, ...] = tuple(above[-1]) if above else ()
    units: tuple[str, ...] = ()
    if len(above) > 1 and len(above[-2]) == len(above[-1]) == width and _are_units(above[-1]):
        headings, units = tuple(above[-2]), tuple(above[-1])
    whole = sum(good / width for _, _, good in data)
    grouped = sum(is_grouped(cell, decimal=decimal) for _, cells, _ in data for cell in cells)
    return Dialect(separator, decimal, width, first, headings, units), whole, grouped


def _are_units(cells: Sequence[str]) -> bool:
    return all(len(cell.strip("()[]")) <= 6 for cell in cells)


def columns_of(text: str, dialect: Dialect, wanted: Sequence[int]) -> list[Floats]:
    """Return columns of numbers, with NaN where a cell holds none.

    Parameters
    ----------
    text
        The whole text.
    dialect
        How it is written.
    wanted
        Their places, from 0.

    Raises
    ------
    TraceRefused
        A cell is no number, a row is too short, or there are too many rows.
    """
    begins = _line_begins(text, dialect.first_row)
    rows = text.count("\n", begins) + 1
    if rows > MOST_ROWS:
        raise TraceRefused(
            f"{rows:,} rows are too many", hint=f"at most {MOST_ROWS:,}; give one set or session"
        )
    quick = _quickly(text, begins, dialect, wanted)
    return _plainly(text, dialect, wanted) if quick is None else quick


def _line_begins(text: str, line: int) -> int:
    begins = 0
    for _ in range(line):
        begins = text.index("\n", begins) + 1
    return begins


def _quickly(
    text: str, begins: int, dialect: Dialect, wanted: Sequence[int]
) -> list[Floats] | None:
    """Read plain rows by NumPy's own reader, twenty times as fast; None where it can't."""
    if dialect.decimal == "," == dialect.separator:
        return None
    body = text[begins:] if begins else text
    if '"' in body or (dialect.decimal == "." and dialect.separator != "," and "," in body):
        return None
    if dialect.decimal == ",":
        if "." in body:
            return None
        body = body.replace(",", ".")
    sign = dialect.separator
    if sign and any(two in body for two in (sign * 2, f"{sign}\n", f"{sign}\r", f"\n{sign}")):
        body = _filled(body, sign)
    try:
        # Comments are left to the plain reader: looking for them takes twice as long.
        read = np.loadtxt(
            io.StringIO(body), delimiter=dialect.separator or None, usecols=tuple(wanted),
            comments=None, ndmin=2, dtype=np.float64,
        )  # fmt: skip
    except ValueError:
        return None
    read[~np.isfinite(read)] = np.nan
    return list(np.ascontiguousarray(read.T))


def _filled(body: str, sign: str) -> str:
    """Write ``nan`` into empty cells."""
    body = body.replace("\r\n", "\n")
    for _ in range(2):
        body = body.replace(f"{sign}{sign}", f"{sign}nan{sign}")
    body = body.replace(f"{sign}\n", f"{sign}nan\n").replace(f"\n{sign}", f"\nnan{sign}")
    body = f"nan{body}" if body.startswith(sign) else body
    return f"{body}nan" if body.endswith(sign) else body


def _plainly(text: str, dialect: Dialect, wanted: Sequence[int]) -> list[Floats]:
    least = max(wanted) + 1
    found: list[list[float]] = [[] for _ in wanted]
    for line, cells in rows_of(text, dialect):
        if len(cells) < least:
            raise TraceRefused(
                f"line {line} has {counted(len(cells), 'cell')}, and column {least} is needed",
                hint="take out what is no row of the table",
            )
        for place, values in zip(wanted, found, strict=True):
            value = moment(cells[place], decimal=dialect.decimal)
            if value is None:
                raise TraceRefused(
                    f"line {line}: {quoted(cells[place])} is no number",
                    hint="leave a cell empty where there is no value",
                )
            values.append(value)
    return [np.array(values, dtype=np.float64) for values in found]


def rows_of(text: str, dialect: Dialect) -> Iterator[tuple[int, list[str]]]:
    """Yield each row's line, counted from 1, and its cells; empty lines and comments are none."""
    strip = "\r\n" if dialect.separator == "\t" else " \r\n"
    for at, line in enumerate(io.StringIO(text)):
        if at < dialect.first_row or line.isspace() or line.lstrip().startswith(_COMMENTS):
            continue
        yield at + 1, cells_of(line.strip(strip), dialect.separator)


def line_of(text: str, dialect: Dialect, row: int) -> int:
    """Return the line of a row, both counted as a person and a computer do: from 1, from 0."""
    return next(islice((line for line, _ in rows_of(text, dialect)), row, None))
