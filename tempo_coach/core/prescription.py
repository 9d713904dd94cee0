"""One line of work as a coach writes it on a board."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from typing import NoReturn

from tempo_coach.core.clauses import opens_clause, parse_clauses
from tempo_coach.core.exercises import usual_lead
from tempo_coach.core.legible import quoted
from tempo_coach.core.line_words import next_word, refuse, skip_space
from tempo_coach.core.load import LOAD_FORMS, Load, match_load
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.rep_shape import PLAIN, RepShape
from tempo_coach.core.tempo import (
    LONGEST_REP_MS,
    Phase,
    Speed,
    Tempo,
    is_compact,
    parse_tempo,
    seconds_text,
)
from tempo_coach.errors import NotationError, OutOfRange

MOST_SETS = 30
MOST_REPS = 100
LONGEST_NAME = 80
EXAMPLE = "front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00"
_AS_IN = f"as in {EXAMPLE}"


@dataclass(frozen=True, slots=True)
class Prescription:
    """What is to be done: exercise, sets, reps, load, tempo, rest and lead."""

    exercise: str
    """In Unicode form NFC, single spaces."""
    sets: int
    reps: int | None
    """None for a set that runs until it is stopped."""
    load: Load | None
    tempo: Tempo
    rest_ms: int | None
    """None where the line leaves the rest to the lifter."""
    lead: Phase
    """`Phase.LOWER` or `Phase.RAISE`: what a rep begins with."""
    shape: RepShape = PLAIN
    method: MethodName | None = None
    """None where the line does not say."""

    def __post_init__(self) -> None:
        self._check_lengths()
        self._check_lower_load()

    def _check_lengths(self) -> None:
        shape, slots = self.shape, self.tempo.slots()
        needed = {
            Phase.LOWER: shape.stops or shape.lower_load or shape.only is Phase.LOWER,
            Phase.RAISE: shape.only is Phase.RAISE,
        }
        for phase, is_needed in needed.items():
            if is_needed and not slots[phase]:
                raise OutOfRange(
                    f"'{shape}' with a {phase} of 0 s is not possible",
                    hint=f"give the {phase} a length, or leave '{shape}' out",
                )
        if shape.stops is not None:
            fixed_ms = sum(slot for slot in slots.values() if not isinstance(slot, Speed))
            whole_ms = fixed_ms + shape.stops.each_ms * len(shape.stops.at)
            if whole_ms > LONGEST_REP_MS:
                raise OutOfRange(
                    f"a rep of {seconds_text(whole_ms)} s with its stops is too long",
                    hint="a rep is at most 120 s",
                )

    def _check_lower_load(self) -> None:
        lowered = self.shape.lower_load
        if lowered is None:
            return
        if self.load is None:
            raise OutOfRange(
                f"'{lowered}' without a load to raise is not possible", hint="give both"
            )
        has_one_unit = (lowered.load.unit, lowered.load.on_body) == (
            self.load.unit,
            self.load.on_body,
        )
        if has_one_unit and lowered.load.amount <= self.load.amount:
            raise OutOfRange(
                f"'{lowered}' is no more than the load {self.load}",
                hint="this says that more is lowered than raised; else leave it out",
            )

    def __str__(self) -> str:
        parts = [self.exercise, f"{self.sets}x{'max' if self.reps is None else self.reps}"]
        if self.load is not None:
            parts.append(f"@ {self.load}")
        parts.append(str(self.tempo))
        if self.shape:
            parts.append(str(self.shape))
        if self.rest_ms is not None:
            parts.append(f"rest {rest_text(self.rest_ms)}")
        if self.lead is not _usual_lead(self.exercise, self.shape):
            parts.append(f"lead {self.lead}")
        if self.method is not None:
            parts.append(f"method {self.method}")
        return " ".join(parts)


def _usual_lead(exercise: str, shape: RepShape) -> Phase:
    # Whoever only raises begins at the pins.
    return Phase.RAISE if shape.only is Phase.RAISE else usual_lead(exercise)


def rest_text(rest_ms: int) -> str:
    """Return a rest as ``45 s`` below a minute, else as ``3:00``."""
    minutes, seconds = divmod(rest_ms // 1000, 60)
    return f"{minutes}:{seconds:02d}" if minutes else f"{seconds} s"


_SCHEME = re.compile(r"(?<!\S)([0-9]+)\s*[xX×]\s*(\S*)")
_BEHIND_SCHEME = re.compile(r"@|(?<!\S)(?:[0-9XVA]{4}|\S+[-/]\S+[-/]\S+)(?!\S)", re.IGNORECASE)
_WORD = re.compile(r"\S+")
_BARE_LOAD = re.compile(r"(?:[0-9.]+\s*(?:kg|lb|%)|bw)(?!\w)", re.IGNORECASE)
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


def parse_prescription(line: str) -> Prescription:
    """Read ``front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00 lead lower``.

    The load may be left out, and all that stands behind the tempo.

    Raises
    ------
    NotationError
        The line is no prescription; the column tells where.
    """
    scheme = _find_scheme(line)
    exercise = _exercise(line, scheme.start())
    sets, reps = _sets_and_reps(line, scheme)
    load, at = _load(line, scheme.end())
    tempo, at = _tempo(line, at)
    clauses = parse_clauses(line, at)
    shape = clauses.shape()
    try:
        return Prescription(
            exercise=exercise,
            sets=sets,
            reps=reps,
            load=load,
            tempo=tempo,
            rest_ms=clauses.rest_ms,
            lead=clauses.lead or _usual_lead(exercise, shape),
            shape=shape,
            method=clauses.method,
        )
    except OutOfRange as fault:
        refuse(line, skip_space(line, at), fault.message, hint=fault.hint)


def _find_scheme(line: str) -> re.Match[str]:
    scheme = _SCHEME.search(line)
    if scheme is not None and not _is_compact_tempo(scheme):
        return scheme
    if not line.strip():
        refuse(line, 0, "the line is empty", hint=f"such as {EXAMPLE}")
    mark = _BEHIND_SCHEME.search(line)
    at = mark.start() if mark else len(line.rstrip())
    refuse(line, at, "sets and reps are missing", hint="such as 4x5 or 4xmax, behind the exercise")


def _is_compact_tempo(scheme: re.Match[str]) -> bool:
    counts = scheme[2].isdigit() and int(scheme[1][-9:]) <= MOST_SETS
    return is_compact(scheme[0]) and not counts


def _exercise(line: str, end: int) -> str:
    for word in _WORD.finditer(line, 0, end):
        if "@" in word[0]:
            refuse(line, word.start(), "the load comes behind sets and reps", hint=_AS_IN)
        if _is_tempo(word[0]):
            refuse(line, word.start(), "the tempo comes behind sets and reps", hint=_AS_IN)
    name = clean_name(line[:end])
    if not name:
        refuse(line, 0, "the exercise is missing", hint=_AS_IN)
    try:
        return check_name(name, what="exercise")
    except OutOfRange as fault:
        refuse(line, len(line) - len(line.lstrip()), fault.message, hint=fault.hint)


def exercise_on(line: str) -> str:
    """Return the exercise that a line names, even if it goes on wrongly or not at all."""
    scheme = _SCHEME.search(line)
    return clean_name(line[: scheme.start()] if scheme else line)


def clean_name(text: str) -> str:
    """Return a name with single spaces, in Unicode form NFC."""
    return unicodedata.normalize("NFC", " ".join(text.split()))


def check_name(name: str, *, what: str) -> str:
    """Return the name of an exercise or a lifter as it is.

    Raises
    ------
    OutOfRange
        It is empty, over 80 characters, or not valid Unicode.
    """
    if not name:
        raise OutOfRange(f"the name of the {what} is empty", hint="give at least one letter")
    if len(name) > LONGEST_NAME:
        raise OutOfRange(
            f"the name of the {what} has {len(name)} characters", hint=f"at most {LONGEST_NAME}"
        )
    if any("\ud800" <= character <= "\udfff" for character in name):
        raise OutOfRange(f"the name of the {what} is not valid text", hint="write it in UTF-8")
    return name


def _is_tempo(word: str) -> bool:
    if not re.search(r"[-/].*[-/]", word):
        return False
    try:
        parse_tempo(word)
    except NotationError:
        return False
    return True


def _sets_and_reps(line: str, scheme: re.Match[str]) -> tuple[int, int | None]:
    sets_digits, reps_digits = scheme[1], scheme[2]
    sets = _count(line, scheme.start(1), sets_digits, what="set", most=MOST_SETS)
    if reps_digits.lower() == "max":
        return sets, None
    if not re.fullmatch(r"[0-9]+", reps_digits):
        refuse(
            line,
            scheme.start(2),
            f"{quoted(reps_digits)} is no number of reps"
            if reps_digits
            else "the reps are missing",
            hint=f"such as {sets}x5, or {sets}xmax to run until stopped",
        )
    return sets, _count(line, scheme.start(2), reps_digits, what="rep", most=MOST_REPS)


def _count(line: str, at: int, digits: str, *, what: str, most: int) -> int:
    significant = digits.lstrip("0")
    count = int(significant[:6] or 0)
    if not 1 <= count <= most:
        refuse(
            line,
            at,
            f"{quoted(digits)} {what}s are not possible",
            hint=f"1 to {most}, so at {'least 1' if count == 0 else f'most {most}'}",
        )
    return count


def _load(line: str, at: int) -> tuple[Load | None, int]:
    mark = next_word(line, at)
    if mark is None or not mark[0].startswith("@"):
        return None, at
    begin = skip_space(line, mark.start() + 1)
    try:
        found = match_load(line, begin)
    except OutOfRange as fault:
        refuse(line, begin, fault.message, hint=fault.hint)
    if found is None:
        _refuse_load(line, begin)
    return found


def _refuse_load(line: str, begin: int) -> NoReturn:
    word = next_word(line, begin)
    if word is None or is_compact(word[0]) or _is_tempo(word[0]):
        refuse(line, begin, "the load is missing behind '@'", hint=LOAD_FORMS)
    number = _NUMBER.match(word[0].replace(",", "."))
    nearest = f"write {number[0]} kg, {number[0]} lb or {number[0]}%" if number else LOAD_FORMS
    refuse(line, begin, f"{quoted(word[0])} is no load", hint=nearest)


def _tempo(line: str, at: int) -> tuple[Tempo, int]:
    word = next_word(line, at)
    if word is None or opens_clause(line, word.start()):
        where = len(line.rstrip()) if word is None else word.start()
        refuse(line, where, "the tempo is missing", hint="lower-pause-raise-top, such as 4-1-X-1")
    if load := _BARE_LOAD.match(line, word.start()):
        nearest = " ".join(load[0].split())
        refuse(line, word.start(), "a load stands behind '@'", hint=f"write @ {nearest}")
    try:
        return parse_tempo(word[0]), word.end()
    except NotationError as fault:
        raise fault.within(line, offset=word.start()) from None
