"""The columns of an export: one table for every format, for the help and for the README."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from types import MappingProxyType
from typing import TypeAlias

Cell: TypeAlias = str | int | float | date | datetime | None
Cells: TypeAlias = Mapping[str, Cell]


class By(StrEnum):
    """What one row of an export stands for."""

    SET = "set"
    DAY = "day"
    """One lifter's day, with the soreness that was told."""
    WEEK = "week"
    """One lifter's week."""
    EXERCISE = "exercise"
    """One exercise in one lifter's week."""
    TEMPO = "tempo"
    """One tempo of one exercise in one lifter's week, where lowers were measured."""
    MAX = "max"
    """One tested max, or one day's estimate of one."""
    READINESS = "readiness"
    """One criterion of readiness, for a way of lowering one exercise."""


class Format(StrEnum):
    """What an export is written as; also how its file's name ends."""

    CSV = "csv"
    JSON = "json"
    XLSX = "xlsx"


@dataclass(frozen=True, slots=True)
class Column:
    """One column."""

    name: str
    """Ends in its unit, where it has one."""
    unit: str
    """Empty where it has none."""
    meaning: str
    """In one sentence."""


_SET_ONLY = (
    Column("id", "", "The set's id in the log."),
    Column("lifter", "", "Who lifted, as last written."),
    Column("date", "date", "The lifter's local date; that of a set is when rep 1 began."),
    Column("started_at", "time", "When rep 1 began, in the lifter's local time."),
    Column("ended_at", "time", "When the last phase ended, or the set was stopped."),
)
_WEEK = (
    Column("week", "", "The ISO 8601 week of the lifter's local date, such as 2026-W48."),
    Column("week_begins", "date", "The week's Monday."),
)
_EXERCISE = (Column("exercise", "", "The exercise, as last written."),)
_SET_WORK = (
    Column("lead", "", "What a rep begins with: lower or raise."),
    Column(
        "tempo", "", "Lower-pause-raise-top in seconds; X, V and A have no length of their own."
    ),
    Column("load_kg", "kg", "The load; empty where it is not known in kilograms."),
    Column("load_as_written", "", "The load as it stood on the board."),
    Column(
        "shape",
        "",
        "What a rep is beyond its four phases, as it stood on the board; empty where nothing.",
    ),
    Column("lower_load_kg", "kg", "What was lowered, where that was more than load_kg."),
    Column("reps_prescribed", "reps", "Reps asked for; empty for a set until it is stopped."),
    Column("reps_done", "reps", "Reps wholly completed."),
)
_TIMES = (
    Column("lower_s", "s", "Seconds spent lowering."),
    Column("pause_s", "s", "Seconds in the pause at the bottom."),
    Column("raise_s", "s", "Seconds spent raising."),
    Column("top_s", "s", "Seconds at the top."),
    Column("tension_s", "s", "Seconds in all four phases."),
    Column("moving_s", "s", "Seconds lowering and raising, without pause and top."),
    Column("lower_by_allowance_s", "s", "The part of lower_s that planning counted for X or V."),
    Column("raise_by_allowance_s", "s", "The part of raise_s that planning counted for X, V or A."),
    Column(
        "lower_measured_s",
        "s",
        "The part of lower_s that was measured, by taps or a trace; the rest counts as paced.",
    ),
    Column(
        "lowering_kg_s", "kg·s", "Load lowered times seconds lowering: this tool's own measure."
    ),
    Column("tonnage_kg", "kg", "Load times reps."),
)
_COUNTS = (
    Column("sets", "sets", "Sets that count; struck ones do not."),
    Column("reps", "reps", "Reps wholly completed."),
)
_WITHOUT_LOAD = (
    Column(
        "sets_without_load",
        "sets",
        "Sets whose load in kg is not known; they add nothing to lowering_kg_s and tonnage_kg.",
    ),
)
_CHANGE = (
    Column(
        "lower_change_s",
        "s",
        "lower_s against the calendar week before; empty in the lifter's first week, and in a week "
        "of which --from or --to leaves out a day.",
    ),
)
_SET_REMARKS = (
    Column("timing", "", "How the seconds were taken: paced, tapped or trace."),
    Column("method", "", "The method, where one was given."),
    Column("effort", "of 10", "How hard it was, 1 to 10 by halves."),
    Column("note", "", "The note."),
)
_SORENESS = (
    Column(
        "soreness",
        "of 10",
        "How sore the lifter was, as told that day, from 0, not at all, to 10; empty where nothing "
        "was told.",
    ),
)
_KEPT = (
    Column("sets_measured", "sets", "Sets of which at least one lower was measured."),
    Column("lowers", "reps", "Measured lowers."),
    Column("lowers_within_6_percent", "reps", "Those within 6 % of the prescribed lower."),
    Column("lowers_within_half_second", "reps", "Those within half a second of it."),
    Column("lower_prescribed_s", "s", "The prescribed lower."),
    Column("lower_off_s", "s", "Measured less prescribed, on the mean of the lowers."),
    Column("lower_off_share", "", "The same as a share of the prescribed lower."),
    Column(
        "lower_drift_s", "s", "How much longer the lower got from rep to rep, on the mean of sets."
    ),
)
_LIFTER = _SET_ONLY[1:2]
_DATE = _SET_ONLY[2:3]
_TEMPO, _LOAD = _SET_WORK[1:2], _SET_WORK[2:3]
_REPS_DONE = _SET_WORK[-1:]
_LOWER = _TIMES[:1]
_EFFORT, _NOTE = _SET_REMARKS[2:3], _SET_REMARKS[3:]
_WHAT = (
    Column(
        "what",
        "",
        "Tested: lifted (the 1RM) or lowered (under control); or estimated, from the day's best "
        "set.",
    ),
)
_ESTIMATED = (
    Column("estimated_low_kg", "kg", "The least that the equations make of an estimate's set."),
    Column("estimated_kg", "kg", "The median of what they make of it."),
    Column("estimated_high_kg", "kg", "The most that they make of it."),
)
_READINESS = (
    Column("as_of", "date", "The day on which it stood so: today, or --to where that is earlier."),
    Column("way", "", "Overloaded lowering, or fast lowering."),
    Column("verdict", "", "Of the way as a whole: ready or not yet."),
    Column("criterion", "", "Which criterion; the same word under any rules."),
    Column("asked", "", "What it asks for, by the plan's rules or those where no plan states any."),
    Column("state", "", "Whether it is met: met, not met, or can't be told."),
    Column("evidence", "", "What sets, maxes or the plan say of it."),
    Column("missing", "", "What to do about it; empty where nothing."),
)

