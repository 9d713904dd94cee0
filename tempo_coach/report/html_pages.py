"""A report as one page of HTML that needs nothing from outside."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from tempo_coach.core.lifter_pages import LifterPage
from tempo_coach.core.report_pages import Report
from tempo_coach.report.charts import FONT_SIZE, HEIGHT, WIDTH, Charts
from tempo_coach.report.colours import DARK, LIGHT

_WIDTHS_MM = range(9, 51)
"""Of the columns, in print."""


def html_text(report: Report) -> Iterator[str]:
    """Yield a report piece by piece; prints on a sheet of A4 for each lifter."""
    environment = Environment(
        loader=PackageLoader("tempo_coach.report"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    macros: Any = environment.get_template("report.html.j2").module  # its macros have no types
    charts = Charts()
    yield macros.begin(report, LIGHT, DARK, _WIDTHS_MM)
    for page in report.pages:
        yield macros.lifter(page, _drawings(charts, page), WIDTH, HEIGHT, FONT_SIZE)
    yield macros.end()


def _drawings(charts: Charts, page: LifterPage) -> list[list[Markup]]:
    return [
        [
            # No name stands in it.
            Markup(charts.drawing(panel, highest=chart.highest))  # noqa: S704 - escaped already
            for panel in chart.panels
        ]
        for chart in page.charts
    ]
