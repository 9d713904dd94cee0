"""What is wrong in a plan, in words, with its line and the nearest good value."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from tempo_coach.core.fact_values import LONGEST_NOTE
from tempo_coach.core.legible import quoted
from tempo_coach.core.nearest import nearest_of
from tempo_coach.core.plan import (
    MOST_WEEKS,
    WEEKDAYS,
    Day,
    Lifter,
    Max,
    Plan,
    Work,
)
from tempo_coach.core.plan_places import Path
from tempo_coach.core.plan_season import MOST_KG_S, MOST_S, CalendarSpan, DosingRules, SpanKind
from tempo_coach.core.plan_values import LARGEST_STEP_KG
from tempo_coach.core.prescription import EXAMPLE, LONGEST_NAME
from tempo_coach.core.taper import TaperShape
from tempo_coach.core.weeks import next_monday
from tempo_coach.core.written_dates import DAY_RANGE, is_like_day, parse_day
from tempo_coach.errors import OutOfRange


@dataclass(frozen=True, slots=True)
class PlanFault:
    """One thing that is wrong in a plan."""

    line: int | None
    """Of the text, from 1; None where the text as a whole is meant."""
    message: str
    hint: str

    def __str__(self) -> str:
        where = "" if self.line is None else f"line {self.line}: "
        hint = f"; {self.hint}" if self.hint else ""
        return f"{where}{self.message}{hint}"


@dataclass(frozen=True, slots=True)
class Finding:
    """A fault at its path in the data, before its line is known."""

    path: Path
    message: str
    hint: str


_TABLES: Mapping[str, tuple[str, type[BaseModel]]] = MappingProxyType(
    {
        "": ("the top of the plan", Plan),
        "lifters": ("[[lifters]]", Lifter),
        "lifters.maxes": ("[[lifters.maxes]]", Max),
        "days": ("[[days]]", Day),
        "days.work": ("[[days.work]]", Work),
        "calendar": ("[[calendar]]", CalendarSpan),
        "dosing": ("[dosing]", DosingRules),
    }
)
"""The tables by the keys they stand under, and what each is called."""

_OPEN_TABLES = ("from_week", "groups", "group_base_s")
"""Keys whose own keys the coach chooses."""

_KINDS: tuple[str, ...] = get_args(SpanKind)
_CHOICES: Mapping[str, Collection[str]] = MappingProxyType(
    {"day": WEEKDAYS, "kind": _KINDS, "taper": tuple(TaperShape)}
)
"""Keys whose values are a few words, one of which may be the nearest."""

_NAME_HINT = f"a text of 1 to {LONGEST_NAME} characters between quotes"
_DAY_HINT = f"a date without quotes or a time, {DAY_RANGE}"
_HINTS: Mapping[str, str] = MappingProxyType(
    {
        "name": f'{_NAME_HINT}, such as name = "Winter block"',
        "start": f"{_DAY_HINT}, such as start = 2026-11-30",
        "weeks": f"a whole number from 1 to {MOST_WEEKS}, such as weeks = 6",
        "step": f'at most {LARGEST_STEP_KG} kg, such as step = "2.5 kg"',
        "unit": 'write unit = "kg" or unit = "lb"',
        "lifters": 'give at least one name, such as lifters = ["Mirela Oude"]',
        "body_mass": 'such as body_mass = "68 kg"',
        "overload": "write overload = true or overload = false, without quotes",
        "exercise": f'{_NAME_HINT}, such as exercise = "front squat"',
        "load": 'such as load = "90 kg"',
        "on": f"{_DAY_HINT}, such as on = 2026-11-12",
        "lower_s": "seconds from 0 to 60, such as lower_s = 2",
        "day": 'such as day = "Monday"',
        "line": f'such as line = "{EXAMPLE}"',
        "note": f"a text of at most {LONGEST_NOTE} characters between quotes",
        "kind": f"{', '.join(_KINDS)}, between quotes",
        "first": f"{_DAY_HINT}, such as first = 2027-01-11",
        "last": f"{_DAY_HINT}, such as last = 2027-03-14; without it, one day",
        "lowering_percent": "a number from 0 to 100, such as lowering_percent = 25",
        "base_s": f"seconds above 0 and at most {MOST_S}, such as base_s = 240",
        "base_kg_s": f"kg·s above 0 and at most {MOST_KG_S}, such as base_kg_s = 18000",
        "calendar": "each span begins with [[calendar]], in two brackets",
        "dosing": "the rules stand beneath [dosing], in one bracket",
        "taper": f"{', '.join(TaperShape)}, between quotes",
        "groups": 'a text between quotes, such as groups."heel drop" = "calves"',
        "group_base_s": f"seconds above 0 and at most {MOST_S}, "
        'such as group_base_s."knee flexors" = 90',
        "from_week": f'such as from_week.3 = "{EXAMPLE}" or from_week.5 = "off"',
    }
)


def findings(fault: ValidationError, *, today: date) -> Iterator[Finding]:
    """Yield what a refused model says, in the words of the plan."""
    for error in fault.errors():
        path = tuple(step for step in error["loc"] if step != "[key]")
        match error["type"]:
            case "missing":
                yield _missing(path, today)
            case "extra_forbidden":
                yield _unknown_key(path)
            case "refused":
                yield _refused(path, error)
            case "value_error":
                said = error["msg"].removeprefix("Value error, ")
                yield Finding(path, f"{_key(path)}: {said}", _HINTS[_key(path)])
            case "literal_error" | "enum" if isinstance(error["input"], str) and (
                words := _CHOICES.get(_key(path))
            ):
                yield _impossible(path, error["input"], nearest_of(error["input"], words))
            case "date_type" if isinstance(error["input"], str) and is_like_day(error["input"]):
                yield _quoted_day(path, error["input"])
            case "too_short" if error["input"]:
                pass  # the list is not empty: what was refused in it is named by itself
            case _:
                yield _impossible(path, error["input"], _hint(path))


def _missing(path: Path, today: date) -> Finding:
    key, header = str(path[-1]), _header(path)
    if header in _TABLES:
        return Finding(path, f"[[{header}]] is missing", f"begin it with [[{header}]]")
    hint = _HINTS[key]
    if key == "start":
        hint = f"for next Monday write start = {next_monday(today).isoformat()}"
    return Finding(path, f"{key} is missing", hint)


def _unknown_key(path: Path) -> Finding:
    key = str(path[-1])
    table, model = _TABLES[_header(path[:-1])]
    own = list(model.model_fields)
    owners = [other for other, has in _TABLES.values() if key in has.model_fields]
    elsewhere = f"; it is one of {' and of '.join(owners)}" if owners else ""
    return Finding(
        path, f"{quoted(key)} is no key of {table}", f"{nearest_of(key, own)}{elsewhere}"
    )


def _refused(path: Path, error: ErrorDetails) -> Finding:
    parts = error["ctx"]
    message, column = parts["message"], parts["column"]
    if column is not None:
        message = f"in {quoted(error['input'])}, column {column}: {message}"
    return Finding(path, message, parts["hint"])


def _quoted_day(path: Path, text: str) -> Finding:
    try:
        parse_day(text)
    except OutOfRange as fault:
        hint = f"{fault.hint}, and a date stands without quotes"
        return Finding(path, f"{_key(path)}: {fault.message}", hint)
    return _impossible(path, text, _hint(path))


def _impossible(path: Path, value: object, hint: str) -> Finding:
    return Finding(path, f"{_written_key(path)} = {_shown(value)} is not possible", hint)


def _written_key(path: Path) -> str:
    """Return a key as it stands in the plan, with the table where its own keys are the coach's."""
    key, last = _key(path), str(path[-1])
    if key not in _OPEN_TABLES or last == key:
        return key
    return f"{key}.{last if last.isdecimal() else _shown(last)}"


