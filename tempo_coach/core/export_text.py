"""An export as text: CSV or JSON."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from datetime import date

from tempo_coach.core.export_columns import Cell, named
from tempo_coach.core.export_tables import ExportTable
from tempo_coach.core.legible import legible

_FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet runs, where a text begins so (OWASP, CSV injection; CWE-1236)."""
_SPACES = ("\t", "\n", "\r")


def plain_text(text: str) -> str:
    r"""Return a text without controls other than tab and line break, which are spelt out."""
    if text.isprintable():
        return text
    return "".join(one if one in _SPACES else legible(one) for one in text)


def csv_text(table: ExportTable) -> Iterator[str]:
    """Yield an export line by line as CSV (RFC 4180)."""
    names = named(table.columns)
    line = io.StringIO(newline="")
    writer = csv.writer(line)
    writer.writerow(names)
    for row in table.rows:
        yield _taken(line)
        writer.writerow([_csv_cell(row[name]) for name in names])
    yield _taken(line)


def _taken(line: io.StringIO) -> str:
    text = line.getvalue()
    line.seek(0)
    line.truncate()
    return text


def _csv_cell(cell: Cell) -> object:
    if isinstance(cell, date):
        return cell.isoformat()
    if isinstance(cell, str):
        text = plain_text(cell)
        return f"'{text}" if text.startswith(_FORMULA) else text
    return cell


def json_text(table: ExportTable) -> Iterator[str]:
    """Yield an export piece by piece as one JSON value (RFC 8259), a row a line."""
    names = named(table.columns)
    columns = [
        {"name": one.name, "unit": one.unit, "meaning": one.meaning} for one in table.columns
    ]
    yield f'{{"by": {_json(table.by)},\n"columns": {_json(columns)},\n"rows": ['
    between = "\n"
    for row in table.rows:
        yield between + _json({name: row[name] for name in names})
        between = ",\n"
    yield "\n]}\n"


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False, default=_written)


def _written(value: object) -> str:
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"{value!r} is no cell")
