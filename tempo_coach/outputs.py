"""Picks what a command writes to, and what makes that of it."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import IO, TYPE_CHECKING, Protocol, TypeAlias

from tempo_coach.core.cut_set import CutSet
from tempo_coach.core.prescribed_path import Paths
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.report_pages import PageFormat
from tempo_coach.core.trace import Trace
from tempo_coach.errors import ExtraMissing
from tempo_coach.storage.export_file import ExportFile
from tempo_coach.storage.private_file import OpenStream, Output, PrivateFile

if TYPE_CHECKING:
    from tempo_coach.report.report_writer import ReportWriter


class DrawPaths(Protocol):
    """Draws a compared set into a file."""

    def __call__(self, paths: Paths, file: IO[bytes], *, form: str, title: str) -> None:
        """Write a picture in one of `prescribed_path.PICTURE_FORMATS`."""


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


def picture_file(path: Path) -> Output:
    """Return what a picture goes to."""
    return PrivateFile(path, stream_option="--json")


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


def path_drawer() -> DrawPaths:
    """Return what draws a compared set.

    Raises
    ------
    ExtraMissing
        Something that it takes is not installed.
    """
    try:
        from tempo_coach.report.quiet_import import quiet_matplotlib
        from tempo_coach.report.trace_picture import draw_paths

        quiet_matplotlib()
    except ImportError as fault:
        raise ExtraMissing(
            f"a picture needs {fault.name}, which is not installed",
            hint="pip install 'tempo-coach[report]'",
        ) from fault
    return draw_paths


def _output(path: Path | None, *, stream_option: str) -> Output:
    if path is None:
        return OpenStream(sys.stdout.buffer, name="standard output")
    return PrivateFile(path, stream_option=stream_option)
