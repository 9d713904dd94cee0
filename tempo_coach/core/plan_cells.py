"""The cells of a coach's table, each read as what its column holds."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import TypeAlias

from tempo_coach.core.clauses import LONGEST_REST_MS
from tempo_coach.core.legible import quoted
from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.core.prescription import MOST_REPS, MOST_SETS, rest_text
from tempo_coach.core.tempo import Tempo, parse_tempo
from tempo_coach.errors import OutOfRange


@dataclass(frozen=True, slots=True)
class SheetDate:
    """A cell of which a spreadsheet made a date."""

    day: date
    order: str
    """How it shows the date: ``dmy``, ``mdy`` or ``ymd``."""

    def __str__(self) -> str:
        return self.day.isoformat()


@dataclass(frozen=True, slots=True)
class SheetTime:
    """A cell of which a spreadsheet made a time of day or a duration."""

    hours: int
    minutes: int
    seconds: int

    def __str__(self) -> str:
        return f"{self.hours}:{self.minutes:02d}:{self.seconds:02d}"


Cell: TypeAlias = str | int | float | SheetDate | SheetTime | None
Row: TypeAlias = Sequence[Cell]

LONGEST_SECONDS_AS_MINUTES = 10
"""A bare rest up to this is minutes: nobody prescribes rests of so few seconds."""
_LONGEST_PLAUSIBLE_REST_MIN = 15

_DATE = re.compile(r"(?P<a>\d{1,2})[./-](?P<b>\d{1,2})[./-]\d\d(?P<c>\d\d)(?: 00:00:00)?", re.ASCII)
_ISO_DATE = re.compile(r"\d\d(?P<a>\d\d)-(?P<b>\d\d)-(?P<c>\d\d)(?:[ T]00:00:00)?", re.ASCII)
_SPACED = re.compile(r"[0-9XVAxva]+(?:[ .,:;|]+[0-9XVAxva]+){2,3}")
_REST = re.compile(
    r"(?P<count>\d+(?:\.\d+)?)\s*(?P<unit>s|secs?|seconds?|sek|seg|\"|″|m|mins?|minutes?|minutos?|'|′)?",
    re.ASCII | re.IGNORECASE,
)
_CLOCK = re.compile(r"(?:0?0:)?(?P<minutes>\d{1,2}):(?P<seconds>[0-5]\d)(?:\s*min)?", re.ASCII)
_MAX_REPS = frozenset({"max", "amrap", "x"})
_NO_VALUE = frozenset({"", "-", "–", "—", "n/a"})
_LOAD_WORDS = (
    (re.compile(r"body\s*(?:weight|mass)", re.IGNORECASE), "bw"),
    (re.compile(r"(?<![a-z])(?:kgs|kilos?)\b", re.IGNORECASE), "kg"),
    (re.compile(r"(?<![a-z])(?:lbs|pounds?)\b", re.IGNORECASE), "lb"),
    (re.compile(r"%\s*(?:of\s*)?(?:1?\s*rm|max)\b", re.IGNORECASE), "%"),
)


def text_of(cell: Cell) -> str:
    """Return a cell as text with single spaces; a number without needless decimals."""
    if isinstance(cell, float):
        return f"{cell:.3f}".rstrip("0").rstrip(".")
    return "" if cell is None else " ".join(str(cell).split())


def plain_words(text: str) -> list[str]:
    """Return the words of a text without case and accents; ``%`` is a word too."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    plain = "".join(one for one in plain if not unicodedata.combining(one)).replace("×", "x")
    return re.findall(r"[^\W_]+|%", plain)


def is_blank(cell: Cell) -> bool:
    """Tell whether a cell holds nothing, or only a dash."""
    return text_of(cell).lower() in _NO_VALUE


def tempo_of(cell: Cell) -> tuple[Tempo, str]:
    """Read a tempo, also out of a date that a spreadsheet made of ``4-1-1``.

    Returns
    -------
    tuple of Tempo and str
        The tempo, and what was made of the cell where that is not plain, else empty.

    Raises
    ------
    NotationError
        It is no tempo.
    """
    text = text_of(cell)
    if isinstance(cell, SheetDate):
        parts = {"d": cell.day.day, "m": cell.day.month, "y": cell.day.year % 100}
        return _tempo_of_date(text, [parts[letter] for letter in cell.order])
    if found := _DATE.fullmatch(text) or _ISO_DATE.fullmatch(text):
        return _tempo_of_date(text, [int(piece) for piece in found.groups()])
    if _SPACED.fullmatch(text):
        text = re.sub(r"[ .,:;|]+", "-", text)
    return parse_tempo(text), ""


