"""The coach's key for pseudonyms, which never leaves the machine."""

from __future__ import annotations

import os
import secrets
from contextlib import suppress
from pathlib import Path

from tempo_coach.core.legible import legible
from tempo_coach.core.pseudonyms import KEY_BYTES
from tempo_coach.errors import FileProblem, FileUnreadable
from tempo_coach.storage.reasons import reason


class PseudonymKey:
    """A key as a file private to the user.

    Parameters
    ----------
    path
        The file; it and its folder are made when the key is first asked for.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    @property
    def name(self) -> str:
        """The path."""
        return legible(str(self._path))

    def key(self) -> bytes:
        """Return the key, the same every time.

        Raises
        ------
        FileProblem
            There is none yet, and the disk did not take one.
        FileUnreadable
            The file can't be read, or is no key.
        """
        if not self._path.exists():
            self._make()
        return self._read()

    def _make(self) -> None:
        # Beside, and then linked, so that no other start ever reads half a key.
        beside = self._path.with_name(f".{self._path.name}.{secrets.token_hex(4)}")
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            descriptor = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
            with os.fdopen(descriptor, "w", encoding="ascii") as file:
                file.write(secrets.token_hex(KEY_BYTES) + "\n")
                file.flush()
                os.fsync(file.fileno())
            self._path.hardlink_to(beside)
        except OSError as fault:
            if not self._path.exists():
                raise FileProblem(
                    f"the key for pseudonyms {self.name} can't be made: {reason(fault)}",
                    path=self._path,
                    hint="without a key that is kept, codes would change with every export",
                ) from fault
        finally:
            with suppress(OSError):
                beside.unlink(missing_ok=True)

    def _read(self) -> bytes:
        try:
            key = bytes.fromhex(self._path.read_text(encoding="ascii"))
        except OSError as fault:
            raise self._unreadable(reason(fault)) from fault
        except ValueError as fault:
            raise self._unreadable("it is no key") from fault
        if len(key) != KEY_BYTES:
            raise self._unreadable("it is no key")
        return key

    def _unreadable(self, why: str) -> FileUnreadable:
        return FileUnreadable(
            f"the key for pseudonyms {self.name} can't be read: {why}",
            path=self._path,
            hint="put back the one you had; if you remove it, codes will be others from then on",
        )
