"""What the sets of a log say of maxes, exercise by exercise and tempo by tempo."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import Final

import numpy as np

from tempo_coach.core.fact_values import HEAVIEST_KG
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.rep_equations import HOLDS_TO_REPS, Band, band
from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.tempo import Allowances, Speed, Tempo, lower_seconds

EASIEST_EFFORT: Final = 7.0
"""Below it nobody knows how many reps were left (common practice, no source)."""
HARDEST_EFFORT: Final = 10.0
"""No rep left; at 9 there was one, and so on (common practice, no source)."""
MOST_TO_FAILURE: Final = 12


@dataclass(frozen=True, slots=True, order=True)
class HardSet:
    """What of a set an estimate rests on."""

    load_kg: float
    reps: int
    effort: float

    @property
    def to_failure(self) -> float:
        """The reps done, and those that were left by the effort."""
        return self.reps + HARDEST_EFFORT - self.effort

    def band(self, exercise: str, *, lower_s: float | None = None) -> Band:
        """Return what the equations say of it."""
        return band(self.load_kg, reps=self.to_failure, lower_s=lower_s, exercise=exercise)


def hard_set(done: SetDone) -> HardSet | None:
    """Return what an estimate can rest on, or None: too easy, too many reps, or not all known."""
    kg, effort, reps = done.load_kg, done.effort, done.reps_done
    if kg is None or kg > HEAVIEST_KG or effort is None or effort < EASIEST_EFFORT:
        return None
    hard = HardSet(kg, reps, effort)
    is_short = 1 <= reps <= HOLDS_TO_REPS and hard.to_failure <= MOST_TO_FAILURE
    return hard if is_short else None


def is_lifted(tempo: Tempo) -> bool:
    """Tell whether the lifter alone raised the load; else it says nothing of the 1RM."""
    return tempo.raise_ not in (0, Speed.ASSISTED)


@dataclass(frozen=True, slots=True)
class DayEstimate:
    """One day's estimate: that of its best set."""

    on: date
    """The lifter's local date."""
    best: HardSet
    sets: int
    """How many sets of the day an estimate could rest on."""


class Direction(StrEnum):
    """Where a trend goes; level where the change lies within the spread of the equations."""

    UP = "up"
    DOWN = "down"
    LEVEL = "level"


@dataclass(frozen=True, slots=True)
class Trend:
    """The way from the first day's estimate to the last one's."""

    change_kg: float
    """Of the middles."""
    days: int
    """From the one to the other."""
    direction: Direction


@dataclass(frozen=True, slots=True)
class TempoRecord:
    """What a lifter's sets of one exercise at one tempo say."""

    lifter: str
    """As last written."""
    exercise: str
    """As last written."""
    tempo: Tempo
    heaviest: SetDone
    """The heaviest set with a rep in it, of equals the latest."""
    days: tuple[DayEstimate, ...]
    """In order; empty where no set counts for an estimate."""

    def band(self, day: DayEstimate, *, allowances: Allowances | None = None) -> Band:
        """Return what the equations say of a day's best set.

        Parameters
        ----------
        day
            One of `days`.
        allowances
            What counts for X and V in the lower, so that a slow one is told; None leaves it out.
        """
        lower_s = None if allowances is None else lower_seconds(self.tempo, allowances)
        return day.best.band(self.exercise, lower_s=lower_s)

    def trend(self) -> Trend | None:
        """Return where the estimates go; None where there are not two days of them."""
        if len(self.days) < 2:
            return None
        first, last = self.band(self.days[0]), self.band(self.days[-1])
        direction = Direction.LEVEL
        if last.middle_kg > first.high_kg:
            direction = Direction.UP
        elif last.middle_kg < first.low_kg:
            direction = Direction.DOWN
        return Trend(
            change_kg=last.middle_kg - first.middle_kg,
            days=(self.days[-1].on - self.days[0].on).days,
            direction=direction,
        )


def telling_rows(rows: SetRows) -> SetRows:
    """Return the rows that `tempo_records` can learn from, since whole sets are slow to read."""
    return rows.where(~np.isnan(rows.data["load_kg"]) & (rows.data["reps"] >= 1))


def tempo_records(sets: Iterable[SetDone]) -> tuple[TempoRecord, ...]:
    """Add sets in any order up to a record for each lifter, exercise and tempo, in this order.

    An attempt of a reserve test is left out: its set does not say whether it was held.
    """
    drafts: dict[tuple[str, str, Tempo], _Draft] = {}
    for done in sets:
        is_attempt = done.method == MethodName.RESERVE_TEST
        if done.load_kg is not None and done.reps_done and not is_attempt:
            key = (name_key(done.lifter), name_key(done.exercise), done.tempo)
            if key not in drafts:
                drafts[key] = _Draft(done, done)
            drafts[key].add(done)
    return tuple(_in_order(draft.record() for draft in drafts.values()))


def _in_order(records: Iterable[TempoRecord]) -> Iterator[TempoRecord]:
    # By name, since a lower of X has no length to sort by.
    yield from sorted(
        records, key=lambda one: (name_key(one.lifter), name_key(one.exercise), str(one.tempo))
    )


@dataclass(slots=True)
class _Draft:
    """A record that is still being added to."""

    latest: SetDone
    heaviest: SetDone
    days: dict[date, DayEstimate] = field(default_factory=dict)

    def add(self, done: SetDone) -> None:
        self.latest = max(self.latest, done, key=lambda one: (one.started_at, one.id))
        self.heaviest = max(
            self.heaviest, done, key=lambda one: (one.load_kg or 0.0, one.started_at, one.id)
        )
        hard = hard_set(done) if is_lifted(done.tempo) else None
        if hard is None:
            return
        on = done.started_at.date()
        day = self.days.get(on, DayEstimate(on, hard, 0))
        best = max(day.best, hard, key=lambda one: (one.band(done.exercise).middle_kg, one))
        self.days[on] = DayEstimate(on, best, day.sets + 1)

    def record(self) -> TempoRecord:
        return TempoRecord(
            lifter=self.latest.lifter,
            exercise=self.latest.exercise,
            tempo=self.latest.tempo,
            heaviest=self.heaviest,
            days=tuple(self.days[on] for on in sorted(self.days)),
        )
