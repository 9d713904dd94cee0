"""What the day screen says about a planned day, in words and rows."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import groupby

from tempo_coach.core.bar_words import set_words
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.loading import Rack
from tempo_coach.core.marks import counted
from tempo_coach.core.next_sets import set_ahead
from tempo_coach.core.plan import WEEKDAYS, Plan
from tempo_coach.core.plan_days import PlannedDay
from tempo_coach.core.prescription import rest_text
from tempo_coach.core.session import Session, SessionItem
from tempo_coach.core.set_bar import set_bar
from tempo_coach.ui.cells import Column, laid_out

ITEM_COLUMNS = (
    Column("work", takes_rest=True),
    Column("sets", gives_way=1),
    Column("load", gives_way=2),
    Column("tempo", gives_way=3),
    Column("rest", gives_way=4, to_right=True),
    Column("done"),
)
DAY_ROW = "the day"
"""Stands beneath the items, for what all of them come to."""

LABELS = ("load", "discs", "season", "remark", "today", "last time", "this time", "coach")
"""What `item_words` may yield, in its order."""


def date_words(day: date) -> str:
    """Return ``Thursday 2026-11-26``."""
    return f"{WEEKDAYS[day.weekday()]} {day.isoformat()}"


def day_words(plan: Plan, day: PlannedDay, today: date) -> str:
    """Say which day it is, in the calendar and in the plan."""
    away = (day.date - today).days
    when = {0: ", today", -1: ", yesterday", 1: ", tomorrow"}.get(away, "")
    return f"{date_words(day.date)}{when} · week {day.week} of {plan.weeks} · {legible(plan.name)}"


def reach_words(session: Session, today: date) -> tuple[str, ...]:
    """Say that sets done today don't count for a day, where they don't."""
    if today < session.day.date:
        return ("This day is still to come: sets done today do not count for it.",)
    if today >= session.until:
        return ("This day is past: sets done today do not count for it.",)
    return ()


def item_rows(session: Session, *, width: int) -> tuple[str, ...]:
    """Return the headings, a row for each item in today's order, and the row of the day."""
    rows = [
        (
            legible(item.prescription.exercise),
            _scheme(item),
            "" if item.prescription.load is None else str(item.prescription.load),
            str(item.prescription.tempo),
            "" if item.prescription.rest_ms is None else rest_text(item.prescription.rest_ms),
            _standing(item, is_next=item is session.next_item),
        )
        for item in session.items
    ]
    done, written = session.done.sets, session.written.sets
    rows.append((DAY_ROW, "", "", "", "", f"{done} of {written}"))
    return laid_out(ITEM_COLUMNS, rows, width=width)


def heading_words(item: SessionItem) -> str:
    """Name an item and say where it stands."""
    name = legible(item.prescription.exercise)
    if item.skipped is not None:
        why = f": {legible(item.skipped)}" if item.skipped else ""
        return f"{name} · skipped{why}"
    if item.next_set is None:
        return f"{name} · done"
    return f"{name} · set {item.next_set} of {item.prescription.sets}"


def item_words(
    session: Session, item: SessionItem, *, rack: Rack | None
) -> Iterator[tuple[str, str]]:
    """Yield what there is to know of an item: a label, and its words.

    Parameters
    ----------
    session
        The day.
    item
        One of its items.
    rack
        What its load is to be loaded with; None leaves it out.
    """
    yield "load", _load_words(item)
    yield from _discs_words(item, rack)
    ahead = set_ahead(session, item)
    if ahead is not None and ahead.warnings:
        yield "season", "\n".join(ahead.warnings)
    if item.flags:
        yield "remark", "\n".join(f"{flag}." for flag in item.flags)
    yield from _changed_words(session, item)
    if item.last_time:
        first = item.last_time[0].started_at.date()
        yield "last time", f"{date_words(first)}: {_sets_words(item.last_time)}"
    else:
        yield "last time", f"nothing on record at {item.prescription.tempo}"
    if item.done:
        yield "this time", _sets_words(item.done)
    if item.note:
        yield "coach", "\n".join(map(legible, item.note.splitlines()))


def _scheme(item: SessionItem) -> str:
    prescription = item.prescription
    return f"{prescription.sets}x{'max' if prescription.reps is None else prescription.reps}"


def _standing(item: SessionItem, *, is_next: bool) -> str:
    if item.skipped is not None:
        return "skipped"
    if is_next:
        return f"next: set {item.next_set}"
    done, sets = len(item.done), item.prescription.sets
    return f"{done} of {sets}, done" if item.next_set is None else f"{done} of {sets}"


def _load_words(item: SessionItem) -> str:
    load, exercise = item.prescription.load, legible(item.prescription.exercise)
    if load is None:
        return "as you choose: none is written"
    if load.unit is LoadUnit.PERCENT:
        return f"no max for {exercise}: load by feel, or type one"
    if item.resolved.load_kg is None:
        return f"{load}, without a body mass in the plan"
    return item.resolved.words or str(load)


def _discs_words(item: SessionItem, rack: Rack | None) -> Iterator[tuple[str, str]]:
    prescription = item.prescription
    if rack is not None:
        found = set_bar(rack, exercise=prescription.exercise, load=prescription.load)
        if found is not None:
            yield "discs", set_words(found)


def _changed_words(session: Session, item: SessionItem) -> Iterator[tuple[str, str]]:
    """Yield what is other than written, for today alone."""
    written = item.written
    changes = [change for change in session.changes if change.item == item.item]
    loads = [change.load for change in changes if change.load is not None]
    said = []
    if legible(item.prescription.exercise) != legible(written.exercise):
        said.append(f"in place of {legible(written.exercise)}")
    if loads and loads[-1] != written.load:
        said.append(f"load written: {written.load or 'none'}")
    if item.added_sets:
        said.append(f"{counted(item.added_sets, 'set')} added")
    if said:
        yield "today", "; ".join(said)


def _sets_words(sets: tuple[SetDone, ...]) -> str:
    """Return such as ``65 kg: 5, 5, 4 reps, effort 7, 8, 9``, a part for each load."""
    parts = []
    for load, several in groupby(sets, key=lambda done: done.load_as_written):
        alike = list(several)
        reps = ", ".join(str(done.reps_done) for done in alike)
        reps += " rep" if reps == "1" else " reps"
        words = f"{legible(load)}: {reps}" if load else reps
        if any(done.effort is not None for done in alike):
            efforts = ("–" if done.effort is None else f"{done.effort:g}" for done in alike)
            words += f", effort {', '.join(efforts)}"
        parts.append(words)
    return "; ".join(parts)
