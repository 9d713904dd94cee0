"""Today's state: a fold over the facts of one log or several."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from tempo_coach.core.facts import (
    Fact,
    SetCorrected,
    SetDone,
    SetStruck,
    line_of,
)
from tempo_coach.core.legible import name_key, quoted
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.recorded_reserve_tests import (
    RecordedReserveTests,
)
from tempo_coach.core.recorded_soreness import RecordedSoreness
from tempo_coach.core.session_facts import SessionChanged
from tempo_coach.core.whole_facts import WholeFacts
from tempo_coach.errors import UnknownSet


@dataclass(frozen=True, slots=True)
class History:
    """The sets that count, corrected, in the order they were done."""

    sets: tuple[SetDone, ...]
    struck: frozenset[str]
    """Ids of the sets that no longer count."""
    corrected: dict[str, datetime]
    """Ids of the sets that were corrected or measured, with the time when that was last."""
    measured: dict[str, SetMeasured]
    """Ids of the sets that were measured, with the latest measurement."""
    disagreeing: tuple[str, ...]
    """Ids under which two logs hold different sets; the one that ended later counts."""
    orphaned: tuple[str, ...]
    """Ids that are corrected, measured or struck, but under which no set was found."""
    changes: tuple[SessionChanged, ...]
    """What was changed in planned days, in the order of time."""
    maxes: RecordedMaxes
    """The maxes that were tested, those of the reserve tests too."""
    reserve_tests: RecordedReserveTests
    soreness: RecordedSoreness
    """What lifters told of theirs, day by day."""

    def of(self, lifter: str) -> tuple[SetDone, ...]:
        """Return one lifter's sets; the spelling's case does not matter."""
        key = name_key(lifter)
        return tuple(done for done in self.sets if name_key(done.lifter) == key)

    def lifters(self) -> tuple[str, ...]:
        """Return the names of the lifters, each as last written, in order of the alphabet."""
        names = {name_key(done.lifter): done.lifter for done in self.sets}
        return tuple(names[key] for key in sorted(names))

    def find(self, set_id: str) -> SetDone:
        """Return the one set whose id begins so.

        Raises
        ------
        UnknownSet
            No set's id begins so, or more than one does.
        """
        found = [done for done in self.sets if done.id == set_id] or [
            done for done in self.sets if set_id and done.id.startswith(set_id)
        ]
        if len(found) == 1:
            return found[0]
        hint = "'tempo-coach log' lists the ids"
        if found:
            message = f"{len(found)} sets have an id that begins with {quoted(set_id)}"
        elif set_id in self.struck:
            message = f"the set {quoted(set_id)} is struck"
        else:
            message = f"no set has the id {quoted(set_id)}"
        raise UnknownSet(message, set_id=set_id, hint=hint)


def fold(facts: Iterable[Fact]) -> History:
    """Fold facts in any order, repeated or not, into the sets that count."""
    done: dict[str, SetDone] = {}
    later: dict[str, list[SetCorrected | SetMeasured]] = {}
    struck: set[str] = set()
    disagreeing: set[str] = set()
    changes: dict[str, SessionChanged] = {}
    whole = WholeFacts()
    for fact in facts:
        match fact:
            case SetDone():
                known = done.setdefault(fact.id, fact)
                # By their lines: one moment with two offsets is two local dates.
                if known is not fact and line_of(known) != line_of(fact):
                    disagreeing.add(fact.id)
                    done[fact.id] = max(known, fact, key=lambda one: (one.ended_at, line_of(one)))
            case SetCorrected() | SetMeasured():
                later.setdefault(fact.id, []).append(fact)
            case SetStruck():
                struck.add(fact.id)
            case SessionChanged():
                changes[fact.id] = max(changes.get(fact.id, fact), fact, key=_when_changed)
            case _:
                whole.take(fact)
    latest: dict[str, datetime] = {}
    measured: dict[str, SetMeasured] = {}
    for set_id, several in later.items():
        if set_id in done:
            several.sort(key=lambda one: (one.at, line_of(one)))
            latest[set_id] = several[-1].at
            for one in several:
                given = one.given()
                if isinstance(one, SetMeasured):
                    measured[set_id] = one
                elif "seconds" in given:
                    measured.pop(set_id, None)
                done[set_id] = done[set_id].corrected(given)
    maxes, reserve_tests, soreness = whole.folded(struck=struck)
    return History(
        sets=tuple(
            sorted(
                (one for one in done.values() if one.id not in struck),
                key=lambda one: (one.started_at, one.id),
            )
        ),
        struck=frozenset(struck & done.keys()),
        corrected=latest,
        measured={set_id: one for set_id, one in measured.items() if set_id not in struck},
        disagreeing=tuple(sorted(disagreeing)),
        orphaned=tuple(sorted((later.keys() | struck) - done.keys())),
        changes=tuple(sorted(changes.values(), key=_when_changed)),
        maxes=maxes,
        reserve_tests=reserve_tests,
        soreness=soreness,
    )


def _when_changed(change: SessionChanged) -> tuple[datetime, bytes]:
    # The line decides between changes of one moment, so that the order of reading never does.
    return change.at, line_of(change)
