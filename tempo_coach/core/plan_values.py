"""Single values of a plan: lines, names, days and weights, each checked at the door."""

from __future__ import annotations

from datetime import date
from typing import Annotated, TypeAlias

from pydantic import AfterValidator, Field, PlainSerializer, PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from tempo_coach.core.fact_values import HEAVIEST_KG
from tempo_coach.core.legible import name_key
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.prescription import (
    LONGEST_NAME,
    Prescription,
    check_name,
    clean_name,
    parse_prescription,
)
from tempo_coach.core.timeline import Timeline
from tempo_coach.core.written_dates import EARLIEST_DAY, LATEST_DAY
from tempo_coach.core.written_values import LoadText
from tempo_coach.errors import NotationError, OutOfRange

OFF = "off"
"""Stands in place of a line in weeks without that work."""
LARGEST_STEP_KG = 50


def read_plan_line(text: str) -> Prescription | None:
    """Read a line of a plan; None where it is ``off``.

    Raises
    ------
    NotationError
        The line is no prescription.
    OutOfRange
        One set of it is too long to be paced.
    """
    if text.strip().lower() == OFF:
        return None
    prescription = parse_prescription(text)
    Timeline.of(prescription)
    return prescription


def refusal(fault: NotationError | OutOfRange) -> PydanticCustomError:
    """Return a refusal as pydantic carries it, with its parts for `core.plan_faults`."""
    column = fault.column if isinstance(fault, NotationError) else None
    parts = {"message": fault.message, "hint": fault.hint, "column": column}
    return PydanticCustomError("refused", "{message}", parts)


def _line(value: object) -> Prescription | None:
    if value is None or isinstance(value, Prescription):
        return value
    if not isinstance(value, str):
        raise ValueError("a line is a text between quotes")
    try:
        return read_plan_line(value)
    except (NotationError, OutOfRange) as fault:
        raise refusal(fault) from None


def _named(what: str) -> AfterValidator:
    def check(name: str) -> str:
        try:
            return check_name(clean_name(name), what=what)
        except OutOfRange as fault:
            raise refusal(fault) from None

    return AfterValidator(check)


def _weight(most_kg: int) -> AfterValidator:
    def check(load: Load) -> Load:
        kg = None if load.unit is LoadUnit.PERCENT else load.kg()
        if kg is None or kg > most_kg:
            raise refusal(
                OutOfRange(
                    f"{load} is not possible here", hint=f"in kg or lb, at most {most_kg} kg"
                )
            )
        return load

    return AfterValidator(check)


_NAME_SCHEMA = WithJsonSchema({"type": "string", "minLength": 1, "maxLength": LONGEST_NAME})
PlanName: TypeAlias = Annotated[str, _named("plan"), _NAME_SCHEMA]
PersonName: TypeAlias = Annotated[str, _named("lifter"), _NAME_SCHEMA]
ExerciseName: TypeAlias = Annotated[str, _named("exercise"), _NAME_SCHEMA]
SpanName: TypeAlias = Annotated[str, _named("span"), _NAME_SCHEMA]
GroupName: TypeAlias = Annotated[
    str, AfterValidator(name_key), _named("movement group"), _NAME_SCHEMA
]
"""In small letters, as the program names those that it knows."""
PlanDay: TypeAlias = Annotated[date, Field(ge=EARLIEST_DAY, le=LATEST_DAY)]
Weight: TypeAlias = Annotated[LoadText, _weight(HEAVIEST_KG)]
Step: TypeAlias = Annotated[LoadText, _weight(LARGEST_STEP_KG)]
Line: TypeAlias = Annotated[
    Prescription | None,
    PlainValidator(_line),
    PlainSerializer(lambda line: OFF if line is None else str(line), return_type=str),
    WithJsonSchema(
        {"type": "string", "examples": ["front squat 4x5 @ 72% 4-1-X-1 rest 3:00", OFF]}
    ),
]
"""A prescription, or None for ``off``."""
