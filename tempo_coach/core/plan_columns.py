"""The columns of a coach's table, found by their headings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from tempo_coach.core.load import LoadUnit
from tempo_coach.core.plan_cells import Cell, Row, plain_words, text_of


class Column(StrEnum):
    """What a column holds."""

    WEEK = "week"
    DAY = "day"
    EXERCISE = "exercise"
    SCHEME = "sets x reps"
    SETS = "sets"
    REPS = "reps"
    TEMPO = "tempo"
    LOAD = "load"
    SHARE = "% of max"
    REST = "rest"
    NOTE = "note"


# English, German, French and Spanish, without accents, signs and spaces.
_HEADINGS = {
    Column.WEEK: "week wk w weekno weeknumber woche semaine semana sem",
    Column.DAY: "day weekday date session tag wochentag datum jour dia fecha",
    Column.EXERCISE: "exercise exercises exercisename movement lift ubung uebung exercice "
    "mouvement ejercicio",
    Column.SCHEME: "setsxreps setsreps setreps setrep sxr satzexwdh seriesxreps",
    Column.SETS: "set sets noofsets numberofsets satz satze saetze serie series",
    Column.REPS: "rep reps repsset repsperset repetitions wdh wiederholungen repeticiones",
    Column.TEMPO: "tempo cadence kadenz cadencia",
    Column.LOAD: "load weight gewicht last charge poids peso carga",
    Column.SHARE: "% 1rm 1rm% %1rm %of1rm %rm %max percent percent1rm percentage intensity% "
    "load% weight%",
    Column.REST: "rest rests resttime restperiod restbetweensets pause satzpause pausenzeit repos "
    "recuperation descanso pausa",
    Column.NOTE: "note notes comment comments remark remarks coachingnotes bemerkung bemerkungen "
    "anmerkung anmerkungen notiz notizen kommentar remarque remarques commentaire commentaires "
    "nota notas comentario comentarios observaciones",
}
_BY_HEADING: Mapping[str, Column] = MappingProxyType(
    {heading: column for column, listed in _HEADINGS.items() for heading in listed.split()}
)
_UNITS: Mapping[str, str] = MappingProxyType(
    {
        **dict.fromkeys(("kg", "kgs", "kilos"), "kg"),
        **dict.fromkeys(("lb", "lbs", "pounds"), "lb"),
        **dict.fromkeys(("s", "sec", "secs", "seconds", "sek"), "s"),
        **dict.fromkeys(("min", "mins", "minutes", "minuten"), "min"),
    }
)
_MOST_ROWS_ABOVE = 60
"""Titles and remarks may stand above the headings, but not more than this."""


@dataclass(frozen=True, slots=True)
class Heading:
    """One column that was found."""

    column: Column
    index: int
    """From 0."""
    text: str
    unit: str | None
    """``kg``, ``lb``, ``s`` or ``min`` where the heading says so."""

    def load_unit(self) -> LoadUnit:
        """Return what a bare number in a column of loads is counted in."""
        if self.column is Column.SHARE:
            return LoadUnit.PERCENT
        return LoadUnit.LB if self.unit == "lb" else LoadUnit.KG


@dataclass(frozen=True, slots=True)
class Headings:
    """The row of headings, and which columns it names."""

    row: int
    """From 0."""
    found: tuple[Heading, ...]
    left_out: tuple[str, ...]
    """Headings that are not known, or stand there twice."""

    def of(self, column: Column) -> Heading | None:
        """Return a column's heading, or None where there is none."""
        return next((one for one in self.found if one.column is column), None)

    def cell(self, row: Row, column: Column) -> Cell:
        """Return a row's cell of a column; None where there is none."""
        heading = self.of(column)
        return row[heading.index] if heading and heading.index < len(row) else None


def find_headings(rows: Sequence[Row]) -> Headings | None:
    """Return the headings that name the most columns, or None where none names an exercise.

    A heading may be merged over two rows: where a cell names nothing, the one above it counts.
    """
    best: Headings | None = None
    above: Row = ()
    for number, row in enumerate(rows[:_MOST_ROWS_ABOVE]):
        headings = _headings(number, above, row)
        if headings.of(Column.EXERCISE) and (best is None or len(headings.found) > len(best.found)):
            best = headings
        above = row
    return best if best is not None and len(best.found) > 1 else None


def _headings(number: int, above: Row, row: Row) -> Headings:
    found: dict[Column, Heading] = {}
    left_out: list[str] = []
    for index in range(max(len(above), len(row))):
        upper, own = (text_of(one[index]) if index < len(one) else "" for one in (above, row))
        heading = _heading(index, own) or _heading(index, upper)
        if heading is not None and heading.column not in found:
            found[heading.column] = heading
        elif own:
            left_out.append(own)
    return Headings(number, tuple(found.values()), tuple(left_out))


def _heading(index: int, text: str) -> Heading | None:
    words = plain_words(text)
    units = [_UNITS[word] for word in words if word in _UNITS]
    name = "".join(word for word in words if word not in _UNITS)
    column = _BY_HEADING.get(name)
    if not name and units and units[0] in {"kg", "lb"}:
        column = Column.LOAD
    return None if column is None else Heading(column, index, text, units[0] if units else None)
