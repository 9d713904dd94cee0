"""From what is typed into the fields of a reserve test to what it is begun with."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from tempo_coach.core.legible import quoted
from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.core.load_span import (
    USUAL_CEILING,
    USUAL_LOWER_S,
    USUAL_STEP,
    LoadSpan,
    span_of,
)
from tempo_coach.core.max_entry import load_of_test
from tempo_coach.core.prescription import check_name, clean_name
from tempo_coach.core.reserve_facts import LONGEST_LOWER_S, SHORTEST_LOWER_S
from tempo_coach.core.reserve_start import USUAL_REST, read_rest
from tempo_coach.core.typed_load import read_typed_load
from tempo_coach.errors import OutOfRange

_NUMBER = re.compile(r"[0-9]{1,3}(?:\.[0-9]{1,3})?")
_WHOLE = parse_load("100%")


class Field(StrEnum):
    """What a test is begun with, in the order in which it is asked."""

    EXERCISE = "exercise"
    MAX = "max"
    STEP = "step"
    LOWER = "lower"
    CEILING = "ceiling"
    REST = "rest"


USUAL = {
    Field.STEP: str(USUAL_STEP),
    Field.LOWER: f"{USUAL_LOWER_S:g}",
    Field.CEILING: str(USUAL_CEILING),
    Field.REST: USUAL_REST,
}
"""What the fields hold where nothing else is said."""


@dataclass(frozen=True, slots=True)
class ReserveWish:
    """What a test is to be begun with."""

    exercise: str
    span: LoadSpan
    rest_ms: int
    """Between attempts."""


def read_fields(
    typed: Mapping[Field, str], *, unit: LoadUnit
) -> tuple[ReserveWish | None, dict[Field, OutOfRange]]:
    """Read all fields.

    Parameters
    ----------
    typed
        What stands in them.
    unit
        What a bare number is counted in.

    Returns
    -------
    tuple of ReserveWish or None, and dict
        What they make, or None where one can't be read; and why.
    """
    values: dict[Field, Any] = {}
    faults: dict[Field, OutOfRange] = {}
    for field in Field:
        try:
            values[field] = _value(field, typed[field].strip(), values.get(Field.MAX), unit)
        except OutOfRange as fault:
            faults[field] = fault
    if faults:
        return None, faults
    span = span_of(
        values[Field.MAX],
        step=values[Field.STEP],
        ceiling=values[Field.CEILING],
        lower_s=values[Field.LOWER],
    )
    return ReserveWish(values[Field.EXERCISE], span, values[Field.REST]), faults


def _value(field: Field, text: str, max_kg: float | None, unit: LoadUnit) -> Any:
    match field:
        case Field.EXERCISE:
            return check_name(clean_name(text), what="exercise")
        case Field.MAX:
            return load_of_test(str(_load(text, unit)))[1]
        case Field.STEP:
            step = _load(text, unit)
            # A ceiling at the 1RM goes with any, as the usual one does not.
            _check(max_kg, step=step, ceiling=_WHOLE)
            return step
        case Field.CEILING:
            ceiling = _load(text, unit)
            _check(max_kg, step=USUAL_STEP, ceiling=ceiling)
            return ceiling
        case Field.LOWER:
            return _seconds(text)
        case Field.REST:
            return read_rest(text)


def _load(text: str, unit: LoadUnit) -> Load:
    return read_typed_load(text, before=None, unit=unit)


def _check(max_kg: float | None, *, step: Load, ceiling: Load) -> None:
    """Refuse what does not go with the 1RM, as far as that is known."""
    if max_kg is not None:
        span_of(max_kg, step=step, ceiling=ceiling)


def _seconds(text: str) -> float:
    if _NUMBER.fullmatch(text) and SHORTEST_LOWER_S <= float(text) <= LONGEST_LOWER_S:
        return float(text)
    raise OutOfRange(
        f"{quoted(text)} is no length of a lower",
        hint=f"{SHORTEST_LOWER_S} to {LONGEST_LOWER_S} s",
    )
