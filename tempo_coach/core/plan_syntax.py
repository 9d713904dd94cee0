"""Where a plan's text is no TOML, in words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

from tempo_coach.core.legible import quoted
from tempo_coach.core.plan_faults import PlanFault
from tempo_coach.core.written_dates import is_like_day, parse_day
from tempo_coach.errors import OutOfRange

_SYNTAX = re.compile(
    r"(?P<said>.*) \(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of document)\)"
)
_HINT = (
    'a line reads key = value; a text stands between straight quotes "…", '
    "a number or a date without"
)
_HINTS: Mapping[str, str] = MappingProxyType(
    {
        "Cannot overwrite a value": "each key stands once in its table, and every table begins "
        "with two brackets, as [[lifters]] does",
        "Expected '=' after a key": "a key of several words stands between quotes, as "
        'groups."heel drop" does',
    }
)
_THERE_ALREADY = ("Cannot declare", "Cannot mutate")
_TABLE_HINT = (
    "put its keys beneath the first; tables of which there are several begin with two brackets, "
    "as [[calendar]] does"
)
_ENDLESS = re.compile("[0-9_]{4300,}")
_VALUE_HINT = (
    "a number is written as 240 or 2.5, a date as 2026-11-30, a text between straight quotes"
)
_BARE_VALUE = re.compile(
    r"[=\[,]\s*(?P<value>[-+.]?[0-9](?:[^,\]}#=]|,(?=[0-9]))*)(?=[,\]}#]|$)", re.ASCII
)
"""What begins as a number or a date does, without quotes."""


def syntax_fault(message: str, text: str) -> PlanFault:
    """Return what is wrong in a text, from what `tomllib` says of it.

    Parameters
    ----------
    message
        The words of its error.
    text
        The whole text.
    """
    found = _SYNTAX.fullmatch(message)
    if found is None:
        # What Python says of a number of thousands of digits.
        number = _ENDLESS.search(text)
        line = None if number is None else text.count("\n", 0, number.start()) + 1
        return PlanFault(line, "a number is too long", _VALUE_HINT)
    said = found["said"]
    hint = next((hint for begin, hint in _HINTS.items() if said.startswith(begin)), _HINT)
    said = said[0].lower() + said[1:]
    if found["line"] is None:
        return PlanFault(text.count("\n") + 1, f"{said} at the end of the text", hint)
    line, column = int(found["line"]), int(found["column"])
    written = text.split("\n")[line - 1]
    value = _bare_value(written, at=column - 1)
    if value is not None:
        return _value_fault(line, value)
    if message.startswith(_THERE_ALREADY):
        return PlanFault(line, f"{quoted(written.strip())} is there already", _TABLE_HINT)
    return PlanFault(line, f"column {column}: {said}", hint)


def _bare_value(line: str, *, at: int) -> str | None:
    """Return the number or date that a place lies in; None where there is none."""
    for found in _BARE_VALUE.finditer(line):
        value = found["value"].strip()
        if found.start("value") <= at < found.start("value") + len(value):
            return value
    return None


def _value_fault(line: int, value: str) -> PlanFault:
    if is_like_day(value):
        try:
            parse_day(value)
        except OutOfRange as fault:
            return PlanFault(line, fault.message, fault.hint)
    return PlanFault(line, f"{quoted(value)} is no number and no date", _VALUE_HINT)
