"""The rows of a coach's table, each read as one line of work or refused with a reason."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import TypeVar

from tempo_coach.core.exercises import usual_lead
from tempo_coach.core.fact_values import LONGEST_NOTE
from tempo_coach.core.legible import quoted
from tempo_coach.core.load import Load
from tempo_coach.core.plan import WEEKDAYS, Weekday
from tempo_coach.core.plan_cells import (
    Cell,
    Row,
    SheetDate,
    is_blank,
    load_of,
    plain_words,
    reps_of,
    rest_of,
    sets_of,
    tempo_of,
    text_of,
    weeks_of,
)
from tempo_coach.core.plan_columns import Column, Heading, Headings
from tempo_coach.core.plan_values import read_plan_line
from tempo_coach.core.prescription import Prescription, check_name, clean_name
from tempo_coach.core.weeks import IsoWeek
from tempo_coach.core.written_dates import is_like_day, parse_day
from tempo_coach.errors import NotationError, OutOfRange

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class RowRead:
    """What one row says."""

    row: int
    """As spreadsheets count, from 1."""
    weeks: range
    day: Weekday
    line: Prescription | None
    """None where the row was refused."""
    note: str
    remarks: tuple[str, ...]
    """Why it was refused; else what was left out, or read otherwise than it stands there."""


# English, German, French and Spanish, without accents.
_WEEKDAY_WORDS: Mapping[str, Weekday] = MappingProxyType(
    {
        word: weekday
        for weekday, words in zip(
            WEEKDAYS,
            (
                "monday mon montag mo lundi lun lunes",
                "tuesday tue tues dienstag di mardi mar martes",
                "wednesday wed mittwoch mi mercredi mer miercoles mie",
                "thursday thu thur thurs donnerstag do jeudi jeu jueves jue",
                "friday fri freitag fr vendredi ven viernes vie",
                "saturday sat samstag sonnabend sa samedi sam sabado sab",
                "sunday sun sonntag so dimanche dim domingo dom",
            ),
            strict=True,
        )
        for word in words.split()
    }
)
_WEEK_WORDS = frozenset({"week", "wk", "woche", "semaine", "semana"})
_DAY_WORDS = frozenset({"day", "session", "tag", "jour", "dia"})
_SCHEME = re.compile(r"(?P<sets>\S+?)\s*[xX×]\s*(?P<reps>\S+)")


def read_rows(rows: Sequence[Row], headings: Headings) -> Iterator[RowRead]:
    """Read the rows beneath the headings that hold anything but a week or a day."""
    calendar = _Calendar(has_weeks=headings.of(Column.WEEK) is not None)
    for number, row in enumerate(rows[headings.row + 1 :], start=headings.row + 2):
        filled = [cell for cell in row if not is_blank(cell)]
        if not filled or (len(filled) == 1 and calendar.turn_to(text_of(filled[0]))):
            continue
        remarks = [
            *calendar.turn_week(headings.cell(row, Column.WEEK)),
            *calendar.turn_day(headings.cell(row, Column.DAY)),
        ]
        if len(filled) == sum(
            not is_blank(headings.cell(row, column)) for column in (Column.WEEK, Column.DAY)
        ):
            continue
        line: Prescription | None = None
        try:
            line = _line(row, headings, remarks)
        except (NotationError, OutOfRange) as fault:
            remarks.append(_words(fault))
        note = text_of(headings.cell(row, Column.NOTE))
        if len(note) > LONGEST_NOTE:
            remarks.append(f"the note was cut at {LONGEST_NOTE} characters")
        yield RowRead(
            number, calendar.weeks, calendar.day, line, note[:LONGEST_NOTE], tuple(remarks)
        )


def _line(row: Row, headings: Headings, remarks: list[str]) -> Prescription:
    exercise = clean_name(text_of(headings.cell(row, Column.EXERCISE)))
    check_name(exercise, what="exercise")
    sets, reps = _sets_and_reps(row, headings)
    tempo, said = tempo_of(headings.cell(row, Column.TEMPO))
    remarks.extend([said] if said else [])
    rest = _optional(headings, row, Column.REST, _read_rest, remarks)
    remarks.extend([rest[1]] if rest and rest[1] else [])
    load = _optional(headings, row, Column.LOAD, _read_load, remarks)
    share = _optional(headings, row, Column.SHARE, _read_load, remarks)
    if load and share:
        remarks.append(f"left out: {share}, since the load {load} stands beside it")
    line = Prescription(
        exercise=exercise,
        sets=sets,
        reps=reps,
        load=load or share,
        tempo=tempo,
        rest_ms=rest[0] if rest else None,
        lead=usual_lead(exercise),
    )
    if not _reads_as_itself(line):
        raise OutOfRange(
            f"{quoted(exercise)} can't stand before sets and reps", hint="give it another name"
        )
    return line


def _reads_as_itself(line: Prescription) -> bool:
    try:
        return read_plan_line(str(line)) == line
    except NotationError:
        return False


def _optional(
    headings: Headings,
    row: Row,
    column: Column,
    read: Callable[[Cell, Heading], T],
    remarks: list[str],
) -> T | None:
    """Read a cell that may be blank; one that can't be read is left out with a remark."""
    heading, cell = headings.of(column), headings.cell(row, column)
    if heading is None or is_blank(cell):
        return None
    try:
        return read(cell, heading)
    except OutOfRange as fault:
        remarks.append(f"left out: {_words(fault)}")
        return None