SEASON = (
    Column("season", "", "With --plan: what its season says the week is, such as a taper."),
    Column(
        "emphasis_s",
        "s",
        "With --plan: seconds of lowering-emphasis work, in all that the lifter did.",
    ),
    Column(
        "emphasis_limit_s",
        "s",
        "With --plan: how many of them the week may hold; empty where no limit is known.",
    ),
    Column("emphasis_kg_s", "kg·s", "With --plan: the lowering load of that work."),
    Column("emphasis_limit_kg_s", "kg·s", "With --plan: how much of it the week may hold."),
    Column(
        "emphasis_level_s",
        "s",
        "With --plan: what emphasis_limit_s would be if the calendar took nothing out.",
    ),
    Column("emphasis_level_why", "", "With --plan: where this level comes from, in a few words."),
)
"""What stands behind the columns of a week where a plan is given."""

COLUMNS: Mapping[By, tuple[Column, ...]] = MappingProxyType(
    {
        By.SET: (*_SET_ONLY, *_WEEK, *_EXERCISE, *_SET_WORK, *_TIMES, *_SET_REMARKS),
        By.DAY: (*_LIFTER, *_DATE, *_WEEK, *_COUNTS, *_TIMES, *_WITHOUT_LOAD, *_SORENESS),
        By.WEEK: (*_LIFTER, *_WEEK, *_COUNTS, *_TIMES, *_WITHOUT_LOAD, *_CHANGE),
        By.EXERCISE: (*_LIFTER, *_WEEK, *_EXERCISE, *_COUNTS, *_TIMES, *_WITHOUT_LOAD),
        By.TEMPO: (*_LIFTER, *_WEEK, *_EXERCISE, *_TEMPO, *_KEPT),
        By.MAX: (
            *_LIFTER,
            *_DATE,
            *_EXERCISE,
            *_WHAT,
            *_TEMPO,
            *_LOAD,
            *_REPS_DONE,
            *_EFFORT,
            *_LOWER,
            *_ESTIMATED,
            *_NOTE,
        ),
        By.READINESS: (*_LIFTER, *_EXERCISE, *_READINESS),
    }
)
"""What each row holds, in order; names stay as they are from version to version."""


def explained() -> dict[Column, tuple[By, ...]]:
    """Return every column once, with the rows it stands in."""
    found: dict[Column, tuple[By, ...]] = {}
    for by, columns in COLUMNS.items():
        for column in columns:
            found[column] = (*found.get(column, ()), by)
    return found | dict.fromkeys(SEASON, (By.WEEK,))


def named(columns: Iterable[Column]) -> tuple[str, ...]:
    """Return the names of columns."""
    return tuple(column.name for column in columns)
