"""Most lines of a log, read three times as fast as `log_lines` reads all of them."""

from __future__ import annotations

from datetime import datetime
from functools import lru_cache
from typing import Annotated, Literal, TypeAlias

import msgspec
from msgspec import Meta

from tempo_coach.core.fact_values import LONGEST_NOTE, VERSION
from tempo_coach.core.phase_seconds import LONGEST_IN_A_PHASE_S
from tempo_coach.core.prescription import LONGEST_NAME
from tempo_coach.core.set_rows import RowValues, allowance_bits
from tempo_coach.core.tempo import parse_tempo
from tempo_coach.errors import NotationError

_BEGINNING = b'{"v":1,"kind":"set_done",'
_DIGITS = str.maketrans("123456789", "0" * 9)
# A fifth of the time that a regular expression takes.
_TIMES = {
    f"0000-00-00T00:00:00{decimals}{sign}00:00"
    for decimals in ("", ".000", ".000000")
    for sign in "+-"
}
"""How this program writes times, each digit as 0."""

_Name: TypeAlias = Annotated[str, Meta(min_length=1, max_length=LONGEST_NAME)]
_Seconds: TypeAlias = Annotated[float, Meta(ge=0, le=LONGEST_IN_A_PHASE_S)]


class _PhaseSeconds(msgspec.Struct, forbid_unknown_fields=True, gc=False):
    lower: _Seconds
    pause: _Seconds
    raise_: _Seconds = msgspec.field(name="raise")
    top: _Seconds


class _SetDone(msgspec.Struct, forbid_unknown_fields=True, gc=False):
    """`facts.SetDone` of plain reps, but for what `quick_values` looks at itself."""

    v: Annotated[int, Meta(ge=VERSION, le=VERSION)]
    kind: Literal["set_done"]
    id: Annotated[str, Meta(min_length=1, max_length=64)]
    lifter: _Name
    started_at: str
    ended_at: str
    exercise: _Name
    lead: Literal["lower", "raise"]
    tempo: str
    load_kg: Annotated[float, Meta(gt=0, le=2_000)] | None
    load_as_written: Annotated[str, Meta(max_length=LONGEST_NAME)]
    reps_prescribed: Annotated[int, Meta(ge=1, le=1_000)] | None
    reps_done: Annotated[int, Meta(ge=0, le=1_000)]
    seconds: _PhaseSeconds
    timing: Literal["paced", "tapped", "trace"]
    method: _Name | None
    effort: Annotated[float, Meta(ge=1, le=10)] | None
    note: Annotated[str, Meta(max_length=LONGEST_NOTE)]


_decode = msgspec.json.Decoder(_SetDone).decode


def quick_values(line: bytes) -> RowValues | None:
    """Read a line that holds a set, as a row; None leaves the line to `log_lines.read_line`.

    Whatever this reads, `read_line` reads too, and `row_values` makes the same row of it. What is
    unusual or wrong is left to `read_line`, which knows how to say so.
    """
    if not line.startswith(_BEGINNING):
        return None
    try:
        done = _decode(line)
        started_at = datetime.fromisoformat(done.started_at)
        datetime.fromisoformat(done.ended_at)
        bits = _bits(done.tempo, done.timing)
    except (msgspec.MsgspecError, ValueError, NotationError):
        return None
    if done.started_at.translate(_DIGITS) not in _TIMES:
        return None
    if done.ended_at.translate(_DIGITS) not in _TIMES:
        return None
    if done.effort is not None and done.effort % 0.5:
        return None
    spent = done.seconds
    return (
        done.id, done.lifter, done.exercise, done.method or "", started_at,
        spent.lower, spent.pause, spent.raise_, spent.top,
        0.0 if done.timing == "paced" else spent.lower,
        done.reps_done, done.load_kg, done.load_kg, bits,
    )  # fmt: skip


@lru_cache(maxsize=1024)
def _bits(tempo: str, timing: str) -> int:
    return allowance_bits(parse_tempo(tempo), timing)
