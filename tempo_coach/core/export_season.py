"""What a plan's season says of the weeks of an export."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date

from tempo_coach.core.export_columns import SEASON, Cell, Cells, named
from tempo_coach.core.export_tables import Choice, ExportTable, chosen_rows
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.plan import Plan
from tempo_coach.core.season import Season, season_of
from tempo_coach.core.season_table import SeasonRow
from tempo_coach.core.season_words import week_words

_NOTHING: Cells = dict.fromkeys(named(SEASON))


def with_season(table: ExportTable, logs: MergedLogs, plan: Plan, *, today: date) -> ExportTable:
    """Return weeks with what the season says of each; nothing of lifters the plan doesn't have.

    Parameters
    ----------
    table
        Of weeks.
    logs
        Where they are from; all sets of a lifter count, whichever were chosen.
    plan
        What says what the season is.
    today
        Weeks that begin later have no work yet.
    """
    seasons: dict[str, Mapping[str, SeasonRow]] = {}

    def rows() -> Iterator[Cells]:
        for row in table.rows:
            lifter = str(row["lifter"])
            if lifter not in seasons:
                season = _season(logs, plan, lifter, today)
                weeks = () if season is None else season.rows
                seasons[lifter] = {str(one.week.week): one for one in weeks}
            yield {**row, **_cells(seasons[lifter].get(str(row["week"])))}

    return replace(table, rows=rows(), more=SEASON)


def _season(logs: MergedLogs, plan: Plan, lifter: str, today: date) -> Season | None:
    if not plan.has(lifter):
        return None
    own = chosen_rows(logs.rows, Choice((lifter,)))
    return season_of(plan, lifter, sets=tuple(logs.sets(own)), today=today)


def _cells(row: SeasonRow | None) -> Cells:
    if row is None:
        return _NOTHING
    return {
        "season": week_words(row.week),
        "emphasis_s": _rounded(row.lower_s.done),
        "emphasis_limit_s": _rounded(row.lower_s.limit),
        "emphasis_kg_s": _rounded(row.kg_s.done),
        "emphasis_limit_kg_s": _rounded(row.kg_s.limit),
        "emphasis_level_s": _rounded(row.lower_s.level.amount),
        "emphasis_level_why": row.lower_s.level.why,
    }


def _rounded(amount: float | None) -> Cell:
    return None if amount is None else round(amount, 3)
