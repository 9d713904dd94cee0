"""A coach's table read as a plan."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from tempo_coach.core.fact_values import LONGEST_NOTE
from tempo_coach.core.legible import name_key
from tempo_coach.core.plan import (
    MOST_WEEKS,
    WEEKDAYS,
    Day,
    Lifter,
    Plan,
    Weekday,
    Work,
)
from tempo_coach.core.plan_cells import Row
from tempo_coach.core.plan_columns import Column, Heading, Headings, find_headings
from tempo_coach.core.plan_reading import read_plan
from tempo_coach.core.plan_rows import RowRead, read_rows
from tempo_coach.core.plan_text import plan_text
from tempo_coach.core.prescription import LONGEST_NAME, Prescription, clean_name
from tempo_coach.core.written_dates import DAY_RANGE, EARLIEST_DAY, LATEST_DAY
from tempo_coach.errors import OutOfRange, TableRefused

EXAMPLE = "such as week, day, exercise, sets, reps, tempo, load, rest, note"


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of a table."""

    name: str
    """How the sheet, or the way a text is separated into columns, is called."""
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class TableReading:
    """What was understood of a table."""

    sheet: str
    headings: Headings
    rows: tuple[RowRead, ...]
    plan: Plan


@dataclass(slots=True)
class _Piece:
    """One piece of work while its weeks are gathered."""

    exercise: str
    lines: dict[int, Prescription]
    notes: dict[str, int]
    """With the first week of each."""


def read_table(sheets: Iterable[Sheet], *, name: str, start: date, lifter: str) -> TableReading:
    """Read the first sheet that has the most of the usual columns.

    Parameters
    ----------
    sheets
        All of them.
    name
        What to call the plan.
    start
        A day of week 1; the first week of the table is week 1, whatever its number.
    lifter
        Who is to do it.

    Raises
    ------
    TableRefused
        There is no row of headings with an exercise and anything else, or no row beneath it could
        be understood.
    OutOfRange
        It spans more weeks than a plan can have, or the start is not possible.
    """
    sheet, headings = _best(tuple(sheets))
    rows = tuple(read_rows(sheet.rows, headings))
    understood = [row for row in rows if row.line is not None]
    if not understood:
        first = f", the first, row {rows[0].row}: {rows[0].remarks[-1]}" if rows else ""
        raise TableRefused(
            f"no row beneath the headings could be understood{first}",
            hint="each has an exercise, sets, reps and a tempo such as 4-1-X-1",
        )
    first_week = min(row.weeks[0] for row in understood)
    weeks = max(row.weeks[-1] for row in understood) - first_week + 1
    if weeks > MOST_WEEKS:
        raise OutOfRange(f"the table spans {weeks} weeks", hint=f"at most {MOST_WEEKS}")
    if not EARLIEST_DAY <= start <= LATEST_DAY:
        raise OutOfRange(
            f"a plan can't start on {start.isoformat()}",
            hint=DAY_RANGE,
        )
    days = (_day(weekday, understood, first_week, weeks) for weekday in WEEKDAYS)
    plan = Plan(
        name=clean_name(name)[:LONGEST_NAME].strip() or "Plan",
        start=start,
        weeks=weeks,
        lifters=(Lifter(name=lifter),),
        days=tuple(day for day in days if day is not None),
    )
    return TableReading(sheet.name, headings, rows, plan)


def _best(sheets: Sequence[Sheet]) -> tuple[Sheet, Headings]:
    found = [
        (sheet, headings) for sheet in sheets if (headings := find_headings(sheet.rows)) is not None
    ]
    if not found:
        raise TableRefused("the table has no row of headings that is understood", hint=EXAMPLE)
    return max(found, key=lambda one: len(one[1].found))


def _day(weekday: Weekday, rows: Iterable[RowRead], first_week: int, weeks: int) -> Day | None:
    pieces: list[_Piece] = []
    for row in rows:
        if row.day == weekday and row.line is not None:
            for week in row.weeks:
                _put(pieces, week - first_week + 1, row.line, row.note)
    work = tuple(_work(piece, weeks) for piece in pieces)
    return Day(day=weekday, work=work) if work else None


def _put(pieces: list[_Piece], week: int, line: Prescription, note: str) -> None:
    """Put a line with the first piece of its exercise that has none in that week."""
    key = name_key(line.exercise)
    for piece in pieces:
        if name_key(piece.exercise) == key and week not in piece.lines:
            break
    else:
        piece = _Piece(line.exercise, {}, {})
        pieces.append(piece)
    piece.lines[week] = line
    if note:
        piece.notes.setdefault(note, week)


def _work(piece: _Piece, weeks: int) -> Work:
    by_week = [piece.lines.get(week) for week in range(1, weeks + 1)]
    changes = {
        week: line
        for week, (before, line) in enumerate(pairwise(by_week), start=2)
        if line != before
    }
    return Work(line=by_week[0], note=_note(piece.notes), from_week=changes)


def _note(notes: dict[str, int]) -> str:
    if len(notes) < 2:
        return "".join(notes)
    joined = "; ".join(f"week {week}: {note}" for note, week in notes.items())
    return joined[:LONGEST_NOTE]


def columns_found(headings: Headings) -> tuple[Heading, ...]:
    """Return the columns in the order in which a plan asks for them."""
    found = (headings.of(column) for column in Column)
    return tuple(heading for heading in found if heading is not None)


def imported_text(
    reading: TableReading, *, source: str, today: date
) -> tuple[str, tuple[str, ...]]:
    """Return the plan as TOML with a head of remarks, and what it still lacks.

    Parameters
    ----------
    reading
        What was understood.
    source
        What the table is called.
    today
        As for `read_plan`.
    """
    text = plan_text(reading.plan)
    lacks = tuple(f"{one.message}; {one.hint}" for one in read_plan(text, today=today).faults)
    head = [f"Made of {source}.", *(f"Still missing: {lack}." for lack in lacks)]
    if lacks:
        head.append("'tempo-coach plan new' shows how a max is written.")
    return "".join(f"# {line}\n" for line in head) + "\n" + text, lacks
