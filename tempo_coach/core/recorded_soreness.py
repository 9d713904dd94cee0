"""What lifters told of their soreness, in one log or several: a fold over the answers."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime

from tempo_coach.core.facts import SetDone, line_of
from tempo_coach.core.legible import name_key
from tempo_coach.core.soreness_facts import SorenessTold


@dataclass(frozen=True, slots=True)
class RecordedSoreness:
    """The answers that count: of each lifter's local day the latest one, in the order of time."""

    told: tuple[SorenessTold, ...] = ()
    disagreeing: tuple[str, ...] = ()
    """Ids under which two logs hold different answers; the later one counts."""

    def of(self, lifter: str) -> tuple[SorenessTold, ...]:
        """Return one lifter's answers; the spelling's case does not matter."""
        key = name_key(lifter)
        return tuple(one for one in self.told if name_key(one.lifter) == key)

    def on(self, lifter: str, day: date) -> SorenessTold | None:
        """Return what a lifter told on a local day; None where nothing was told."""
        return next((one for one in self.of(lifter) if one.at.date() == day), None)

    def renamed(self, rename: Callable[[SorenessTold], SorenessTold]) -> RecordedSoreness:
        """Return the same answers under other names."""
        return replace(self, told=tuple(map(rename, self.told)))


def fold_soreness(facts: Iterable[SorenessTold]) -> RecordedSoreness:
    """Fold answers in any order, repeated or not, into those that count."""
    by_id: dict[str, SorenessTold] = {}
    disagreeing: set[str] = set()
    for fact in facts:
        known = by_id.setdefault(fact.id, fact)
        if line_of(known) != line_of(fact):
            disagreeing.add(fact.id)
            by_id[fact.id] = max(known, fact, key=_when)
    latest: dict[tuple[str, date], SorenessTold] = {}
    for one in sorted(by_id.values(), key=_when):
        latest[name_key(one.lifter), one.at.date()] = one
    return RecordedSoreness(
        told=tuple(sorted(latest.values(), key=_when)), disagreeing=tuple(sorted(disagreeing))
    )


def asks_for_soreness(
    sets: Iterable[SetDone], soreness: RecordedSoreness, *, lifter: str, day: date
) -> bool:
    """Tell whether a lifter's day has neither an answer nor a set yet."""
    key = name_key(lifter)
    has_begun = any(one.started_at.date() == day and name_key(one.lifter) == key for one in sets)
    return not has_begun and soreness.on(lifter, day) is None


def _when(fact: SorenessTold) -> tuple[datetime, bytes]:
    # The line decides between answers of one moment, so that the order of reading never does.
    return fact.at, line_of(fact)
