"""The table of a week's sets, as prescribed and as done."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from tempo_coach.core.amounts import NONE, lowering
from tempo_coach.core.legible import legible
from tempo_coach.core.marks import marked_seconds
from tempo_coach.core.page_parts import Column, Row, Table
from tempo_coach.core.plan import WEEKDAYS
from tempo_coach.core.set_groups import SetGroup

_MANY_ALIKE = 4

_COLUMNS = (
    Column("day", is_text=True, width_mm=13),
    Column("exercise", is_text=True, width_mm=35),
    Column("tempo", is_text=True, width_mm=16),
    Column("load", is_text=True, width_mm=17),
    Column("reps prescribed", is_text=True, width_mm=18),
    Column("reps done", is_text=True, width_mm=17),
    Column("lowering s prescribed", width_mm=18),
    Column("lowering s done", width_mm=14),
    Column("effort of 10", is_text=True, width_mm=13),
    Column("note", is_text=True, most_lines=3),
)


def sets_table(groups: Sequence[SetGroup]) -> Table:
    """Return a row for each group of sets."""
    return Table("Sets of the week, as prescribed and as done", _COLUMNS, tuple(_rows(groups)))


def _rows(groups: Sequence[SetGroup]) -> Iterator[Row]:
    for group in groups:
        reps = NONE if group.reps_prescribed is None else str(group.reps_prescribed)
        asked = group.lower_prescribed_ms
        yield Row(
            f"{WEEKDAYS[group.day.weekday()][:3]} {group.day.day}",
            (
                _work_text(group),
                str(group.tempo),
                _load_text(group),
                f"{len(group.sets)} × {reps}",
                ", ".join(_counted_alike([str(one.reps_done) for one in group.sets])),
                NONE
                if asked is None
                else marked_seconds(asked, allowed_ms=asked * group.is_lower_by_allowance),
                lowering(group.done),
                _range([one.effort for one in group.sets if one.effort is not None]),
                _notes(group),
            ),
        )


def _work_text(group: SetGroup) -> str:
    parts = (group.exercise, str(group.shape), group.method or "")
    return legible(", ".join(part for part in parts if part))


def _load_text(group: SetGroup) -> str:
    if group.load_kg is not None:
        return f"{group.load_kg:g} kg"
    return legible(group.load_as_written) or NONE


def _counted_alike(texts: Sequence[str]) -> Iterator[str]:
    """Yield texts in order, many alike as one with their number, so that rows stay short."""
    for text, alike in groupby(texts):
        number = len(list(alike))
        yield from [f"{number} × {text}"] if number >= _MANY_ALIKE else [text] * number


def _range(values: Sequence[float]) -> str:
    if not values:
        return NONE
    low, high = min(values), max(values)
    return f"{low:g}" if low == high else f"{low:g}–{high:g}"


def _notes(group: SetGroup) -> str:
    notes = dict.fromkeys(" ".join(one.note.split()) for one in group.sets)
    return legible("; ".join(note for note in notes if note))
