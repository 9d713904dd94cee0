"""Maxes as rows of an export: those tested, and each day's estimate."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from tempo_coach.core.export_columns import Cells
from tempo_coach.core.facts import MaxTested
from tempo_coach.core.legible import name_key
from tempo_coach.core.max_estimates import (
    DayEstimate,
    TempoRecord,
    telling_rows,
    tempo_records,
)
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.set_rows import SetRows

ESTIMATED = "estimated"


@dataclass(frozen=True, slots=True)
class MaxRow:
    """A max that was tested."""

    tested: MaxTested

    @property
    def order(self) -> tuple[str, str, date, str]:
        """What rows are sorted by: lifter, exercise, date, and which sort of row it is."""
        one = self.tested
        return name_key(one.lifter), name_key(one.exercise), one.at.date(), ""

    def cells(self) -> Cells:
        """Return the row."""
        one = self.tested
        return {
            "lifter": one.lifter,
            "date": one.at.date(),
            "exercise": one.exercise,
            "what": one.what,
            "tempo": None,
            "load_kg": one.load_kg,
            "reps_done": None,
            "effort": None,
            "lower_s": one.lower_s,
            "estimated_low_kg": None,
            "estimated_kg": None,
            "estimated_high_kg": None,
            "note": one.note,
        }


@dataclass(frozen=True, slots=True)
class EstimateRow:
    """One day's estimate at one tempo."""

    record: TempoRecord
    day: DayEstimate

    @property
    def order(self) -> tuple[str, str, date, str]:
        """As for a row that was tested."""
        one = self.record
        return name_key(one.lifter), name_key(one.exercise), self.day.on, str(one.tempo)

    def cells(self) -> Cells:
        """Return the row."""
        best, said = self.day.best, self.record.band(self.day)
        return {
            "lifter": self.record.lifter,
            "date": self.day.on,
            "exercise": self.record.exercise,
            "what": ESTIMATED,
            "tempo": str(self.record.tempo),
            "load_kg": best.load_kg,
            "reps_done": best.reps,
            "effort": best.effort,
            "lower_s": None,
            "estimated_low_kg": round(said.low_kg, 3),
            "estimated_kg": round(said.middle_kg, 3),
            "estimated_high_kg": round(said.high_kg, 3),
            "note": None,
        }


def max_rows(
    tested: Iterable[MaxTested], logs: MergedLogs, rows: SetRows
) -> tuple[MaxRow | EstimateRow, ...]:
    """Return maxes and the estimates from some sets, by lifter, exercise and date."""
    found: list[MaxRow | EstimateRow] = [MaxRow(one) for one in tested]
    for record in tempo_records(logs.sets(telling_rows(rows))):
        found += [EstimateRow(record, day) for day in record.days]
    return tuple(sorted(found, key=lambda row: row.order))
