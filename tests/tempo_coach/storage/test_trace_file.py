from __future__ import annotations

from pathlib import Path

import pytest

from tempo_coach.core.trace_columns import Wishes
from tempo_coach.errors import FileUnreadable, TraceRefused
from tempo_coach.storage import trace_file
from tempo_coach.storage.trace_file import TraceFile

TEXT = "time (s),height (cm)\r\n0.00,10\r\n0.01,12.5\r\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "latin-1"])
def test_a_trace_is_read_in_any_usual_encoding(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "trace.csv"
    mark = b"\xff\xfe" if encoding == "utf-16-le" else b""
    comment = "# Höhe\r\n" if encoding == "latin-1" else ""
    path.write_bytes(mark + (comment + TEXT).encode(encoding))

    trace = TraceFile(path).read(Wishes())

    assert trace.values.tolist() == [0.1, 0.125]


def test_a_file_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(FileUnreadable, match="there is no such file; give a table as text"):
        TraceFile(tmp_path / "none.csv").read(Wishes())


def test_a_file_that_is_too_large_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(trace_file, "MOST_BYTES", 10)
    path = tmp_path / "trace.csv"
    path.write_text(TEXT)

    with pytest.raises(TraceRefused, match="is larger than"):
        TraceFile(path).read(Wishes())


@pytest.mark.parametrize("content", [b"", b"\x89PNG\r\n\x1a\n\0\0\0", b"\0" * 100])
def test_what_is_no_table_is_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "trace.csv"
    path.write_bytes(content)

    with pytest.raises(TraceRefused, match="there is no row of numbers"):
        TraceFile(path).read(Wishes())
