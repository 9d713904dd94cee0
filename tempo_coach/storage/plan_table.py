"""A coach's table as a file: text separated into columns, or a workbook."""

from __future__ import annotations

import codecs
import csv
import io
import lzma
import warnings
import zipfile
import zlib
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from tempo_coach.core.legible import legible
from tempo_coach.core.plan_cells import Cell, SheetDate, SheetTime
from tempo_coach.core.plan_table import Sheet
from tempo_coach.errors import FileUnreadable, TableRefused
from tempo_coach.storage.reasons import reason

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell as WorkbookCell
    from openpyxl.cell.cell import MergedCell

_WORKBOOK = b"PK\x03\x04"
_SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t"}
_UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
# What openpyxl raises on damaged workbooks, for which it has no error of its own.
_DAMAGED = (
    zipfile.BadZipFile, zlib.error, lzma.LZMAError, KeyError, ValueError, TypeError,
    AttributeError, IndexError, SyntaxError, EOFError, OSError, NotImplementedError,
    RuntimeError, OverflowError,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class TableFile:
    """A table on the disk."""

    path: Path

    @property
    def name(self) -> str:
        """The path."""
        return legible(str(self.path))

    def read(self) -> tuple[tuple[Sheet, ...], str]:
        """Return its sheets, and how its letters were read.

        A text gives one sheet for each sign that may separate its columns.

        Raises
        ------
        FileUnreadable
            The path is a folder, forbidden or missing.
        TableRefused
            The content is no table.
        """
        try:
            content = self.path.read_bytes()
        except OSError as fault:
            raise FileUnreadable(
                f"the table {self.name} can't be read: {reason(fault)}",
                path=self.path,
                hint="give a .csv or .xlsx file",
            ) from fault
        if content.startswith(_WORKBOOK):
            return self._workbook(content), "a workbook"
        text, letters = _decoded(content)
        if "\0" in text:
            raise self._refused("it is no text and no .xlsx workbook")
        try:
            sheets = tuple(
                Sheet(f"separated by {name}", _separated(text, sign))
                for name, sign in _SEPARATORS.items()
            )
        except csv.Error as fault:
            raise self._refused(str(fault)) from fault
        return sheets, letters

    def _workbook(self, content: bytes) -> tuple[Sheet, ...]:
        # A third of a second, and only needed here.
        from openpyxl import load_workbook
        from openpyxl.utils.exceptions import InvalidFileException

        try:
            with warnings.catch_warnings():
                # About styles and rules of input that it drops, which no plan needs.
                warnings.simplefilter("ignore")
                book = load_workbook(io.BytesIO(content), data_only=True)
                return tuple(
                    Sheet(
                        f"sheet {sheet.title}",
                        tuple(tuple(map(_cell, row)) for row in sheet.iter_rows()),
                    )
                    for sheet in book.worksheets
                )
        except (*_DAMAGED, InvalidFileException) as fault:
            raise self._refused("the workbook is damaged or encrypted") from fault

    def _refused(self, why: str) -> TableRefused:
        return TableRefused(
            f"the table {self.name} can't be read: {why}", hint="save it as .csv or .xlsx again"
        )


def _decoded(content: bytes) -> tuple[str, str]:
    if content.startswith(_UTF_16):
        return content.decode("utf-16", errors="replace"), "UTF-16"
    try:
        return content.decode("utf-8-sig"), "UTF-8"
    except UnicodeDecodeError:
        return content.decode("latin-1"), "Latin-1, since it is not UTF-8: look at the accents"


def _separated(text: str, sign: str) -> tuple[tuple[Cell, ...], ...]:
    return tuple(tuple(row) for row in csv.reader(io.StringIO(text, newline=""), delimiter=sign))


def _cell(cell: WorkbookCell | MergedCell) -> Cell:
    value = cell.value
    match value:
        case None:
            return None
        case bool():
            return str(value)
        case int() | float():
            return f"{value * 100:.3f}%" if "%" in cell.number_format else value
        case datetime() | date():
            day = value.date() if isinstance(value, datetime) else value
            return SheetDate(day, _order(cell.number_format))
        case time():
            return SheetTime(value.hour, value.minute, value.second)
        case timedelta():
            minutes, seconds = divmod(round(value.total_seconds()), 60)
            return SheetTime(*divmod(minutes, 60), seconds)
        case _:
            return str(value).encode("utf-8", "replace").decode()


def _order(number_format: str) -> str:
    """Return in which order a format shows day, month and year; ``dmy`` where it does not say."""
    shown = "".join(dict.fromkeys(one for one in number_format.lower() if one in "dmy"))
    return shown if len(shown) == 3 else "dmy"