def _tempo_of_date(shown: str, pieces: list[int]) -> tuple[Tempo, str]:
    tempo = parse_tempo("-".join(map(str, pieces)))
    return tempo, f"the date {shown} was read as the tempo {tempo}"


def sets_of(cell: Cell) -> int:
    """Read a number of sets.

    Raises
    ------
    OutOfRange
        It is none, or not possible.
    """
    return _count(cell, "sets", MOST_SETS)


def reps_of(cell: Cell) -> int | None:
    """Read a number of reps; None for as many as can be done.

    Raises
    ------
    OutOfRange
        It is none, or not possible.
    """
    return None if text_of(cell).lower() in _MAX_REPS else _count(cell, "reps", MOST_REPS)


def _count(cell: Cell, what: str, most: int) -> int:
    text = text_of(cell)
    if re.fullmatch(r"[0-9]{1,4}", text) and 1 <= int(text) <= most:
        return int(text)
    made = "the date " if isinstance(cell, SheetDate) else ""
    raise OutOfRange(
        f"{made}{quoted(text)} is no number of {what}" if text else f"the {what} are missing",
        hint=f"one whole number from 1 to {most}",
    )


def rest_of(cell: Cell, unit: str | None) -> tuple[int, str]:
    """Read a rest in milliseconds, also out of a time of day that a spreadsheet made of ``3:00``.

    Parameters
    ----------
    cell
        What stands there.
    unit
        ``s`` or ``min`` where the heading says so.

    Returns
    -------
    tuple of int and str
        The rest, and what was made of the cell where that is not plain, else empty.

    Raises
    ------
    OutOfRange
        It is no rest, or too long.
    """
    text = text_of(cell)
    if isinstance(cell, SheetTime):
        rest_ms = _rest_of_time(cell)
        said = f"the time {text} was read as a rest of {rest_text(rest_ms)}"
        return _checked_rest(text, rest_ms), said
    if found := _CLOCK.fullmatch(text):
        return _checked_rest(text, (int(found["minutes"]) * 60 + int(found["seconds"])) * 1000), ""
    found = _REST.fullmatch(text.replace(",", "."))
    if found is None or len(found["count"]) > 8:
        raise OutOfRange(f"{quoted(text)} is no rest", hint="such as 90 s or 3:00")
    count, said = Decimal(found["count"]), ""
    written = (found["unit"] or unit or "")[:1].lower()
    if not written and count <= LONGEST_SECONDS_AS_MINUTES:
        written, said = "m", f"the rest {text} was read as minutes"
    rest_ms = int(count * (60 if written in {"m", "'", "′"} else 1)) * 1000
    return _checked_rest(text, rest_ms), said


def _rest_of_time(cell: SheetTime) -> int:
    """Return what was meant: ``3:00`` and ``0:45`` are typed as minutes and seconds."""
    if cell.hours:
        return (cell.hours * 60 + cell.minutes) * 1000
    if cell.seconds == 0 and cell.minutes > _LONGEST_PLAUSIBLE_REST_MIN:
        return cell.minutes * 1000
    return (cell.minutes * 60 + cell.seconds) * 1000


def _checked_rest(text: str, rest_ms: int) -> int:
    if not 0 <= rest_ms <= LONGEST_REST_MS:
        raise OutOfRange(
            f"a rest of {quoted(text)} is not possible",
            hint=f"at most {LONGEST_REST_MS // 60_000} min",
        )
    return rest_ms


def load_of(cell: Cell, unit: LoadUnit) -> Load:
    """Read a load; a bare number is in the unit, and a bare share may be written 0.72.

    Raises
    ------
    OutOfRange
        It is no load, or not possible.
    """
    text = text_of(cell).replace(",", ".").lstrip("@ ")
    for words, short in _LOAD_WORDS:
        text = words.sub(short, text)
    if re.fullmatch(r"[0-9]{1,4}(?:\.[0-9]+)?", text):
        amount = Decimal(text)
        if unit is LoadUnit.PERCENT and amount <= 2:
            amount *= 100
        text = f"{round(amount, 3).normalize():f} {unit}"
    return parse_load(text)


def weeks_of(cell: Cell) -> range | None:
    """Read a week such as ``3``, ``Week 3`` or ``1-4``; None where it is none."""
    found = re.fullmatch(
        r"(?:[^\W\d]+\.?\s*)?(?P<first>\d{1,3})(?:\s*[-–]\s*(?P<last>\d{1,3}))?",
        text_of(cell) if not isinstance(cell, SheetDate | SheetTime) else "",
        re.ASCII,
    )
    if found is None:
        return None
    first, last = int(found["first"]), int(found["last"] or found["first"])
    return range(first, last + 1) if 1 <= first <= last <= 200 else None
