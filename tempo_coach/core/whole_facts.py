"""Facts that are few beside the sets, so that they are kept whole: maxes, tests, soreness."""

from __future__ import annotations

from collections.abc import Collection
from typing import TypeAlias

from tempo_coach.core.facts import MaxStruck, MaxTested
from tempo_coach.core.recorded_maxes import RecordedMaxes, fold_maxes
from tempo_coach.core.recorded_reserve_tests import (
    RecordedReserveTests,
    ReserveFact,
    fold_reserve_tests,
)
from tempo_coach.core.recorded_soreness import RecordedSoreness, fold_soreness
from tempo_coach.core.reserve_facts import AttemptMade, ReserveBegun
from tempo_coach.core.soreness_facts import SorenessTold

WholeFact: TypeAlias = MaxTested | MaxStruck | ReserveBegun | AttemptMade | SorenessTold


class WholeFacts:
    """Takes them in any order, and folds them each in its own way."""

    def __init__(self) -> None:
        self._maxes: list[MaxTested | MaxStruck] = []
        self._tests: list[ReserveFact] = []
        self._told: list[SorenessTold] = []

    def take(self, fact: WholeFact) -> None:
        """Take one more."""
        match fact:
            case MaxTested() | MaxStruck():
                self._maxes.append(fact)
            case ReserveBegun() | AttemptMade():
                self._tests.append(fact)
            case SorenessTold():
                self._told.append(fact)

    def folded(
        self, *, struck: Collection[str]
    ) -> tuple[RecordedMaxes, RecordedReserveTests, RecordedSoreness]:
        """Return what counts: the maxes, those of the tests too, the tests, and the soreness.

        Parameters
        ----------
        struck
            Ids of sets that no longer count.
        """
        tests = fold_reserve_tests(self._tests, struck=struck)
        maxes = fold_maxes([*self._maxes, *tests.maxes()])
        return maxes, tests, fold_soreness(self._told)
