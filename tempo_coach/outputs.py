"""Picks what a command writes to, and what makes that of it."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from tempo_coach.core.cut_set import CutSet
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.report_pages import PageFormat
from tempo_coach.core.trace import Trace
from tempo_coach.errors import ExtraMissing
from tempo_coach.storage.export_file import ExportFile
from tempo_coach.storage.private_file import OpenStream, Output, PrivateFile

if TYPE_CHECKING:
    from tempo_coach.report.report_writer import ReportWriter

CutTrace: TypeAlias = Callable[[Trace, Prescription], CutSet]
"""Finds the reps of a set in a trace."""


def export_file(path: Path | None) -> ExportFile:
    """Return what an export goes to; None is standard output."""
    return ExportFile(_output(path, stream_option="'-o -' with --format"))


def report_file(path: Path | None) -> Output:
    """Return what a report goes to; None is standard output."""
    return _output(path, stream_option="'-o -'")


def table_output(path: Path | None) -> Output:
    """Return what a made-up trace goes to; None is standard output."""
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


def trace_cutter() -> CutTrace:
    """Return what finds reps in traces.

    Raises
    ------
    ExtraMissing
        Something that it takes is not installed.
    """
    try:
        from tempo_coach.trace.rep_cutting import cut_set
    except ImportError as fault:
        raise ExtraMissing(
            f"a trace needs {fault.name}, which is not installed",
            hint="pip install 'tempo-coach[trace]'",
        ) from fault
    return cut_set


def _output(path: Path | None, *, stream_option: str) -> Output:
    if path is None:
        return OpenStream(sys.stdout.buffer, name="standard output")
    return PrivateFile(path, stream_option=stream_option)
