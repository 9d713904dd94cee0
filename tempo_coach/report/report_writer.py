"""Writes reports."""

from __future__ import annotations

from typing import IO

from tempo_coach.core.report_pages import PageFormat, Report
from tempo_coach.report.html_pages import html_text
from tempo_coach.report.pdf_pages import weasyprint, write_pdf
from tempo_coach.report.quiet_import import quiet_matplotlib


class ReportWriter:
    """Writes reports in one format.

    Parameters
    ----------
    form
        The format.

    Raises
    ------
    ImportError
        A library that it takes is not installed.
    ExtraMissing
        Such a library is there, but not what that takes.
    """

    def __init__(self, form: PageFormat) -> None:
        self._form = form
        # Now, and not when the logs have been read.
        quiet_matplotlib()
        if form is PageFormat.PDF:
            weasyprint()

    def write(self, report: Report, file: IO[bytes]) -> None:
        """Write a report.

        Raises
        ------
        OSError
            The file does not take it.
        """
        match self._form:
            case PageFormat.HTML:
                for piece in html_text(report):
                    file.write(piece.encode())
            case PageFormat.PDF:
                write_pdf("".join(html_text(report)), file)
