"""Weekly totals: lowering seconds, tension, lowering load."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tempo_coach.core.facts import SetDone
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.set_rows import NONE_MEASURED, SetRows, phases_by_allowance
from tempo_coach.core.tempo import Phase
from tempo_coach.core.work import PhaseTimes

_TO_SUNDAY = timedelta(days=6)


@dataclass(frozen=True, slots=True, order=True)
class IsoWeek:
    """A week of ISO 8601: it begins on Monday, and W01 holds 4 January."""

    year: int
    week: int

    @classmethod
    def of(cls, day: date) -> IsoWeek:
        """Return the week that holds the day."""
        year, week, _ = day.isocalendar()
        return cls(year, week)

    @classmethod
    def starting(cls, monday: int) -> IsoWeek:
        """Return the week whose first day has this number, as `date.toordinal` counts."""
        return cls.of(date.fromordinal(monday))

    def monday(self) -> date:
        """Return the first day."""
        return date.fromisocalendar(self.year, self.week, 1)

    def last_day(self) -> date:
        """Return the Sunday; in the last week of the calendar, which ends on a Friday, that one."""
        return min(self.monday(), date.max - _TO_SUNDAY) + _TO_SUNDAY

    def before(self, weeks: int = 1) -> IsoWeek:
        """Return the week so many weeks earlier; the first of the calendar is as far as it goes."""
        monday = self.monday()
        weeks = min(weeks, (monday - date.min).days // 7)
        return IsoWeek.of(monday - timedelta(weeks=weeks))

    def __str__(self) -> str:
        return f"{self.year:04d}-W{self.week:02d}"


def next_monday(day: date) -> date:
    """Return the first Monday after a day."""
    return day + timedelta(days=7 - day.weekday())


@dataclass(frozen=True, slots=True)
class Totals:
    """What some sets add up to."""

    sets: int
    reps: int
    times: PhaseTimes
    by_allowance: PhaseTimes
    """The part of `times` that was planned for X, V or A, not prescribed or measured."""
    lowering_kg_s: float
    """Σ load lowered × seconds lowering: this tool's own measure."""
    tonnage_kg: float
    """Σ load × reps."""
    lower_measured_ms: int
    """The part of the lowering time that was measured; the rest counts as paced."""
    sets_without_load: int
    """Sets whose load in kg is not known; they add nothing to the two sums above."""

    @classmethod
    def of(cls, sets: Iterable[SetDone]) -> Totals:
        """Add up sets; the order makes no difference to the last digit."""
        return cls.over(SetRows.of(sets))

    @classmethod
    def over(cls, rows: SetRows) -> Totals:
        """Add up rows; the order makes no difference to the last digit."""
        return next((total for _, total in totals_by(rows)), _NOTHING)

    @property
    def lowering_share(self) -> float:
        """Lowering seconds over tension seconds, 0 to 1."""
        return self.times.lower_ms / self.times.tension_ms if self.times.tension_ms else 0.0

    @property
    def measured_share(self) -> float:
        """Measured over all lowering seconds, 0 to 1."""
        return self.lower_measured_ms / self.times.lower_ms if self.times.lower_ms else 0.0


_GROUPS_AT_ONCE = 2_000
_NOTHING = Totals(0, 0, PhaseTimes(), PhaseTimes(), 0.0, 0.0, 0, 0)


def totals_by(rows: SetRows, *columns: NDArray[Any]) -> Iterator[tuple[tuple[int, ...], Totals]]:
    """Add up the rows that share a number in every column, in order of these numbers.

    Many groups at once, since a hundred lifters over five years make two hundred thousand; not
    all, since these would take 200 MB.

    Parameters
    ----------
    rows
        What to add up.
    *columns
        Numbers, one for each row; without any, all rows are one group.

    Yields
    ------
    tuple of int, and Totals
        The numbers that the rows of a group share, and what they add up to.
    """
    if not rows:
        return
    if not columns:
        yield (), next(_totals(rows.data, np.zeros(1, dtype=np.int64)))
        return
    order, edges = _grouped(rows, columns)
    for first in range(0, len(edges) - 1, _GROUPS_AT_ONCE):
        some = edges[first : first + _GROUPS_AT_ONCE + 1]
        numbers = [column[order[some[:-1]]].tolist() for column in columns]
        sums = _totals(rows.data[order[some[0] : some[-1]]], some[:-1] - some[0])
        yield from zip(zip(*numbers, strict=True), sums, strict=True)


def group_count(rows: SetRows, *columns: NDArray[Any]) -> int:
    """Return how many groups `totals_by` yields."""
    return len(_grouped(rows, columns)[1]) - 1 if rows else 0


