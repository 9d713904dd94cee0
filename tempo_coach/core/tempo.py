"""The four-phase tempo: lower, pause, raise, top."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from types import MappingProxyType
from typing import NoReturn, TypeAlias

from tempo_coach.core.legible import quoted
from tempo_coach.errors import NotationError, OutOfRange

LONGEST_PHASE_MS = 60_000
LONGEST_REP_MS = 120_000
EXAMPLE = "4-1-X-1"


class Phase(StrEnum):
    """A part of a rep; the order is that of the notation."""

    LOWER = "lower"
    PAUSE = "pause"
    RAISE = "raise"
    TOP = "top"


class Speed(StrEnum):
    """A phase without a prescribed length."""

    FAST = "X"
    """As fast as possible."""
    OWN = "V"
    """At the lifter's own speed."""
    ASSISTED = "A"
    """Raised with the help of the spotters."""


Slot: TypeAlias = int | Speed
"""One place of a tempo: whole milliseconds, or a speed."""

ALLOWED_SPEEDS: Mapping[Phase, tuple[Speed, ...]] = MappingProxyType(
    {
        Phase.LOWER: (Speed.FAST, Speed.OWN),
        Phase.PAUSE: (),
        Phase.RAISE: (Speed.FAST, Speed.OWN, Speed.ASSISTED),
        Phase.TOP: (),
    }
)


@dataclass(frozen=True, slots=True)
class Allowances:
    """What planning counts for a phase without a prescribed length; ours, by choice."""

    fast_ms: int = 1_000
    own_ms: int = 2_000
    assisted_ms: int = 3_000

    def of(self, speed: Speed) -> int:
        """Return the length in milliseconds that stands in for the speed."""
        return {
            Speed.FAST: self.fast_ms,
            Speed.OWN: self.own_ms,
            Speed.ASSISTED: self.assisted_ms,
        }[speed]


@dataclass(frozen=True, slots=True)
class Tempo:
    """How long each phase of a rep takes.

    Raises
    ------
    OutOfRange
        A phase is over 60 s, a rep over 120 s, everything is zero, or a speed stands in a
        phase that can't have it.
    """

    lower: Slot
    pause: Slot
    raise_: Slot
    top: Slot

    def __post_init__(self) -> None:
        for phase, slot in self.slots().items():
            _check_slot(phase, slot)
        fixed_ms = sum(slot for slot in self.slots().values() if not isinstance(slot, Speed))
        if fixed_ms > LONGEST_REP_MS:
            raise OutOfRange(
                f"a rep of {seconds_text(fixed_ms)} s is too long", hint="a rep is at most 120 s"
            )
        if all(slot == 0 for slot in self.slots().values()):
            raise OutOfRange(
                "a tempo of zeros has no length", hint=f"give at least one phase, as in {EXAMPLE}"
            )

    def slots(self) -> dict[Phase, Slot]:
        """Return the four places in the order of the notation."""
        return {
            Phase.LOWER: self.lower,
            Phase.PAUSE: self.pause,
            Phase.RAISE: self.raise_,
            Phase.TOP: self.top,
        }

    @property
    def has_speed(self) -> bool:
        """A phase has a speed in place of a length."""
        return any(isinstance(slot, Speed) for slot in (self.lower, self.raise_))

    def __str__(self) -> str:
        return "-".join(
            slot.value if isinstance(slot, Speed) else seconds_text(slot)
            for slot in self.slots().values()
        )


def lower_seconds(tempo: Tempo, allowances: Allowances) -> float:
    """Return the seconds of a rep's lower, for X and V as planning counts them."""
    lower = tempo.lower
    return (allowances.of(lower) if isinstance(lower, Speed) else lower) / 1000


def seconds_text(length_ms: int) -> str:
    """Return milliseconds as the shortest exact number of seconds: 2500 is ``2.5``."""
    whole, rest = divmod(length_ms, 1000)
    return f"{whole}.{rest:03d}".rstrip("0").rstrip(".")


# A dash of any kind, as phones and word processors write it, one character for one.
_DASHES = {ord(dash): "-" for dash in "\u2010\u2011\u2012\u2013\u2014\u2212"}
_COMPACT = re.compile(r"[0-9XVA]{4}", re.IGNORECASE)
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")
_RATIO = re.compile(r"([0-9]+):([0-9]+)")


@lru_cache(maxsize=1024)
def parse_tempo(text: str) -> Tempo:
    """Read ``4-1-X-1``, ``4/1/X/1``, ``41X1`` or ``3-1-X``.

    Raises
    ------
    NotationError
        The text is no tempo; the column tells where.
    """
    shift = len(text) - len(text.lstrip())
    body = text.strip().translate(_DASHES)
    if not body:
        _refuse(text, 0, "the tempo is missing", hint=f"lower-pause-raise-top, such as {EXAMPLE}")
    if ":" in body:
        _refuse_ratio(text, shift, body)
    pieces = _pieces(text, shift, body)
    slots = [
        _slot(text, column, piece, phase)
        for phase, (column, piece) in zip(Phase, pieces, strict=False)
    ]
    slots += [0] * (len(Phase) - len(slots))
    try:
        return Tempo(*slots)
    except OutOfRange as fault:
        _refuse(text, shift, fault.message, hint=fault.hint)


