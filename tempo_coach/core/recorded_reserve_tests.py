"""The reserve tests of one log or several: a fold over their facts."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TypeAlias, TypeVar

from tempo_coach.core.facts import MaxTested, line_of
from tempo_coach.core.legible import name_key
from tempo_coach.core.reserve_facts import AttemptMade, ReserveBegun
from tempo_coach.core.reserve_test import ReserveTest

ReserveFact: TypeAlias = ReserveBegun | AttemptMade
_Either = TypeVar("_Either", ReserveBegun, AttemptMade)


@dataclass(frozen=True, slots=True)
class RecordedReserveTests:
    """Reserve tests with their attempts that count, in the order they were begun."""

    tests: tuple[ReserveTest, ...] = ()
    disagreeing: tuple[str, ...] = ()
    """Ids under which two logs hold different facts; the later one counts."""
    orphaned: tuple[str, ...] = ()
    """Ids of tests that attempts name, but that were not found."""

    def of(self, lifter: str, exercise: str) -> tuple[ReserveTest, ...]:
        """Return one lifter's tests of an exercise; the spelling's case does not matter."""
        wanted = (name_key(lifter), name_key(exercise))
        return tuple(
            one
            for one in self.tests
            if (name_key(one.begun.lifter), name_key(one.begun.exercise)) == wanted
        )

    def maxes(self) -> tuple[MaxTested, ...]:
        """Return the lowered maxes that the tests which are over give."""
        return tuple(found for one in self.tests if (found := one.lowered_max()) is not None)

    def renamed(self, rename: Callable[[ReserveTest], ReserveTest]) -> RecordedReserveTests:
        """Return the same tests under other names."""
        return replace(self, tests=tuple(map(rename, self.tests)))


def fold_reserve_tests(
    facts: Iterable[ReserveFact], *, struck: Collection[str]
) -> RecordedReserveTests:
    """Fold facts in any order, repeated or not, into tests with the attempts that count.

    Parameters
    ----------
    facts
        Of one log or several.
    struck
        Ids of sets that no longer count: neither do their attempts.
    """
    begun: dict[str, ReserveBegun] = {}
    made: dict[str, AttemptMade] = {}
    disagreeing: set[str] = set()
    for fact in facts:
        match fact:
            case ReserveBegun():
                _keep(begun, fact, disagreeing)
            case AttemptMade():
                _keep(made, fact, disagreeing)
    # The latest answer about one set counts, or about one load where no set was begun.
    answers: dict[tuple[str, str | float], AttemptMade] = {}
    for one in sorted(made.values(), key=_when):
        answers[one.test, one.load_kg if one.set is None else one.set] = one
    by_test: dict[str, list[AttemptMade]] = {}
    for one in sorted(answers.values(), key=_when):
        if one.set not in struck:
            by_test.setdefault(one.test, []).append(one)
    return RecordedReserveTests(
        tests=tuple(
            ReserveTest(one, tuple(by_test.get(one.id, ())))
            for one in sorted(begun.values(), key=_when)
        ),
        disagreeing=tuple(sorted(disagreeing)),
        orphaned=tuple(sorted({one.test for one in made.values()} - begun.keys())),
    )


def _keep(known: dict[str, _Either], fact: _Either, disagreeing: set[str]) -> None:
    before = known.setdefault(fact.id, fact)
    if line_of(before) != line_of(fact):
        disagreeing.add(fact.id)
        known[fact.id] = max(before, fact, key=_when)


def _when(fact: ReserveFact) -> tuple[datetime, bytes]:
    # The line decides between facts of one moment, so that the order of reading never does.
    return fact.at, line_of(fact)
