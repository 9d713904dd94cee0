"""What may stand behind the tempo on a line: the rep's shape, rest, lead and method."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from tempo_coach.core.legible import quoted
from tempo_coach.core.line_words import next_word, refuse, skip_space
from tempo_coach.core.load import LOAD_FORMS, match_load
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.nearest import nearest_of
from tempo_coach.core.rep_shape import LowerLoad, RepShape, Sides, Stops
from tempo_coach.core.tempo import Phase
from tempo_coach.errors import OutOfRange

LONGEST_REST_MS = 1_200_000
_FORMS = (
    "'rest 3:00', 'lead raise', 'lowering only', 'raise only', 'stop 2 s at 1/2', "
    "'sides alternating', 'two up one down', 'lower @ 105%', 'first lower @ 120%' and "
    "'method slow-lowering' may stand there"
)

_REST = re.compile(
    r"(?:(?P<minutes>[0-9]+):(?P<seconds>[0-5][0-9])|(?P<count>[0-9]+)(?:\s*(?:s|(?P<by_minute>min)))?)(?!\S)",
    re.IGNORECASE,
)
_REST_FORMS = "90, 90 s, 3:00 or 3 min"
_STOP = re.compile(
    r"(?P<whole>[0-9]+)(?:\.(?P<decimals>[0-9]+))?\s*s?\s+at(?P<parts>(?:\s+[0-9]+/[0-9]+)+)(?!\S)",
    re.IGNORECASE,
)
_STOP_FORMS = "write stop 2 s at 1/2, or stop 1 s at 1/3 2/3 for parts of the way down"
_OPENS = re.compile(
    r"(?:rest|lead|method|stop|lowering|raise|sides|two|lower|first)(?!\S)", re.IGNORECASE
)
_AT = re.compile(r"@\s*")


@dataclass(slots=True)
class Clauses:
    """What stands behind the tempo; gathered clause by clause."""

    rest_ms: int | None = None
    lead: Phase | None = None
    method: MethodName | None = None
    only: Phase | None = None
    stops: Stops | None = None
    sides: Sides | None = None
    lower_load: LowerLoad | None = None

    def shape(self) -> RepShape:
        """Return the rep's shape.

        Raises
        ------
        OutOfRange
            Its parts can't go together.
        """
        return RepShape(self.only, self.stops, self.sides, self.lower_load)


def parse_clauses(line: str, at: int) -> Clauses:
    """Read what stands from an index of the line to its end, in any order.

    Raises
    ------
    NotationError
        Something is not understood, stands there twice, or can't go together.
    """
    found = Clauses()
    begin = at
    while (word := next_word(line, at)) is not None:
        opening, behind = _opening(line, word)
        name, read = _OPENINGS[opening]
        if getattr(found, name) is not None:
            refuse(line, word.start(), f"{_KINDS[name]} stands there twice", hint="give it once")
        value, at = read(line, skip_space(line, behind))
        setattr(found, name, value)
    try:
        found.shape()
    except OutOfRange as fault:
        refuse(line, skip_space(line, begin), fault.message, hint=fault.hint)
    return found


def opens_clause(line: str, at: int) -> bool:
    """Tell whether a clause begins at an index of the line."""
    return _OPENS.match(line, at) is not None


def parse_shape(text: str) -> RepShape:
    """Read the shape alone, as `RepShape` writes it; empty is the plain one.

    Raises
    ------
    NotationError
        The text says anything else.
    """
    found = parse_clauses(text, 0)
    if (found.rest_ms, found.lead, found.method) != (None, None, None):
        refuse(text, 0, f"{quoted(text)} says more than the shape of a rep", hint="leave it out")
    return found.shape()


def _opening(line: str, word: re.Match[str]) -> tuple[str, int]:
    """Return what opens the clause that begins at a word, and the index behind it."""
    for opening, pattern in _PATTERNS.items():
        if found := pattern.match(line, word.start()):
            return opening, found.end()
    refuse(line, word.start(), f"{quoted(word[0])} is not understood behind the tempo", hint=_FORMS)


def _rest(line: str, begin: int) -> tuple[int, int]:
    found = _REST.match(line, begin)
    if found is None:
        word = next_word(line, begin)
        said = f"{quoted(word[0])} is no rest" if word else "the rest is missing"
        refuse(line, begin, said, hint=f"write {_REST_FORMS}")
    if found["minutes"] is not None:
        rest_ms = (int(found["minutes"][-9:]) * 60 + int(found["seconds"])) * 1000
    else:
        rest_ms = int(found["count"][-9:]) * 1000
        rest_ms *= 60 if found["by_minute"] else 1
    digits = found["minutes"] or found["count"]
    if len(digits.lstrip("0")) > 6 or rest_ms > LONGEST_REST_MS:
        refuse(line, begin, f"a rest of {quoted(found[0])} is too long", hint="at most 20 min")
    return rest_ms, found.end()


def _lead(line: str, begin: int) -> tuple[Phase, int]:
    word = next_word(line, begin)
    if word is None or word[0].lower() not in (Phase.LOWER, Phase.RAISE):
        said = f"{quoted(word[0])} is no lead" if word else "the lead is missing"
        refuse(line, begin, said, hint="write lead lower or lead raise")
    return Phase(word[0].lower()), word.end()


def _method(line: str, begin: int) -> tuple[MethodName, int]:
    word = next_word(line, begin)
    if word is None:
        refuse(line, begin, "the method is missing", hint=f"such as {MethodName.SLOW_LOWERING}")
    if word[0].lower() not in set(MethodName):
        refuse(
            line, begin, f"{quoted(word[0])} is no method", hint=nearest_of(word[0], [*MethodName])
        )
    return MethodName(word[0].lower()), word.end()


def _stops(line: str, begin: int) -> tuple[Stops, int]:
    found = _STOP.match(line, begin)
    if found is None:
        refuse(line, begin, "the stop is not understood", hint=_STOP_FORMS)
    decimals = found["decimals"] or ""
    parts = found["parts"].split()
    if len(found["whole"]) > 6 or len(decimals) > 3 or any(len(part) > 7 for part in parts):
        refuse(line, begin, "the stop has too many digits", hint=_STOP_FORMS)
    try:
        each_ms = int(found["whole"]) * 1000 + int(decimals.ljust(3, "0"))
        return Stops(each_ms, tuple(map(Fraction, parts))), found.end()
    except ZeroDivisionError:
        refuse(line, begin, "a stop at a part of nothing is not possible", hint=_STOP_FORMS)
    except OutOfRange as fault:
        refuse(line, begin, fault.message, hint=fault.hint)


def _lower_load(line: str, begin: int, *, first_rep_only: bool) -> tuple[LowerLoad, int]:
    mark = _AT.match(line, begin)
    if mark is None:
        refuse(line, begin, "what is lowered stands behind '@'", hint="such as lower @ 105%")
    try:
        found = match_load(line, mark.end())
    except OutOfRange as fault:
        refuse(line, mark.end(), fault.message, hint=fault.hint)
    if found is None:
        word = next_word(line, mark.end())
        said = f"{quoted(word[0])} is no load" if word else "the load is missing behind '@'"
        refuse(line, mark.end(), said, hint=LOAD_FORMS)
    return LowerLoad(found[0], first_rep_only), found[1]


def _lower_every(line: str, begin: int) -> tuple[LowerLoad, int]:
    return _lower_load(line, begin, first_rep_only=False)


def _lower_first(line: str, begin: int) -> tuple[LowerLoad, int]:
    return _lower_load(line, begin, first_rep_only=True)


def _just(value: object) -> Callable[[str, int], tuple[object, int]]:
    return lambda _, at: (value, at)


_OPENINGS: dict[str, tuple[str, Callable[[str, int], tuple[object, int]]]] = {
    "rest": ("rest_ms", _rest),
    "lead": ("lead", _lead),
    "method": ("method", _method),
    "lowering only": ("only", _just(Phase.LOWER)),
    "raise only": ("only", _just(Phase.RAISE)),
    "stop": ("stops", _stops),
    Sides.ALTERNATING.value: ("sides", _just(Sides.ALTERNATING)),
    Sides.ONE_DOWN.value: ("sides", _just(Sides.ONE_DOWN)),
    "lower": ("lower_load", _lower_every),
    "first lower": ("lower_load", _lower_first),
}
"""How a clause begins, what it gives, and what reads the rest of it."""
_PATTERNS = {
    opening: re.compile(rf"{opening}(?![^\s@])".replace(" ", r"\s+"), re.IGNORECASE)
    for opening in _OPENINGS
}
_KINDS = {
    "rest_ms": "'rest'",
    "lead": "'lead'",
    "method": "'method'",
    "only": "whose work the rep is",
    "stops": "'stop'",
    "sides": "how the sides take turns",
    "lower_load": "what is lowered",
}
