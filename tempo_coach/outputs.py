"""Picks what a command writes to, and what writes it."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from tempo_coach.core.report_pages import PageFormat
from tempo_coach.errors import ExtraMissing
from tempo_coach.storage.export_file import ExportFile
from tempo_coach.storage.private_file import OpenStream, Output, PrivateFile

if TYPE_CHECKING:
    from tempo_coach.report.report_writer import ReportWriter


def export_file(path: Path | None) -> ExportFile:
    """Return what an export goes to; None is standard output."""
    return ExportFile(_output(path, stream_option="'-o -' with --format"))


def report_file(path: Path | None) -> Output:
    """Return what a report goes to; None is standard output."""
    return _output(path, stream_option="'-o -'")


def calendar_file(path: Path) -> Output:
    """Return what a lifter's year goes to."""
    return PrivateFile(path, stream_option="--json")


def report_writer(form: PageFormat) -> ReportWriter:
    """Return what writes reports.

    Raises
    ------
    ExtraMissing
        Something that it takes is not installed.
    """
    try:
        from tempo_coach.report.report_writer import ReportWriter

        return ReportWriter(form)
    except ImportError as fault:
        raise ExtraMissing(
            f"a report needs {fault.name}, which is not installed",
            hint="pip install 'tempo-coach[report]'",
        ) from fault


def _output(path: Path | None, *, stream_option: str) -> Output:
    if path is None:
        return OpenStream(sys.stdout.buffer, name="standard output")
    return PrivateFile(path, stream_option=stream_option)
