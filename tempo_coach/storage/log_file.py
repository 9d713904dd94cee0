"""The log as a JSON Lines file, append only."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Iterable, Iterator
from pathlib import Path

from tempo_coach.core.facts import Fact, line_of
from tempo_coach.core.legible import legible
from tempo_coach.core.log_lines import Skipped, read_whole_line
from tempo_coach.errors import LogUnreadable, LogUnwritable
from tempo_coach.storage.reasons import reason

# Devices and some network file systems can't be synchronised, which is no failed write.
_NO_SYNC = {errno.EINVAL, errno.ENOTSUP}


class LogFile:
    """One log on the disk; implements `core.ports.Log`.

    Parameters
    ----------
    path
        The file; it and its folder are made at the first fact, private to the user.
    must_exist
        Whether a missing file is an error to read; else it is an empty log.
    """

    def __init__(self, path: Path, *, must_exist: bool = False) -> None:
        self._path = path
        self._must_exist = must_exist

    @property
    def name(self) -> str:
        """The path."""
        return legible(str(self._path))

    def append(self, fact: Fact) -> None:
        """Put one fact on the disk by one write, and synchronise.

        Raises
        ------
        LogUnwritable
            The disk did not take the whole line; a part of it may be there and is passed over
            when the log is read.
        """
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            # A fresh descriptor each time: one whose fsync failed must not be trusted again.
            descriptor = os.open(
                self._path, os.O_RDWR | os.O_APPEND | os.O_CREAT | os.O_CLOEXEC, 0o600
            )
            try:
                _write_line(descriptor, line_of(fact))
            finally:
                os.close(descriptor)
        except OSError as fault:
            raise LogUnwritable(
                f"the log {self.name} can't be written: {reason(fault)}",
                path=self._path,
                hint="free some space or give another file with --log",
            ) from fault

    def read(self) -> Iterator[Fact | Skipped]:
        """Yield every line in order, as a fact or as the reason why it is skipped.

        Raises
        ------
        LogUnreadable
            The path is a folder, forbidden, or missing where it must exist.
        """
        for number, line in enumerate(self.lines(), start=1):
            read = read_whole_line(line, file=self.name, number=number)
            if read is not None:
                yield read

    def lines(self) -> Iterator[bytes]:
        """Yield every line as it stands there, with its line feed.

        Raises
        ------
        LogUnreadable
            As for `read`.
        """
        try:
            with self._path.open("rb") as file:
                # A device such as /dev/full keeps nothing, and what it gives may never end.
                if not stat.S_ISCHR(os.fstat(file.fileno()).st_mode):
                    yield from file
        except FileNotFoundError as fault:
            if self._must_exist:
                raise self._unreadable(fault) from fault
        except OSError as fault:
            raise self._unreadable(fault) from fault

    def lines_at(self, offsets: Iterable[int]) -> Iterator[bytes]:
        """Yield the lines that begin so many bytes into the file.

        Raises
        ------
        LogUnreadable
            The file is no longer there, or can't be read twice, as a pipe can't.
        """
        try:
            with self._path.open("rb") as file:
                for offset in offsets:
                    file.seek(offset)
                    yield file.readline()
        except OSError as fault:
            raise self._unreadable(fault) from fault

    def size(self) -> int:
        """Return its bytes; 0 where that can't be told."""
        try:
            return self._path.stat().st_size
        except OSError:
            return 0

    def _unreadable(self, fault: OSError) -> LogUnreadable:
        return LogUnreadable(
            f"the log {self.name} can't be read: {reason(fault)}",
            path=self._path,
            hint="give a JSON Lines file that this program wrote",
        )


def _write_line(descriptor: int, line: bytes) -> None:
    size = os.fstat(descriptor).st_size
    if size and os.pread(descriptor, 1, size - 1) != b"\n":
        line = b"\n" + line  # a torn line before it stays alone
    if os.write(descriptor, line) != len(line):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
    try:
        os.fsync(descriptor)
    except OSError as fault:
        if fault.errno not in _NO_SYNC:
            raise