def _shown(value: object) -> str:
    """Return a value much as TOML writes it, so that a text is told from a number."""
    match value:
        case bool():
            return str(value).lower()
        case str():
            return f'"{quoted(value)[1:-1]}"'
        case list():
            return "[…]" if value else "[]"
        case dict():
            return "{…}" if value else "{}"
        case _:
            return quoted(str(value))[1:-1]


def _hint(path: Path) -> str:
    if path[0] == _key(path) == "lifters" or _key(path) in ("maxes", "days", "work"):
        header = _header(path)
        return f"each of them begins with [[{header}]], in two brackets"
    if path[0] == "dosing" and _key(path) not in _HINTS:
        return _number_hint(_key(path))
    return _HINTS[_key(path)]


def _number_hint(key: str) -> str:
    field = DosingRules.model_fields[key]
    least, most = (
        next(
            getattr(bound, name)
            for bound in field.metadata
            for name in names
            if hasattr(bound, name)
        )
        for names in (("ge", "gt"), ("le",))
    )
    kind = "a whole number" if isinstance(field.default, int) else "a number"
    is_open = any(hasattr(bound, "gt") for bound in field.metadata)
    span = f"above {least:g} and at most {most:g}" if is_open else f"from {least:g} to {most:g}"
    return f"{kind} {span}, such as {key} = {field.default:g}"


def _key(path: Path) -> str:
    keys = [step for step in path if isinstance(step, str)]
    return next((key for key in keys if key in _OPEN_TABLES), keys[-1])


def _header(path: Path) -> str:
    return ".".join(step for step in path if isinstance(step, str))
