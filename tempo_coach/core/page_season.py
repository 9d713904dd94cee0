"""The season on a lifter's page: lowering emphasis done, beside what the weeks may hold."""

from __future__ import annotations

from collections.abc import Sequence

from tempo_coach.core.amounts import NONE
from tempo_coach.core.page_parts import Column, Row, Table
from tempo_coach.core.season import Season
from tempo_coach.core.weeks import IsoWeek

_NAME_MM = 32


def season_page_table(season: Season, weeks: Sequence[IsoWeek]) -> Table | None:
    """Return what was done and what the limit was, week by week; None outside the season."""
    found = [season.row_of(week) for week in weeks]
    if not any(found):
        return None
    columns = (Column("seconds", is_text=True, width_mm=_NAME_MM), *(Column(str(w)) for w in weeks))
    done = (
        NONE if row is None else f"{row.lower_s.done:.0f}{'!' if row.lower_s.over else ''}"
        for row in found
    )
    limits = (
        NONE if row is None or row.lower_s.limit is None else f"{row.lower_s.limit:.0f}"
        for row in found
    )
    return Table(
        "Lowering emphasis in the season, s (! over the limit)",
        columns,
        (Row("done", tuple(done), is_strong=True), Row("limit", tuple(limits))),
    )
