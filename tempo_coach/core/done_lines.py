"""The lines that sets which were done make up, as a prescription would write them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import mean

from tempo_coach.core.emphasis import is_emphasis
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.load import Load, parse_load
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.movement_groups import movement_group
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.prescription import MOST_SETS, Prescription
from tempo_coach.core.season_table import SECONDS, WeekLimit
from tempo_coach.core.tempo import Allowances, Phase
from tempo_coach.core.timeline import rep_times
from tempo_coach.errors import OutOfRange


@dataclass(frozen=True, slots=True)
class DoneLine:
    """The sets of one day that are of one line."""

    line: Prescription
    sets: tuple[SetDone, ...]

    @property
    def day(self) -> date:
        """The day on which they were done."""
        return self.sets[0].started_at.date()

    @property
    def effort(self) -> float | None:
        """The mean of those told; None where none was."""
        told = [one.effort for one in self.sets if one.effort is not None]
        return mean(told) if told else None

    @property
    def is_whole(self) -> bool:
        """Every rep was done."""
        return all(
            one.reps_prescribed is None or one.reps_done >= one.reps_prescribed for one in self.sets
        )

    def takes(
        self, line: Prescription, limit: WeekLimit, *, rules: DosingRules, allowances: Allowances
    ) -> float:
        """Return how much of a limit one set takes that is written so instead, at these loads.

        Parameters
        ----------
        line
            This one, or another of the same exercise.
        limit
            Work that is not of its group takes nothing.
        rules
            What is lowering emphasis, and of which group.
        allowances
            What stands in for X, V and A.
        """
        group = movement_group(line.exercise, more=rules.groups)
        slow_from_ms = round(rules.emphasis_from_s * 1000)
        is_counted = is_emphasis(line.tempo, line.shape, slow_from_ms=slow_from_ms)
        if not is_counted or limit.group not in (None, group):
            return 0.0
        reps = line.reps or mean(one.reps_done for one in self.sets)
        lower_s = rep_times(line.tempo, allowances, line.shape).lower_ms * reps / 1000
        if limit.unit == SECONDS:
            return lower_s
        return lower_s * mean(one.mean_lower_kg or 0.0 for one in self.sets)


def done_lines(sets: Iterable[SetDone]) -> list[DoneLine]:
    """Put one lifter's sets that are alike into lines, in the order in which they were done."""
    grouped: dict[tuple[object, ...], list[SetDone]] = {}
    for one in sets:
        key = (
            *(one.started_at.date(), name_key(one.exercise), one.tempo, one.shape),
            *(one.load_as_written, one.method, one.reps_prescribed),
        )
        grouped.setdefault(key, []).append(one)
    return [DoneLine(_line(alike), tuple(alike)) for alike in grouped.values()]


def _line(alike: Sequence[SetDone]) -> Prescription:
    first = alike[0]
    return Prescription(
        exercise=first.exercise,
        sets=min(len(alike), MOST_SETS),
        reps=first.reps_prescribed,
        load=_load(first),
        tempo=first.tempo,
        rest_ms=None,
        lead=Phase(first.lead),
        shape=first.shape,
        method=MethodName(first.method) if first.method in set(MethodName) else None,
    )


def _load(done: SetDone) -> Load | None:
    try:
        return parse_load(done.load_as_written)
    except OutOfRange:
        return None
