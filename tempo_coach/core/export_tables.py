"""What an export holds: the rows, chosen and in order."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import starmap

import numpy as np
from numpy.typing import NDArray

from tempo_coach.core.export_columns import COLUMNS, By, Cells, Column
from tempo_coach.core.export_rows import (
    day_cells,
    exercise_cells,
    exercise_columns,
    set_cells,
    tempo_cells,
    week_cells,
)
from tempo_coach.core.facts import MaxTested
from tempo_coach.core.kept_tempos import kept_tempos
from tempo_coach.core.legible import name_key, quoted
from tempo_coach.core.lifter_weeks import LifterWeek, lifter_weeks
from tempo_coach.core.max_rows import max_rows
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.nearest import nearest_of
from tempo_coach.core.plan import Plan
from tempo_coach.core.readiness_rows import readiness_cells
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.recorded_soreness import RecordedSoreness
from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.soreness_facts import SorenessTold
from tempo_coach.core.weeks import IsoWeek, group_count
from tempo_coach.errors import OutOfRange

_NO_MAXES, _NO_SORENESS = RecordedMaxes(), RecordedSoreness()


@dataclass(frozen=True, slots=True)
class Choice:
    """Which sets are exported, and which maxes."""

    lifters: tuple[str, ...] = ()
    """Empty chooses all."""
    exercises: tuple[str, ...] = ()
    """Empty chooses all."""
    first: date | None = None
    """The first local date; None is from the beginning."""
    last: date | None = None
    """The last local date; None is to the end."""
    methods: tuple[str, ...] = ()
    """Empty chooses all sets; a tested max is of none."""

    def holds(self, day: date) -> bool:
        """Tell whether a local date is not left out."""
        return (self.first is None or self.first <= day) and (self.last is None or day <= self.last)

    def holds_all_of(self, week: IsoWeek) -> bool:
        """Tell whether no day of a week is left out."""
        monday = week.monday()
        sunday = monday.toordinal() + 6
        return (self.first is None or self.first <= monday) and (
            self.last is None or sunday <= self.last.toordinal()
        )


@dataclass(frozen=True, slots=True)
class ExportTable:
    """Rows to be written, once."""

    by: By
    length: int
    """How many rows."""
    rows: Iterable[Cells]
    more: tuple[Column, ...] = ()
    """Columns behind those that such rows always have."""

    def told(self, advance: Callable[[int], None]) -> ExportTable:
        """Return the same table, which tells of each row that is taken."""

        def rows() -> Iterator[Cells]:
            for row in self.rows:
                yield row
                advance(1)

        return replace(self, rows=rows())

    @property
    def columns(self) -> tuple[Column, ...]:
        """What each row holds."""
        return (*COLUMNS[self.by], *self.more)


def export_table(
    logs: MergedLogs, by: By, choice: Choice, *, today: date, plan: Plan | None = None
) -> ExportTable:
    """Return the rows of one kind.

    Parameters
    ----------
    logs
        Where they are from.
    by
        The kind.
    choice
        Which of them.
    today
        Readiness is that of this day, or of the choice's last where that is earlier.
    plan
        States what readiness asks for; None where there is none.

    Raises
    ------
    OutOfRange
        Nobody and nothing of a chosen name is in the logs, or the first date is after the last.
    """
    named = _of_names(logs.rows, choice, logs.maxes, logs.soreness)
    rows = _of_dates(named, choice)
    match by:
        case By.SET:
            return ExportTable(by, len(rows), starmap(set_cells, logs.measured_sets(rows)))
        case By.DAY:
            told = _chosen_soreness(logs.soreness, choice)
            with_rest = not choice.exercises and not choice.methods
            days = day_cells(rows, told, with_rest=with_rest)
            return ExportTable(by, len(days), days)
        case By.WEEK:
            weeks = tuple(starmap(week_cells, _weeks(named, rows, choice)))
            return ExportTable(by, len(weeks), weeks)
        case By.EXERCISE:
            length = group_count(rows, *exercise_columns(rows))
            return ExportTable(by, length, exercise_cells(rows))
        case By.TEMPO:
            kept = kept_tempos(logs, rows)
            return ExportTable(by, len(kept), map(tempo_cells, kept))
        case By.MAX:
            maxes = max_rows(chosen_maxes(logs.maxes, choice), logs, rows)
            return ExportTable(by, len(maxes), (row.cells() for row in maxes))
        case By.READINESS:
            criteria = _readiness(logs, choice, plan, today)
            return ExportTable(by, len(criteria), criteria)


def check_names(logs: MergedLogs, choice: Choice) -> None:
    """See whether the logs know the names of a choice; where there are no rows, any name will do.

    Raises
    ------
    OutOfRange
        They don't know one.
    """
    _of_names(logs.rows, choice, logs.maxes, logs.soreness)


def chosen_rows(rows: SetRows, choice: Choice, *, maxes: RecordedMaxes = _NO_MAXES) -> SetRows:
    """Return the rows of a choice; a name that only a max has chooses none.

    Raises
    ------
    OutOfRange
        As for `export_table`; where there are no rows, every name is allowed.
    """
    return _of_dates(_of_names(rows, choice, maxes), choice)


def chosen_maxes(maxes: RecordedMaxes, choice: Choice) -> tuple[MaxTested, ...]:
    """Return the maxes of a choice, in the order they were tested."""
    lifters, exercises = map(name_key, choice.lifters), map(name_key, choice.exercises)
    by_lifter, by_exercise = frozenset(lifters), frozenset(exercises)
    return tuple(
        one
        for one in maxes.tested
        if (not by_lifter or name_key(one.lifter) in by_lifter)
        and (not by_exercise or name_key(one.exercise) in by_exercise)
        and not choice.methods
        and choice.holds(one.at.date())
    )


def _readiness(
    logs: MergedLogs, choice: Choice, plan: Plan | None, today: date
) -> tuple[Cells, ...]:
    """Return the readiness of a choice; like a tested max it is of no method."""
    if choice.methods:
        return ()
    cells = readiness_cells(
        logs,
        lifters=frozenset(map(name_key, choice.lifters)),
        exercises=frozenset(map(name_key, choice.exercises)),
        plan=plan,
        today=today if choice.last is None else min(choice.last, today),
    )
    return tuple(cells)


def _of_names(
    rows: SetRows,
    choice: Choice,
    maxes: RecordedMaxes,
    soreness: RecordedSoreness = _NO_SORENESS,
) -> SetRows:
    others = {
        "lifter": [
            *(one.lifter for one in maxes.tested),
            *(one.lifter for one in soreness.told),
        ],
        "exercise": [one.exercise for one in maxes.tested],
        "method": [],
    }
    kept = rows
    for column, wanted, known in (
        ("lifter", choice.lifters, rows.lifters),
        ("exercise", choice.exercises, rows.exercises),
        ("method", choice.methods, rows.methods),
    ):
        if wanted and rows:
            numbers = _numbers(column, wanted, known, others[column])
            kept = kept.where(np.isin(kept.data[column], numbers))
    return kept


def _numbers(
    column: str, wanted: Sequence[str], known: Sequence[str], others: Sequence[str]
) -> list[int]:
    by_key = {name_key(name): number for number, name in enumerate(known)}
    all_known = dict.fromkeys(filter(None, [*known, *others]))
    also = set(map(name_key, others))
    for name in wanted:
        if name_key(name) not in by_key and name_key(name) not in also:
            raise OutOfRange(
                f"the logs know no {column} {quoted(name)}",
                hint=nearest_of(name, all_known) if all_known else f"no set names a {column}",
            )
    return [by_key[key] for name in wanted if (key := name_key(name)) in by_key]


def _chosen_soreness(soreness: RecordedSoreness, choice: Choice) -> tuple[SorenessTold, ...]:
    """Return the answers of a choice, which have neither exercise nor method, in order of time."""
    lifters = frozenset(map(name_key, choice.lifters))
    return tuple(
        one
        for one in soreness.told
        if (not lifters or name_key(one.lifter) in lifters) and choice.holds(one.at.date())
    )


def _of_dates(rows: SetRows, choice: Choice) -> SetRows:
    if choice.first and choice.last and choice.first > choice.last:
        raise OutOfRange(
            f"the first day {choice.first} is after the last, {choice.last}",
            hint="give the earlier one with --from",
        )
    day = rows.data["day"]
    is_kept: NDArray[np.bool_] = np.ones(len(rows), dtype=np.bool_)
    if choice.first:
        is_kept &= day >= choice.first.toordinal()
    if choice.last:
        is_kept &= day <= choice.last.toordinal()
    return rows.where(is_kept)


def _weeks(
    named: SetRows, rows: SetRows, choice: Choice
) -> Iterator[tuple[LifterWeek, int | None]]:
    """Yield weeks with their change, which looks at days that were not chosen too."""
    whole = {(week.lifter, week.week): week.lower_change_ms for week in lifter_weeks(named)}
    for week in lifter_weeks(rows):
        is_whole = choice.holds_all_of(week.week)
        yield week, whole[week.lifter, week.week] if is_whole else None