def is_compact(text: str) -> bool:
    """Tell whether the text has the form of a compact tempo, such as ``41X1``."""
    return _COMPACT.fullmatch(text) is not None


def _pieces(text: str, shift: int, body: str) -> list[tuple[int, str]]:
    """Cut the text into its three or four places, each with its index in the text."""
    separators = {mark for mark in "-/" if mark in body}
    if len(separators) == 2:
        at = shift + body.index("/" if body.index("-") < body.index("/") else "-")
        _refuse(
            text, at, "a tempo has one kind of separator", hint="write all as '-' or all as '/'"
        )
    if not separators:
        if not is_compact(body):
            _refuse_compact(text, shift, body)
        return [(shift + index, piece) for index, piece in enumerate(body)]
    pieces: list[tuple[int, str]] = []
    at = shift
    for piece in body.split(separators.pop()):
        pieces.append((at, piece))
        at += len(piece) + 1
    if len(pieces) not in (3, 4):
        _refuse(
            text,
            pieces[min(len(pieces) - 1, len(Phase))][0],
            f"a tempo has three or four places, not {len(pieces)}",
            hint=f"lower-pause-raise-top, such as {EXAMPLE}",
        )
    return pieces


def _slot(text: str, at: int, piece: str, phase: Phase) -> Slot:
    if not piece:
        _refuse(text, at, f"the {phase} is missing", hint="write 0 for a phase that is left out")
    if piece.upper() in set(Speed):
        speed = Speed(piece.upper())
        try:
            _check_slot(phase, speed)
        except OutOfRange as fault:
            _refuse(text, at, fault.message, hint=fault.hint)
        return speed
    if not _NUMBER.fullmatch(piece):
        _refuse(
            text,
            at,
            f"{quoted(piece)} is no length for the {phase}",
            hint=_nearest_slot(piece, phase),
        )
    whole, _, decimals = piece.partition(".")
    # Cut before it is a number: three digits are too long already, and there may be thousands.
    length_ms = int(whole.lstrip("0")[:3] or 0) * 1000 + int(decimals[:3].ljust(3, "0"))
    if length_ms > LONGEST_PHASE_MS:
        _refuse(
            text, at, f"a {phase} of {quoted(piece)} s is too long", hint="at most 60 s a phase"
        )
    if decimals[3:].strip("0"):
        _refuse(
            text, at, f"{quoted(piece)} is finer than a millisecond", hint="at most three decimals"
        )
    return length_ms


def _check_slot(phase: Phase, slot: Slot) -> None:
    if isinstance(slot, Speed):
        if slot not in ALLOWED_SPEEDS[phase]:
            places = [place.value for place, speeds in ALLOWED_SPEEDS.items() if slot in speeds]
            raise OutOfRange(
                f"the {phase} can't be {slot}",
                hint=f"{slot} stands for {' or '.join(places)} only, so give the seconds",
            )
    elif not 0 <= slot <= LONGEST_PHASE_MS:
        raise OutOfRange(
            f"the {phase} can't last {seconds_text(slot)} s", hint="a phase is 0 to 60 s"
        )


def _nearest_slot(piece: str, phase: Phase) -> str:
    nearest = re.sub(r"(?:s|sec)$", "", piece.replace(",", "."), flags=re.IGNORECASE)
    nearest = f"0{nearest}" if nearest.startswith(".") else nearest
    if nearest != piece and _NUMBER.fullmatch(nearest):
        return f"write {nearest}"
    marks = [speed.value for speed in ALLOWED_SPEEDS[phase]]
    return "give seconds, such as 2 or 2.5" + (f", or {' or '.join(marks)}" if marks else "")


def _refuse_ratio(text: str, shift: int, body: str) -> NoReturn:
    ratio = _RATIO.fullmatch(body)
    if ratio is None:
        hint = f"the order is lower-pause-raise-top, such as {EXAMPLE}"
    else:
        first, second = ratio.groups()
        hint = (
            f"the order is lower-pause-raise-top: {second}-0-{first}-0 lowers in {second} s, "
            f"{first}-0-{second}-0 in {first} s"
        )
    _refuse(text, shift, f"{quoted(body)} does not say which phase comes first", hint=hint)


def _refuse_compact(text: str, shift: int, body: str) -> NoReturn:
    for index, character in enumerate(body):
        if not re.fullmatch(r"[0-9.XVA]", character, re.IGNORECASE):
            _refuse(
                text,
                shift + index,
                f"{quoted(body)} is no tempo",
                hint=f"lower-pause-raise-top, such as {EXAMPLE}",
            )
    separated = "-".join(body if len(body) == 3 and "." not in body else EXAMPLE.split("-"))
    _refuse(
        text,
        shift,
        f"{quoted(body)} is no tempo: without separators it is exactly four characters",
        hint=f"write {separated.upper()}" + ("" if len(body) == 3 else " or 41X1"),
    )


def _refuse(text: str, index: int, message: str, *, hint: str) -> NoReturn:
    raise NotationError(message, text=text, column=index + 1, hint=hint)
