"""From what is typed into the fields of a set to a correction."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from enum import StrEnum
from typing import Any

from tempo_coach.core.facts import Changes, SetDone
from tempo_coach.core.legible import quoted
from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.core.prescription import MOST_REPS
from tempo_coach.errors import OutOfRange

_LONGEST_NOTE = 2_000
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


class Field(StrEnum):
    """What can be corrected, in the order in which it is asked."""

    REPS = "reps"
    LOAD = "load"
    EFFORT = "effort"
    NOTE = "note"


def texts(done: SetDone) -> dict[Field, str]:
    """Return what the fields hold before anything is typed."""
    return {
        Field.REPS: str(done.reps_done),
        Field.LOAD: done.load_as_written,
        Field.EFFORT: "" if done.effort is None else f"{done.effort:g}",
        Field.NOTE: done.note,
    }


def read_field(
    field: Field, text: str, *, prescribed: Load | None, unit: LoadUnit
) -> dict[str, Any]:
    """Read one field.

    Parameters
    ----------
    field
        Which one.
    text
        What is typed.
    prescribed
        The load of the line; a bare number is counted as it is.
    unit
        What a bare number is counted in where the line has no load.

    Returns
    -------
    dict
        Fields of `Changes` with their values.

    Raises
    ------
    OutOfRange
        The text is no value for the field.
    """
    text = text.strip()
    match field:
        case Field.REPS:
            return {"reps_done": _reps(text)}
        case Field.LOAD:
            load = _load(text, prescribed, unit)
            return {
                "load_kg": None if load is None else load.kg(),
                "load_as_written": "" if load is None else str(load),
            }
        case Field.EFFORT:
            return {"effort": _effort(text)}
        case Field.NOTE:
            return {"note": _note(text)}


def changes_from(
    done: SetDone, typed: Mapping[Field, str], *, prescribed: Load | None, unit: LoadUnit
) -> tuple[Changes | None, tuple[OutOfRange, ...]]:
    """Compare what is typed with a set.

    Returns
    -------
    tuple of Changes or None, and tuple of OutOfRange
        What differs, or None if nothing does; and why some fields can't be read.
    """
    before = texts(done)
    values: dict[str, Any] = {}
    faults: list[OutOfRange] = []
    for field in Field:
        if typed[field].strip() == before[field]:
            continue
        try:
            values |= read_field(field, typed[field], prescribed=prescribed, unit=unit)
        except OutOfRange as fault:
            faults.append(fault)
    differing = {name: value for name, value in values.items() if value != getattr(done, name)}
    return (Changes(**differing) if differing else None), tuple(faults)


def _reps(text: str) -> int:
    if re.fullmatch(r"[0-9]{1,9}", text) and int(text) <= MOST_REPS:
        return int(text)
    raise OutOfRange(
        f"{quoted(text)} is no number of reps", hint=f"a whole number from 0 to {MOST_REPS}"
    )


def _load(text: str, prescribed: Load | None, unit: LoadUnit) -> Load | None:
    if not text:
        return None
    if _NUMBER.fullmatch(text):
        on_body = prescribed is not None and prescribed.on_body
        counted_in = unit if prescribed is None else prescribed.unit
        text = f"{'bw+' if on_body else ''}{text} {counted_in}"
    return parse_load(text)


def _effort(text: str) -> float | None:
    if not text:
        return None
    if _NUMBER.fullmatch(text) and len(text) <= 9:
        effort = Decimal(text)
        if 1 <= effort <= 10 and effort * 2 % 1 == 0:
            return float(effort)
    raise OutOfRange(f"{quoted(text)} is no effort", hint="1 to 10 by halves, such as 8 or 8.5")


def _note(text: str) -> str:
    if len(text) > _LONGEST_NOTE:
        raise OutOfRange(f"the note has {len(text)} characters", hint=f"at most {_LONGEST_NOTE}")
    return text
