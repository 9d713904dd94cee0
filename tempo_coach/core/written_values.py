"""Values as they are written in a file: times, dates, tempos, loads."""

from __future__ import annotations

import re
from datetime import date, datetime
from typing import Annotated, TypeAlias

from pydantic import PlainSerializer, PlainValidator, WithJsonSchema

from tempo_coach.core.clauses import parse_shape
from tempo_coach.core.load import Load, parse_load
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.tempo import Tempo, parse_tempo
from tempo_coach.core.written_dates import parse_day
from tempo_coach.errors import NotationError, OutOfRange

_RFC3339 = re.compile(
    r"\d{4}-\d\d-\d\d[Tt]\d\d:\d\d:\d\d(?:\.\d{1,6})?(?:[Zz]|[+-]\d\d:\d\d)", re.ASCII
)


def _read_time(value: object) -> datetime:
    if isinstance(value, datetime) and value.tzinfo is not None:
        return value
    if isinstance(value, str) and _RFC3339.fullmatch(value):
        try:
            return datetime.fromisoformat(value.upper())
        except ValueError:
            raise ValueError(f"there is no {value}") from None
    raise ValueError("not a time as RFC 3339 writes it, with its offset")


def _read_tempo(value: object) -> Tempo:
    if isinstance(value, Tempo):
        return value
    if not isinstance(value, str):
        raise ValueError("a tempo is a text such as 4-1-X-1")
    try:
        return parse_tempo(value)
    except NotationError as fault:
        raise ValueError(str(fault)) from None


def _read_shape(value: object) -> RepShape:
    if isinstance(value, RepShape):
        return value
    if not isinstance(value, str):
        raise ValueError("the shape of a rep is a text such as lowering only")
    try:
        return parse_shape(value)
    except NotationError as fault:
        raise ValueError(str(fault)) from None


def _read_load(value: object) -> Load:
    if isinstance(value, Load):
        return value
    if not isinstance(value, str):
        raise ValueError("a load is a text such as 80 kg")
    try:
        return parse_load(value)
    except OutOfRange as fault:
        raise ValueError(str(fault)) from None


def _read_day(value: object) -> date:
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    if not isinstance(value, str):
        raise ValueError("a date is a text such as 2026-11-30")
    try:
        return parse_day(value)
    except OutOfRange as fault:
        raise ValueError(str(fault)) from None


Time: TypeAlias = Annotated[
    datetime,
    PlainValidator(_read_time),
    PlainSerializer(lambda time: time.isoformat(), return_type=str),
    WithJsonSchema({"type": "string", "format": "date-time"}),
]
TempoText: TypeAlias = Annotated[
    Tempo,
    PlainValidator(_read_tempo),
    PlainSerializer(str, return_type=str),
    WithJsonSchema({"type": "string", "examples": ["4-1-X-1", "2.5-0-1-0"]}),
]
ShapeText: TypeAlias = Annotated[
    RepShape,
    PlainValidator(_read_shape),
    PlainSerializer(str, return_type=str),
    WithJsonSchema({"type": "string", "examples": ["lowering only", "stop 2 s at 1/2"]}),
]
LoadText: TypeAlias = Annotated[
    Load,
    PlainValidator(_read_load),
    PlainSerializer(str, return_type=str),
    WithJsonSchema({"type": "string", "examples": ["80 kg", "175 lb", "72%", "bw+10 kg"]}),
]
Day: TypeAlias = Annotated[
    date,
    PlainValidator(_read_day),
    PlainSerializer(lambda day: day.isoformat(), return_type=str),
    WithJsonSchema({"type": "string", "format": "date"}),
]
