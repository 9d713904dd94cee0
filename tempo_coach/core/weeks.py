"""Weekly totals: lowering seconds, tension, lowering load."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.tempo import Phase, Speed
from tempo_coach.core.work import PhaseTimes, added


@dataclass(frozen=True, slots=True, order=True)
class IsoWeek:
    """A week of ISO 8601: it begins on Monday, and W01 holds 4 January."""

    year: int
    week: int

    @classmethod
    def of(cls, day: date) -> IsoWeek:
        """Return the week that holds the day."""
        year, week, _ = day.isocalendar()
        return cls(year, week)

    def monday(self) -> date:
        """Return the first day."""
        return date.fromisocalendar(self.year, self.week, 1)

    def before(self, weeks: int = 1) -> IsoWeek:
        """Return the week so many weeks earlier; the first of the calendar is as far as it goes."""
        monday = self.monday()
        weeks = min(weeks, (monday - date.min).days // 7)
        return IsoWeek.of(monday - timedelta(weeks=weeks))

    def __str__(self) -> str:
        return f"{self.year:04d}-W{self.week:02d}"


def next_monday(day: date) -> date:
    """Return the first Monday after a day."""
    return day + timedelta(days=7 - day.weekday())


@dataclass(frozen=True, slots=True)
class Totals:
    """What some sets add up to."""

    sets: int
    reps: int
    times: PhaseTimes
    by_allowance: PhaseTimes
    """The part of `times` that was planned for X, V or A, not prescribed or measured."""
    lowering_kg_s: float
    """Σ load × seconds lowering: this tool's own measure."""
    tonnage_kg: float
    """Σ load × reps."""
    sets_without_load: int
    """Sets whose load in kg is not known; they add nothing to the two sums above."""

    @classmethod
    def of(cls, sets: Iterable[SetDone]) -> Totals:
        """Add up sets; the order makes no difference to the last digit."""
        sets = tuple(sets)
        allowed = (allowed_times(done) for done in sets if done.tempo.has_speed)
        loaded = [(done, done.load_kg) for done in sets if done.load_kg is not None]
        return cls(
            sets=len(sets),
            reps=sum(done.reps_done for done in sets),
            times=added(done.seconds.times() for done in sets),
            by_allowance=added(allowed),
            lowering_kg_s=math.fsum(kg * done.seconds.lower for done, kg in loaded),
            tonnage_kg=math.fsum(kg * done.reps_done for done, kg in loaded),
            sets_without_load=len(sets) - len(loaded),
        )

    @property
    def lowering_share(self) -> float:
        """Lowering seconds over tension seconds, 0 to 1."""
        return self.times.lower_ms / self.times.tension_ms if self.times.tension_ms else 0.0


@dataclass(frozen=True, slots=True)
class ExerciseTotals:
    """One exercise's part of a week."""

    exercise: str
    """As last written."""
    totals: Totals


@dataclass(frozen=True, slots=True)
class Week:
    """One week's work."""

    week: IsoWeek
    exercises: tuple[ExerciseTotals, ...]
    """In order of the alphabet."""
    total: Totals
    lower_before_ms: int | None
    """Lowering time of the calendar week before; None in the first week on record."""

    @property
    def lower_change_ms(self) -> int | None:
        """Lowering time against the calendar week before; None in the first week on record."""
        if self.lower_before_ms is None:
            return None
        return self.total.times.lower_ms - self.lower_before_ms


def allowed_times(done: SetDone) -> PhaseTimes:
    """Return the part of a set's times that rests on allowances."""
    if done.timing != "paced":
        return PhaseTimes()
    times = done.seconds.times()
    return PhaseTimes(
        **{
            f"{phase}_ms": times.of(phase) if isinstance(slot, Speed) else 0
            for phase, slot in done.tempo.slots().items()
        }
    )


def week_of(done: SetDone) -> IsoWeek:
    """Return the week of the lifter's local date when the set began."""
    return IsoWeek.of(done.started_at.date())


def weekly(sets: Iterable[SetDone], *, last: int | None = None) -> tuple[Week, ...]:
    """Add sets up by week and exercise.

    Parameters
    ----------
    sets
        In the order they were done.
    last
        Keep so many calendar weeks, up to the latest that has sets; None keeps all.

    Returns
    -------
    tuple of Week
        The weeks that have sets, in order.
    """
    by_week: dict[IsoWeek, list[SetDone]] = {}
    for done in sets:
        by_week.setdefault(week_of(done), []).append(done)
    keys = sorted(by_week)
    first = keys[-1].before(last - 1) if keys and last is not None else None
    weeks = []
    for index, key in enumerate(keys):
        if first is not None and key < first:
            continue
        before = by_week.get(key.before(), ()) if index else None
        weeks.append(_week(key, by_week[key], before))
    return tuple(weeks)


def _week(key: IsoWeek, sets: Iterable[SetDone], before: Iterable[SetDone] | None) -> Week:
    by_exercise: dict[str, list[SetDone]] = {}
    for done in sets:
        by_exercise.setdefault(name_key(done.exercise), []).append(done)
    return Week(
        week=key,
        exercises=tuple(
            ExerciseTotals(by_exercise[name][-1].exercise, Totals.of(by_exercise[name]))
            for name in sorted(by_exercise)
        ),
        total=Totals.of(sets),
        lower_before_ms=(
            None if before is None else sum(round(done.seconds.lower * 1000) for done in before)
        ),
    )


def seconds_by_phase(times: PhaseTimes) -> dict[str, float]:
    """Return ``lower_s``, ``pause_s``, ``raise_s``, ``top_s`` and ``tension_s``."""
    return {f"{phase}_s": times.of(phase) / 1000 for phase in Phase} | {
        "tension_s": times.tension_ms / 1000
    }
