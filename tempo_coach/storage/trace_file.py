"""A trace as a file: text in any usual encoding."""

from __future__ import annotations

import codecs
from dataclasses import dataclass
from pathlib import Path

from tempo_coach.core.legible import legible
from tempo_coach.core.trace import Trace
from tempo_coach.core.trace_columns import Wishes
from tempo_coach.core.trace_text import read_trace
from tempo_coach.errors import FileUnreadable, TraceRefused
from tempo_coach.storage.reasons import reason

MOST_BYTES = 512 * 1024 * 1024
_UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


@dataclass(frozen=True, slots=True)
class TraceFile:
    """A trace on the disk."""

    path: Path

    @property
    def name(self) -> str:
        """The path."""
        return legible(str(self.path))

    def read(self, wishes: Wishes) -> Trace:
        """Return the trace.

        Raises
        ------
        FileUnreadable
            The path is a folder, forbidden or missing.
        TraceRefused
            The content is no trace, or too large.
        OutOfRange
            As for `read_trace`.
        """
        try:
            with self.path.open("rb") as file:
                content = file.read(MOST_BYTES + 1)
        except OSError as fault:
            raise FileUnreadable(
                f"the trace {self.name} can't be read: {reason(fault)}",
                path=self.path,
                hint="give a table as text, such as trace.csv",
            ) from fault
        if len(content) > MOST_BYTES:
            raise TraceRefused(
                f"the trace {self.name} is larger than {MOST_BYTES // 1024**2} MB",
                hint="give one set or session",
            )
        return read_trace(_decoded(content), wishes)


def _decoded(content: bytes) -> str:
    if content.startswith(_UTF_16):
        return content.decode("utf-16", errors="replace")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("latin-1")