def _grouped(
    rows: SetRows, columns: tuple[NDArray[Any], ...]
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Return the rows in order of their groups, and the edges between groups in that order."""
    order = np.lexsort(columns[::-1])
    is_edge = np.ones(len(rows) + 1, dtype=np.bool_)
    is_edge[1:-1] = False
    for column in columns:
        is_edge[1:-1] |= np.diff(column[order]) != 0
    return order, np.flatnonzero(is_edge)


def _totals(data: NDArray[Any], begins: NDArray[np.int64]) -> Iterator[Totals]:
    def added(values: NDArray[Any]) -> list[int]:
        sums: list[int] = np.add.reduceat(values, begins, dtype=np.int64).tolist()
        return sums

    times, by_allowance = [], []
    for bit, phase in enumerate(Phase):
        spent = data[f"{phase}_ms"]
        times.append(added(spent))
        by_allowance.append(added(spent * (data["by_allowance"] >> bit & 1)))
    is_unknown = np.isnan(data["load_kg"]) | np.isnan(data["lower_kg"])
    load_kg, lower_kg = (np.where(is_unknown, 0.0, data[name]) for name in ("load_kg", "lower_kg"))
    return map(
        Totals,
        np.diff(begins, append=len(data)).tolist(),
        added(data["reps"]),
        map(PhaseTimes, *times),
        map(PhaseTimes, *by_allowance),
        _exact_sums(lower_kg * (data["lower_ms"] / 1000), begins),
        _exact_sums(load_kg * data["reps"], begins),
        added(data["lower_measured_ms"]),
        added(is_unknown),
    )


def _exact_sums(values: NDArray[np.float64], begins: NDArray[Any]) -> Iterator[float]:
    """Sum up groups of floats, each rounded once, so that their order makes no difference."""
    edges = [*begins.tolist(), len(values)]
    return (math.fsum(values[begin:end]) for begin, end in pairwise(edges))


@dataclass(frozen=True, slots=True)
class ExerciseTotals:
    """One exercise's part of a week."""

    exercise: str
    """As last written."""
    totals: Totals


@dataclass(frozen=True, slots=True)
class MethodTotals:
    """One method's part of a week."""

    method: str
    """As last written."""
    totals: Totals


@dataclass(frozen=True, slots=True)
class Week:
    """One week's work."""

    week: IsoWeek
    exercises: tuple[ExerciseTotals, ...]
    """In order of the alphabet."""
    methods: tuple[MethodTotals, ...]
    """In order of the alphabet, without the sets that name none."""
    total: Totals
    lower_before_ms: int | None
    """Lowering time of the calendar week before; None in the first week on record."""

    @property
    def lower_change_ms(self) -> int | None:
        """Lowering time against the calendar week before; None in the first week on record."""
        if self.lower_before_ms is None:
            return None
        return self.total.times.lower_ms - self.lower_before_ms


def allowed_times(done: SetDone) -> PhaseTimes:
    """Return the part of a set's times that rests on allowances."""
    times = done.seconds.times()
    by_allowance = phases_by_allowance(done.tempo, done.timing)
    return PhaseTimes(**{f"{phase}_ms": times.of(phase) for phase in by_allowance})


def week_of(done: SetDone) -> IsoWeek:
    """Return the week of the lifter's local date when the set began."""
    return IsoWeek.of(done.started_at.date())


def weekly(
    sets: Iterable[SetDone],
    *,
    measured: Mapping[str, SetMeasured] = NONE_MEASURED,
    last: int | None = None,
) -> tuple[Week, ...]:
    """Add sets up by week and exercise, as `weeks_over` does; `measured` is as for `SetRows.of`."""
    return weeks_over(SetRows.of(sets, measured=measured), last=last)


def weeks_over(rows: SetRows, *, last: int | None = None) -> tuple[Week, ...]:
    """Add rows up by week and exercise.

    Parameters
    ----------
    rows
        In any order.
    last
        Keep so many calendar weeks, up to the latest that has sets; None keeps all.

    Returns
    -------
    tuple of Week
        The weeks that have sets, in order.
    """
    if not rows:
        return ()
    mondays = rows.mondays()
    first = int(mondays.min())
    shown = first
    if last is not None:
        shown = IsoWeek.starting(int(mondays.max())).before(last - 1).monday().toordinal()
        # The week before is needed too: the first one kept is held against it.
        rows = rows.where(mondays >= shown - 7)
        mondays = rows.mondays()
    exercises: dict[int, list[ExerciseTotals]] = {}
    for (monday, exercise), totals in totals_by(rows, mondays, rows.data["exercise"]):
        part = ExerciseTotals(rows.exercises[exercise], totals)
        exercises.setdefault(monday, []).append(part)
    methods: dict[int, list[MethodTotals]] = {}
    for (monday, method), totals in totals_by(rows, mondays, rows.data["method"]):
        if name := rows.methods[method]:
            methods.setdefault(monday, []).append(MethodTotals(name, totals))
    in_all = {monday: total for (monday,), total in totals_by(rows, mondays)}
    weeks = (
        Week(
            week=IsoWeek.starting(monday),
            exercises=tuple(exercises[monday]),
            methods=tuple(methods.get(monday, ())),
            total=total,
            lower_before_ms=(
                None if monday == first else in_all.get(monday - 7, _NOTHING).times.lower_ms
            ),
        )
        for monday, total in in_all.items()
        if monday >= shown
    )
    return tuple(weeks)
