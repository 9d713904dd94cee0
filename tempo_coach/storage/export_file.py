"""The file of an export, for the user's eyes alone."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import IO

from tempo_coach.core.export_columns import Format
from tempo_coach.core.export_tables import ExportTable
from tempo_coach.core.export_text import csv_text, json_text
from tempo_coach.core.legible import legible
from tempo_coach.errors import FileProblem
from tempo_coach.storage.reasons import reason
from tempo_coach.storage.whole_file import whole_file


def write_export(file: IO[bytes], tables: Sequence[ExportTable], form: Format) -> None:
    """Write tables; a format of text takes one alone.

    Raises
    ------
    OutOfRange
        A table is too long for the format.
    OSError
        The file does not take it.
    """
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


class ExportStream:
    """An open stream that an export goes to, such as standard output.

    Parameters
    ----------
    stream
        What takes the bytes.
    name
        What it is called.
    """

    def __init__(self, stream: IO[bytes], *, name: str) -> None:
        self._stream = stream
        self.name = name

    def check(self, *, replace: bool) -> None:
        """Find nothing to say: there is no file that could be in the way."""

    def write(self, tables: Sequence[ExportTable], form: Format, *, replace: bool) -> None:
        """Write tables; what was written before a fault stays written.

        Raises
        ------
        FileProblem
            It did not take them.
        OutOfRange
            A table is too long for the format.
        """
        del replace
        try:
            write_export(self._stream, tables, form)
            self._stream.flush()
        except BrokenPipeError:
            raise  # whoever read it has had enough, which is no fault
        except OSError as fault:
            raise FileProblem(
                f"{self.name} can't be written: {reason(fault)}",
                path=Path(self.name),
                hint="give a file with -o",
            ) from fault


class ExportFile:
    """A file that an export goes to.

    Parameters
    ----------
    path
        The file; its folder must be there.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    @property
    def name(self) -> str:
        """The path."""
        return legible(str(self._path))

    def check(self, *, replace: bool) -> None:
        """See whether the file can be written, before the logs are read for it.

        Raises
        ------
        FileProblem
            The folder is missing or does not take files, something other than a file is there, or
            a file is and `replace` does not allow to write over it.
        """
        folder = self._path.parent
        if not folder.is_dir():
            raise self._problem(
                f"the folder {legible(str(folder))} is not there", hint="make it first"
            )
        if not os.access(folder, os.W_OK | os.X_OK):
            raise self._problem(
                f"the folder {legible(str(folder))} does not take files: permission is denied",
                hint="give a file in another folder",
            )
        if not self._path.exists():
            return
        if not self._path.is_file():
            raise self._problem(
                f"{self.name} is a folder or a device, and no file",
                hint="give a file, or '-o -' with --format for standard output",
            )
        if not replace:
            raise self._problem(f"{self.name} is there already", hint="--replace writes over it")

    def write(self, tables: Sequence[ExportTable], form: Format, *, replace: bool) -> None:
        """Write tables whole or not at all.

        Raises
        ------
        FileProblem
            As for `check`, or the disk did not take it.
        OutOfRange
            A table is too long for the format.
        """
        try:
            with whole_file(self._path) as file:
                write_export(file, tables, form)
                # Once more, since minutes may have passed.
                self.check(replace=replace)
        except OSError as fault:
            raise self._problem(
                f"{self.name} can't be written: {reason(fault)}",
                hint="free some space or give another file with -o",
            ) from fault

    def _problem(self, message: str, *, hint: str) -> FileProblem:
        return FileProblem(message, path=self._path, hint=hint)