def _read_rest(cell: Cell, heading: Heading) -> tuple[int, str]:
    return rest_of(cell, heading.unit)


def _read_load(cell: Cell, heading: Heading) -> Load:
    return load_of(cell, heading.load_unit())


def _sets_and_reps(row: Row, headings: Headings) -> tuple[int, int | None]:
    sets, reps = headings.cell(row, Column.SETS), headings.cell(row, Column.REPS)
    scheme = headings.cell(row, Column.SCHEME)
    if is_blank(scheme):
        scheme = reps if is_blank(sets) else None
    if found := _SCHEME.fullmatch(text_of(scheme)):
        sets, reps = found["sets"], found["reps"]
    return sets_of(sets), reps_of(reps)


def _words(fault: NotationError | OutOfRange) -> str:
    return f"{fault.message}; {fault.hint}"


class _Calendar:
    """The week and the day that hold for a row: those of the row above, where it gives none."""

    def __init__(self, *, has_weeks: bool) -> None:
        self.weeks = range(1, 2)
        self.day: Weekday = WEEKDAYS[0]
        self._has_weeks = has_weeks
        self._first_monday: date | None = None
        self._placed: dict[str, Weekday] = {}
        """Weekdays of labels that are none, such as ``A``."""

    def turn_to(self, title: str) -> bool:
        """Take a week or a day from a title between the rows, such as ``Week 2``; else do nothing.

        Returns
        -------
        bool
            Whether it was one.
        """
        words = plain_words(title)
        if len(words) > 1 and words[0] in _WEEK_WORDS and weeks_of(words[1]) is not None:
            self.turn_week(words[1])
            return True
        if words and (words[0] in _WEEKDAY_WORDS or (words[0] in _DAY_WORDS and len(words) == 2)):
            self.turn_day(title)
            return True
        return False

    def turn_week(self, cell: Cell) -> tuple[str, ...]:
        """Take the week of a cell, and return what is to be said of it."""
        if is_blank(cell):
            return ()
        weeks = weeks_of(cell)
        if weeks is None:
            as_above = f"it was read as week {self.weeks[0]}"
            return (f"{quoted(text_of(cell))} is no week; {as_above}",)
        self.weeks = weeks
        return ()

    def turn_day(self, cell: Cell) -> tuple[str, ...]:
        """Take the day of a cell, and return what is to be said of it."""
        if is_blank(cell):
            return ()
        if isinstance(cell, SheetDate):
            return self._turn_date(cell.day)
        label = text_of(cell)
        words = plain_words(label)
        if words and words[0] in _WEEKDAY_WORDS:
            self.day = _WEEKDAY_WORDS[words[0]]
            return ()
        doubt = f"the day {quoted(label)}"
        if is_like_day(label):
            try:
                # The time is what spreadsheets write behind a date.
                return self._turn_date(parse_day(label.removesuffix(" 00:00:00")))
            except OutOfRange as fault:
                doubt = f"{_words(fault)}; it"
        key = " ".join(words)
        said: tuple[str, ...] = ()
        if key not in self._placed:
            self._placed[key] = self._place(words)
            said = (f"{doubt} was put on {self._placed[key]}",)
        self.day = self._placed[key]
        return said

    def _place(self, words: Sequence[str]) -> Weekday:
        if words and words[-1] in {"1", "2", "3", "4", "5", "6", "7"}:
            return WEEKDAYS[int(words[-1]) - 1]
        return WEEKDAYS[min(len(self._placed), len(WEEKDAYS) - 1)]

    def _turn_date(self, day: date) -> tuple[str, ...]:
        self.day = WEEKDAYS[day.weekday()]
        if self._has_weeks:
            return ()
        monday = IsoWeek.of(day).monday()
        self._first_monday = self._first_monday or monday
        if monday < self._first_monday:
            before = f"{day.isoformat()} is before the week of the first date"
            return (f"{before}; it was put in week {self.weeks[0]}",)
        week = (monday - self._first_monday).days // 7 + 1
        self.weeks = range(week, week + 1)
        return ()
