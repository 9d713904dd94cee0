"""The tested maxes of one log or several: a fold over their facts."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from tempo_coach.core.facts import MaxStruck, MaxTested, line_of
from tempo_coach.core.legible import name_key, quoted
from tempo_coach.errors import UnknownMax


@dataclass(frozen=True, slots=True)
class RecordedMaxes:
    """The tested maxes that count, in the order they were tested."""

    tested: tuple[MaxTested, ...] = ()
    struck: frozenset[str] = frozenset()
    """Ids of the maxes that no longer count."""
    disagreeing: tuple[str, ...] = ()
    """Ids under which two logs hold different maxes; the one tested later counts."""
    orphaned: tuple[str, ...] = ()
    """Ids that are struck, but under which no max was found."""

    def of(self, lifter: str, exercise: str) -> tuple[MaxTested, ...]:
        """Return one lifter's maxes of an exercise; the spelling's case does not matter."""
        wanted = (name_key(lifter), name_key(exercise))
        return tuple(
            one for one in self.tested if (name_key(one.lifter), name_key(one.exercise)) == wanted
        )

    def renamed(self, rename: Callable[[MaxTested], MaxTested]) -> RecordedMaxes:
        """Return the same maxes under other names."""
        return replace(self, tested=tuple(map(rename, self.tested)))

    def spelt(self, *, lifters: Iterable[str], exercises: Iterable[str]) -> RecordedMaxes:
        """Return the same maxes with each name spelt as given, else as last written."""
        names = {name_key(one.lifter): one.lifter for one in self.tested}
        names |= {name_key(name): name for name in lifters}
        works = {name_key(one.exercise): one.exercise for one in self.tested}
        works |= {name_key(name): name for name in exercises}
        return self.renamed(
            lambda one: one.model_copy(
                update={
                    "lifter": names[name_key(one.lifter)],
                    "exercise": works[name_key(one.exercise)],
                }
            )
        )

    def find(self, max_id: str) -> MaxTested:
        """Return the one max whose id begins so.

        Raises
        ------
        UnknownMax
            No max's id begins so, or more than one does.
        """
        found = [one for one in self.tested if one.id == max_id] or [
            one for one in self.tested if max_id and one.id.startswith(max_id)
        ]
        if len(found) == 1:
            return found[0]
        if found:
            message = f"{len(found)} maxes have an id that begins with {quoted(max_id)}"
        elif max_id in self.struck:
            message = f"the max {quoted(max_id)} is struck"
        else:
            message = f"no max has the id {quoted(max_id)}"
        raise UnknownMax(message, max_id=max_id, hint="'tempo-coach max' lists the ids")


def fold_maxes(facts: Iterable[MaxTested | MaxStruck]) -> RecordedMaxes:
    """Fold facts in any order, repeated or not, into the maxes that count."""
    tested: dict[str, MaxTested] = {}
    struck: set[str] = set()
    disagreeing: set[str] = set()
    for fact in facts:
        match fact:
            case MaxTested():
                known = tested.setdefault(fact.id, fact)
                if line_of(known) != line_of(fact):
                    disagreeing.add(fact.id)
                    tested[fact.id] = max(known, fact, key=_when_tested)
            case MaxStruck():
                struck.add(fact.id)
    return RecordedMaxes(
        tested=tuple(
            sorted((one for one in tested.values() if one.id not in struck), key=_when_tested)
        ),
        struck=frozenset(struck & tested.keys()),
        disagreeing=tuple(sorted(disagreeing)),
        orphaned=tuple(sorted(struck - tested.keys())),
    )


def _when_tested(tested: MaxTested) -> tuple[datetime, bytes]:
    # The line decides between tests of one moment, so that the order of reading never does.
    return tested.at, line_of(tested)
