"""Where a command writes what it made: a file for the user's eyes alone, or a stream."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import IO, TypeAlias

from tempo_coach.core.legible import legible
from tempo_coach.errors import FileProblem
from tempo_coach.storage.reasons import reason
from tempo_coach.storage.whole_file import whole_file

Fill: TypeAlias = Callable[[IO[bytes]], None]
"""Writes everything; an `OSError` says that it was not taken."""


class OpenStream:
    """An open stream, such as standard output.

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

    def write(self, fill: Fill, *, replace: bool) -> None:
        """Write everything; what was written before a fault stays written.

        Raises
        ------
        FileProblem
            It did not take it.
        """
        del replace
        try:
            fill(self._stream)
            self._stream.flush()
        except BrokenPipeError:
            raise  # whoever read it has had enough, which is no fault
        except OSError as fault:
            raise FileProblem(
                f"{self.name} can't be written: {reason(fault)}",
                path=Path(self.name),
                hint="give a file with -o",
            ) from fault


class PrivateFile:
    """A file that is written whole or not at all.

    Parameters
    ----------
    path
        The file; its folder must be there.
    stream_option
        How standard output is asked for instead.
    """

    def __init__(self, path: Path, *, stream_option: str) -> None:
        self._path = path
        self._stream_option = stream_option

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
                hint=f"give a file, or {self._stream_option} for standard output",
            )
        if not replace:
            raise self._problem(f"{self.name} is there already", hint="--replace writes over it")

    def write(self, fill: Fill, *, replace: bool) -> None:
        """Write everything or nothing.

        Raises
        ------
        FileProblem
            As for `check`, or the disk did not take it.
        """
        try:
            with whole_file(self._path) as file:
                fill(file)
                # Once more, since minutes may have passed.
                self.check(replace=replace)
        except OSError as fault:
            raise self._problem(
                f"{self.name} can't be written: {reason(fault)}",
                hint="free some space or give another file with -o",
            ) from fault

    def _problem(self, message: str, *, hint: str) -> FileProblem:
        return FileProblem(message, path=self._path, hint=hint)


Output: TypeAlias = PrivateFile | OpenStream
"""What a command writes to."""
