"""Sets of one day that were asked for alike, as they were prescribed and as they were done."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.tempo import Allowances, Speed, Tempo
from tempo_coach.core.timeline import rep_times
from tempo_coach.core.weeks import Totals


@dataclass(frozen=True, slots=True)
class SetGroup:
    """Sets of one day with one exercise, tempo, shape, method, load and number of reps."""

    day: date
    exercise: str
    tempo: Tempo
    shape: RepShape
    method: str | None
    load_kg: float | None
    load_as_written: str
    reps_prescribed: int | None
    """Of each set; None for sets that ran until they were stopped."""
    sets: tuple[SetDone, ...]
    """In the order they were done."""
    done: Totals
    lower_prescribed_ms: int | None
    """Of all sets; None where no reps were prescribed."""

    @property
    def is_lower_by_allowance(self) -> bool:
        """Whether what is prescribed rests on what planning counts for X or V."""
        return isinstance(self.tempo.lower, Speed)


def set_groups(sets: Iterable[SetDone], *, allowances: Allowances) -> tuple[SetGroup, ...]:
    """Put sets together, in the order of each group's first set."""
    groups: dict[tuple[object, ...], list[SetDone]] = {}
    for done in sorted(sets, key=lambda one: (one.started_at, one.id)):
        key = (
            done.started_at.date(),
            name_key(done.exercise),
            done.tempo,
            done.shape,
            done.method,
            done.load_kg,
            done.load_as_written,
            done.reps_prescribed,
        )
        groups.setdefault(key, []).append(done)
    return tuple(_group(tuple(alike), allowances) for alike in groups.values())


def _group(alike: tuple[SetDone, ...], allowances: Allowances) -> SetGroup:
    first, reps = alike[0], alike[0].reps_prescribed
    lower_ms = rep_times(first.tempo, allowances, first.shape).lower_ms
    return SetGroup(
        day=first.started_at.date(),
        exercise=first.exercise,
        tempo=first.tempo,
        shape=first.shape,
        method=first.method,
        load_kg=first.load_kg,
        load_as_written=first.load_as_written,
        reps_prescribed=reps,
        sets=alike,
        done=Totals.of(alike),
        lower_prescribed_ms=None if reps is None else lower_ms * reps * len(alike),
    )
