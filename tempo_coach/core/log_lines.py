"""One line of a log, read or skipped with a reason."""

from __future__ import annotations

import json
from dataclasses import dataclass

from pydantic import ValidationError

from tempo_coach.core.fact_values import VERSION
from tempo_coach.core.facts import FACTS, KINDS, LOWERED_VERSION, SHAPED_VERSION, Fact
from tempo_coach.core.legible import legible, quoted

_LONGEST_PLACE = 80
_NEWEST = {"set_done": SHAPED_VERSION, "set_corrected": LOWERED_VERSION}
TORN = "torn: the line was not written whole"


@dataclass(frozen=True, slots=True)
class Unread:
    """Why a line gives no fact."""

    why: str
    foreign: bool = False
    """It is of a newer version or an unknown kind: kept, not counted, and no fault."""


@dataclass(frozen=True, slots=True)
class Skipped:
    """A line of a log that was passed over."""

    file: str
    line: int
    """Counted from 1."""
    why: str
    foreign: bool = False
    """As for `Unread`."""


def read_line(line: bytes) -> Fact | Unread:
    """Read one line without its line feed."""
    try:
        return FACTS.validate_json(line)
    except ValidationError as fault:
        return _unread(line, fault)


def read_whole_line(line: bytes, *, file: str, number: int) -> Fact | Skipped | None:
    """Read one line as it stands in a log, with its line feed; None where it is empty.

    Parameters
    ----------
    line
        Without a line feed it is the last, and may be torn.
    file, number
        Where it stands, for `Skipped`.
    """
    if not line.strip():
        return None
    read = read_line(line.rstrip(b"\r\n"))
    if not isinstance(read, Unread):
        return read
    why = read.why if line.endswith(b"\n") or read.foreign else TORN
    return Skipped(file, number, why, read.foreign)


def _unread(line: bytes, fault: ValidationError) -> Unread:
    try:
        value = json.loads(line)
    except (ValueError, RecursionError):
        return Unread("not JSON")
    if not isinstance(value, dict):
        return Unread("not a JSON object")
    version, kind = value.get("v"), value.get("kind")
    newest = _NEWEST.get(str(kind), VERSION)
    if isinstance(version, int) and version > newest:
        return Unread(f"version {version} is newer than this program knows; kept", foreign=True)
    if isinstance(kind, str) and kind not in KINDS:
        return Unread(f"the kind {quoted(kind)} is not known to this program; kept", foreign=True)
    first = fault.errors()[0]
    if first["type"] == "json_invalid":
        return Unread("not JSON as this program writes it")
    place = ".".join(str(step) for step in first["loc"][1:]) or "kind"
    said = first["msg"].removeprefix("Value error, ")
    return Unread(f"{legible(place[:_LONGEST_PLACE])}: {said}")
