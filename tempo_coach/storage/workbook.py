"""An export as a workbook of typed cells, written row by row."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import suppress
from datetime import date, datetime
from typing import IO, Any

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter

from tempo_coach.core.export_columns import By, Cell, explained, named
from tempo_coach.core.export_tables import ExportTable
from tempo_coach.core.export_text import plain_text
from tempo_coach.errors import OutOfRange

MOST_ROWS = 1_048_576
"""What a sheet holds, its heading included."""
_FIRST_YEAR = 1900
"""Where the calendar of workbooks begins; days before it are written as text."""
_TITLES = {
    By.SET: "sets",
    By.DAY: "days",
    By.WEEK: "weeks",
    By.EXERCISE: "exercises",
    By.TEMPO: "tempos",
    By.MAX: "maxes",
    By.READINESS: "readiness",
}
_EXPLAINED = ("column", "unit", "meaning", "sheets")
_WIDTHS = {
    "note": 40,
    "exercise": 24,
    "lifter": 20,
    "meaning": 90,
    "way": 20,
    "criterion": 28,
    "asked": 60,
    "evidence": 50,
    "missing": 50,
    "started_at": 20,
    "ended_at": 20,
}
_WIDTH = 14
# What a text must not begin with to be written as it is: openpyxl takes it for a formula, or for
# an error such as #N/A.
_TAKEN_FOR_MORE = ("=", "#")


def write_workbook(file: IO[bytes], tables: Sequence[ExportTable]) -> None:
    """Write a sheet for each table, and one that explains the columns.

    Raises
    ------
    OutOfRange
        A table has more rows than a sheet holds.
    OSError
        The file does not take it.
    """
    for table in tables:
        if table.length >= MOST_ROWS:
            raise OutOfRange(
                f"{table.length:,} {_TITLES[table.by]} do not fit into a sheet, which holds "
                f"{MOST_ROWS - 1:,} rows",
                hint="choose fewer with --from or --lifter, add them up with --by week, or write "
                "a .csv",
            )
    book = Workbook(write_only=True)
    try:
        _add_sheets(book, tables)
        book.save(file)
    except BaseException:
        # Else each sheet would try to write its end when it is thrown away, and complain aloud.
        for sheet in book.worksheets:
            with suppress(OSError, ValueError):
                sheet.close()
        raise


def _add_sheets(book: Workbook, tables: Sequence[ExportTable]) -> None:
    for table in tables:
        names = named(table.columns)
        rows = ([row[name] for name in names] for row in table.rows)
        _add_sheet(book, _TITLES[table.by], names, rows)
    written = {table.by: table.columns for table in tables}
    rows = (
        [column.name, column.unit, column.meaning, ", ".join(_TITLES[by] for by in standing)]
        for column, found in explained().items()
        if (standing := [by for by in found if column in written.get(by, ())])
    )
    _add_sheet(book, "columns", _EXPLAINED, rows)


def _add_sheet(
    book: Workbook, title: str, names: Sequence[str], rows: Iterable[Sequence[Cell]]
) -> None:
    sheet: Any = book.create_sheet(title)  # its stubs leave out the widths of columns
    sheet.freeze_panes = "A2"
    for number, name in enumerate(names, start=1):
        width = _WIDTHS.get(name, max(_WIDTH, len(name) + 2))
        sheet.column_dimensions[get_column_letter(number)].width = width
    headings = [WriteOnlyCell(sheet, name) for name in names]
    for heading in headings:
        heading.font = Font(bold=True)
    sheet.append(headings)
    for row in rows:
        sheet.append([_value(sheet, cell) for cell in row])


def _value(sheet: Any, cell: Cell) -> object:
    if isinstance(cell, date):
        if cell.year < _FIRST_YEAR:
            return cell.isoformat()
        # Workbooks know no offsets from UTC; what is meant is the lifter's local time.
        return cell.replace(tzinfo=None) if isinstance(cell, datetime) else cell
    if isinstance(cell, str):
        text = plain_text(cell)
        if text.startswith(_TAKEN_FOR_MORE):
            written = WriteOnlyCell(sheet, text)
            written.data_type = "s"
            return written
        return text or None
    return cell
