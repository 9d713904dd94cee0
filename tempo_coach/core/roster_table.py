"""The roster as a table of a report's first page."""

from __future__ import annotations

from collections.abc import Mapping

from tempo_coach.core.amounts import signed
from tempo_coach.core.legible import legible
from tempo_coach.core.marks import marked_seconds
from tempo_coach.core.page_parts import Column, Row, Table
from tempo_coach.core.roster import Roster, RosterLine


def roster_table(found: Roster, *, anchors: Mapping[str, str]) -> Table:
    """Return lifters and weeks.

    Parameters
    ----------
    found
        All lifters, sorted.
    anchors
        The page of each.
    """
    columns = (
        Column("lifter", is_text=True, width_mm=40),
        *(Column(str(week)) for week in found.weeks),
        Column("change s", width_mm=17),
        Column("last session", width_mm=17),
    )
    rows = tuple(
        Row(legible(line.lifter), _cells(line), anchor=anchors[line.lifter]) for line in found.lines
    )
    return Table("Lowering seconds", columns, rows)


def _cells(line: RosterLine) -> tuple[str, ...]:
    latest = line.weeks[-2:]
    about = "≈" if any(time.by_allowance_ms for time in latest) else ""
    change = f"{about}{signed(line.lower_change_ms / 1000, digits=1)}"
    return (
        *(marked_seconds(time.lower_ms, allowed_ms=time.by_allowance_ms) for time in line.weeks),
        f"{change} (first)" if line.is_first_week else change,
        line.last_session.isoformat(),
    )
