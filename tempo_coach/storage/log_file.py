"""The log as a JSON Lines file, append only."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from pathlib import Path

from tempo_coach.core.facts import Fact, line_of
from tempo_coach.core.legible import legible
from tempo_coach.core.log_lines import TORN, Skipped, Unread, read_line
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
        try:
            with self._path.open("rb") as file:
                for number, line in enumerate(file, start=1):
                    if (read := self._read_line(number, line)) is not None:
                        yield read
        except FileNotFoundError as fault:
            if self._must_exist:
                raise self._unreadable(fault) from fault
        except OSError as fault:
            raise self._unreadable(fault) from fault

    def _read_line(self, number: int, line: bytes) -> Fact | Skipped | None:
        if not line.strip():
            return None
        read = read_line(line.rstrip(b"\r\n"))
        if not isinstance(read, Unread):
            return read
        why = read.why if line.endswith(b"\n") or read.foreign else TORN
        return Skipped(self.name, number, why, read.foreign)

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
