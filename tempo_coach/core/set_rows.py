"""Sets as rows of numbers: what is added up, and where the rest of each set stands."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from struct import Struct
from types import MappingProxyType
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.tempo import Phase, Speed, Tempo

RowValues: TypeAlias = tuple[
    str, str, str, str, datetime, float, float, float, float, float, int, float | None,
    float | None, int,
]  # fmt: skip
"""Id, lifter, exercise, method or nothing, start, seconds lowering, pausing, raising and at the
top, seconds of lowering that were measured, reps, kg or None, kg lowered or None, and the phases by
allowance as bits."""

# 79 bytes a set, so that two and a half million of them fit into 200 MB.
_PACK = Struct("<qqqiiiiiihddBiii").pack
_ROW = np.dtype(
    [
        ("id", "<i8"),  # a hash, good within one process
        ("place", "<i8"),
        ("start_us", "<i8"),
        ("day", "<i4"),  # the local date, as `date.toordinal` counts
        *((f"{phase}_ms", "<i4") for phase in Phase),
        ("lower_measured_ms", "<i4"),  # of lower_ms
        ("reps", "<i2"),
        ("load_kg", "<f8"),  # NaN where it is not known
        ("lower_kg", "<f8"),  # the same, over the time of lowering
        ("by_allowance", "u1"),
        ("lifter", "<i4"),
        ("exercise", "<i4"),
        ("method", "<i4"),
    ]
)
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_NEVER = int(np.iinfo(np.int64).min)
_DAYS_A_WEEK = 7
NONE_MEASURED: Mapping[str, SetMeasured] = MappingProxyType({})


def phases_by_allowance(tempo: Tempo, timing: str) -> tuple[Phase, ...]:
    """Return the phases of a set whose seconds were planned for X, V or A, not measured."""
    if timing != "paced" or not tempo.has_speed:
        return ()
    return tuple(phase for phase, slot in tempo.slots().items() if isinstance(slot, Speed))


def allowance_bits(tempo: Tempo, timing: str) -> int:
    """Return `phases_by_allowance` as bits, the lower first."""
    by_allowance = phases_by_allowance(tempo, timing)
    return sum(1 << bit for bit, phase in enumerate(Phase) if phase in by_allowance)


def lower_measured_s(done: SetDone, measured: SetMeasured | None) -> float:
    """Return the seconds of lowering in a set that somebody or something measured.

    Parameters
    ----------
    done
        As it counts.
    measured
        How it was measured; None where nothing is told beyond the set itself.
    """
    if measured is None:
        return 0.0 if done.timing == "paced" else done.seconds.lower
    lowers = (one.lower or 0.0 for one in measured.reps) if done.shape.counts(Phase.LOWER) else ()
    return min(math.fsum(lowers), done.seconds.lower)


def row_values(done: SetDone, measured: SetMeasured | None = None) -> RowValues:
    """Return what a row holds of a set."""
    spent = done.seconds
    return (
        done.id, done.lifter, done.exercise, done.method or "", done.started_at,
        spent.lower, spent.pause, spent.raise_, spent.top, lower_measured_s(done, measured),
        done.reps_done, done.load_kg, done.mean_lower_kg,
        allowance_bits(done.tempo, done.timing),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class SetRows:
    """Sets as rows; every sum of the program is taken from here."""

    data: NDArray[Any]
    """A row a set, in any order; ``data["lower_ms"]`` and so on are its columns."""
    lifters: tuple[str, ...]
    """The names behind ``data["lifter"]``, each as last written, in order of the alphabet."""
    exercises: tuple[str, ...]
    """As `lifters`, behind ``data["exercise"]``."""
    methods: tuple[str, ...]
    """As `lifters`, behind ``data["method"]``; empty where a set names none."""

    @classmethod
    def of(
        cls, sets: Iterable[SetDone], *, measured: Mapping[str, SetMeasured] = NONE_MEASURED
    ) -> SetRows:
        """Return sets as rows, with how some of them were measured, by their ids."""
        writer = RowWriter()
        for done in sets:
            writer.append(0, row_values(done, measured.get(done.id)))
        return writer.named(writer.data())

    def where(self, is_kept: NDArray[np.bool_]) -> SetRows:
        """Return some of the rows; the names stay."""
        return self if bool(is_kept.all()) else replace(self, data=self.data[is_kept])

    def mondays(self) -> NDArray[np.int32]:
        """Return the first day of each set's week, as `date.toordinal` counts."""
        day = self.data["day"]
        mondays: NDArray[np.int32] = day - (day - 1) % _DAYS_A_WEEK
        return mondays

    def __len__(self) -> int:
        return len(self.data)


class RowWriter:
    """Gathers rows, 79 bytes a set."""

    def __init__(self) -> None:
        self._packed = bytearray()
        self._lifters: dict[str, int] = {}
        self._exercises: dict[str, int] = {}
        self._methods: dict[str, int] = {}

    def append(self, place: int, values: RowValues) -> None:
        """Add one set.

        Parameters
        ----------
        place
            Where the whole of it can be found again.
        values
            As `row_values` gives them.
        """
        (
            set_id, lifter, exercise, method, start, lower, pause, raised, top, measured,
            reps, kg, lower_kg, by_allowance,
        ) = values  # fmt: skip
        since = start - _EPOCH
        self._packed += _PACK(
            hash(set_id),
            place,
            (since.days * 86_400 + since.seconds) * 1_000_000 + since.microseconds,
            start.toordinal(),
            round(lower * 1000),
            round(pause * 1000),
            round(raised * 1000),
            round(top * 1000),
            round(measured * 1000),
            reps,
            np.nan if kg is None else kg,
            np.nan if lower_kg is None else lower_kg,
            by_allowance,
            self._lifters.setdefault(lifter, len(self._lifters)),
            self._exercises.setdefault(exercise, len(self._exercises)),
            self._methods.setdefault(method, len(self._methods)),
        )

    def data(self) -> NDArray[Any]:
        """Return the rows so far without copying them, and begin anew with the same names."""
        packed, self._packed = self._packed, bytearray()
        return np.frombuffer(packed, dtype=_ROW)

    def named(self, data: NDArray[Any]) -> SetRows:
        """Put the spellings of each name together, in rows that this wrote; changes the rows."""
        return SetRows(
            data,
            _named(data, "lifter", tuple(self._lifters)),
            _named(data, "exercise", tuple(self._exercises)),
            _named(data, "method", tuple(self._methods)),
        )


def _named(data: NDArray[Any], column: str, spellings: Sequence[str]) -> tuple[str, ...]:
    """Let a column count the names that its spellings share, and return these names."""
    last_us = np.full(len(spellings), _NEVER)
    np.maximum.at(last_us, data[column], data["start_us"])
    # The spelling decides between two of one moment, so that the order of reading never does.
    by_key: dict[str, tuple[int, str]] = {}
    for at_us, spelling in zip(last_us.tolist(), spellings, strict=True):
        if at_us != _NEVER:
            key = name_key(spelling)
            by_key[key] = max(by_key.get(key, (at_us, spelling)), (at_us, spelling))
    numbers = {key: number for number, key in enumerate(sorted(by_key))}
    renumbered = np.array([numbers.get(name_key(one), 0) for one in spellings], dtype=np.int32)
    data[column] = renumbered[data[column]]
    return tuple(by_key[key][1] for key in numbers)
