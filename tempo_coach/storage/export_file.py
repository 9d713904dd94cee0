"""The file of an export."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import IO

from tempo_coach.core.export_columns import Format
from tempo_coach.core.export_tables import ExportTable
from tempo_coach.core.export_text import csv_text, json_text
from tempo_coach.storage.private_file import Output


class ExportFile:
    """What an export goes to.

    Parameters
    ----------
    to
        A file, or an open stream.
    """

    def __init__(self, to: Output) -> None:
        self._to = to

    @property
    def name(self) -> str:
        """Where it goes."""
        return self._to.name

    def check(self, *, replace: bool) -> None:
        """See whether it can be written, before the logs are read for it.

        Raises
        ------
        FileProblem
            It can't be; `replace` allows to write over a file that is there.
        """
        self._to.check(replace=replace)

    def write(self, tables: Sequence[ExportTable], form: Format, *, replace: bool) -> None:
        """Write tables; a format of text takes one alone.

        Raises
        ------
        FileProblem
            As for `check`, or they were not taken.
        OutOfRange
            A table is too long for the format.
        """
        self._to.write(lambda file: _write(file, tables, form), replace=replace)


def _write(file: IO[bytes], tables: Sequence[ExportTable], form: Format) -> None:
    match form:
        case Format.XLSX:
            # A third of a second, and only needed here.
            from tempo_coach.storage.workbook import write_workbook

            write_workbook(file, tables)
        case Format.CSV:
            (table,) = tables
            _write_text(file, csv_text(table))
        case Format.JSON:
            (table,) = tables
            _write_text(file, json_text(table))


def _write_text(file: IO[bytes], lines: Iterable[str]) -> None:
    for line in lines:
        file.write(line.encode())
