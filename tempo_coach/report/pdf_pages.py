"""A report as PDF, made of its HTML."""

from __future__ import annotations

import contextlib
import io
from typing import IO, Any

from tempo_coach.errors import ExtraMissing

_PACKAGES = "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"


def weasyprint() -> Any:
    """Return the library that lays pages out.

    Raises
    ------
    ExtraMissing
        What it needs of the system is missing.
    ImportError
        It is not installed itself.
    """
    try:
        # It prints advice of its own where something is missing.
        with contextlib.redirect_stdout(io.StringIO()):
            import weasyprint
    except OSError as fault:
        raise ExtraMissing(
            "a PDF needs the text library Pango, which is not on this machine",
            hint=f"on Debian and Ubuntu 'apt-get install {_PACKAGES}' brings it, or write .html "
            "and print that",
        ) from fault
    return weasyprint


def write_pdf(text: str, file: IO[bytes]) -> None:
    """Lay HTML out on pages.

    Raises
    ------
    OSError
        The file does not take it.
    """
    library = weasyprint()
    # No protocol at all: a report has all that it needs in itself.
    fetcher = library.urls.URLFetcher(allowed_protocols=())
    # Tagged, so that screen readers find headings and tables.
    library.HTML(string=text, url_fetcher=fetcher).write_pdf(file, pdf_tags=True)
