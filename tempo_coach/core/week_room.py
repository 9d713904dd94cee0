"""What a week's limits of lowering-emphasis work leave, and what goes over them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible
from tempo_coach.core.movement_groups import movement_group
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.prescribed_set import prescribed_set
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.season import Season
from tempo_coach.core.season_table import LOAD, SECONDS, Measure, is_emphasis_set, kg_s, lower_s
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.timeline import rep_times
from tempo_coach.core.weeks import IsoWeek, week_of
from tempo_coach.core.work import WorkDone

_SECONDS, _LOAD = (SECONDS, "lowering emphasis"), (LOAD, "lowering load")
_NEXT = "With the next set the week has"


@dataclass(frozen=True, slots=True)
class _Over:
    """One measure in which a week comes to have more than its limit, in whole units."""

    has: int
    limit: int
    unit: str
    of: str
    whom: str
    """Of which movement group; empty where it is all of the week."""
    why: str

    def sentence(self, begin: str, others: Sequence[_Over], *, says_why: bool) -> str:
        """Say this in full, and of other measures the figures alone."""
        why = f" ({self.why})" if says_why else ""
        in_full = (
            f"{begin} {self.has:,} {self.unit} of {self.of}{self.whom}, "
            f"{self.has - self.limit:,} {self.unit} over its limit of {self.limit:,} "
            f"{self.unit}{why}"
        )
        figures = (
            f"{one.has:,} {one.unit}{one.whom}, {one.has - one.limit:,} over {one.limit:,}"
            for one in others
        )
        return f"{'; '.join([in_full, *figures])}."


@dataclass(frozen=True, slots=True)
class WeekRoom:
    """What is left of one lifter's week: of seconds, of load, and of movement groups.

    Work that is not lowering emphasis takes nothing of it, and is told nothing.
    """

    at: datetime
    """The moment."""
    week: IsoWeek
    lower_s: Measure
    kg_s: Measure
    groups: Mapping[str, Measure]
    """Lowering seconds of the movement groups that are limited by themselves."""
    rules: DosingRules
    allowances: Allowances
    """What stands in for X, V and A."""

    @classmethod
    def of(cls, season: Season, *, at: datetime, allowances: Allowances) -> WeekRoom | None:
        """Return what is left of the week that a season calls this one; None where it has none."""
        row = season.this_week
        if row is None:
            return None
        week = row.week.week
        return cls(at, week, row.lower_s, row.kg_s, row.groups, season.rules, allowances)

    def after(self, sets: Iterable[SetDone]) -> WeekRoom:
        """Return what is left once some sets more were done; those of other weeks take nothing."""
        more = tuple(sets)
        counted = [one for one in more if self._counts(one)]
        groups = {
            group: measure.plus(lower_s(one) for one in counted if self._group(one) == group)
            for group, measure in self.groups.items()
        }
        return replace(
            self,
            at=max([self.at, *(one.ended_at for one in more)]),
            lower_s=self.lower_s.plus(map(lower_s, counted)),
            kg_s=self.kg_s.plus(map(kg_s, counted)),
            groups=groups,
        )

    def before_line(
        self, line: Prescription, *, first: int = 1, load_kg: float | None = None
    ) -> tuple[str, ...]:
        """Say what the next set of a line goes over, or else from which later one on it does.

        Parameters
        ----------
        line
            What is to be done; a set of it that runs until it is stopped counts one rep.
        first
            The number of its next set.
        load_kg
            The load in kg where the line alone does not say it.
        """
        ahead = self._ahead(line, load_kg)
        for number in range(first, line.sets + 1):
            if over := self._over(ahead, sets=number - first + 1):
                begin = f"Set {number} takes the week to" if number > first else _NEXT
                return (over[0].sentence(begin, over[1:], says_why=True),)
        return ()

    def before_set(
        self, line: Prescription, *, done: Sequence[SetDone], load_kg: float | None = None
    ) -> tuple[str, ...]:
        """Say what a further set of a line goes over.

        Parameters
        ----------
        line, load_kg
            As for `before_line`.
        done
            What was done since, in order; where one of these went over, the reason was said.
        """
        room = self.after(done)
        ahead = room._ahead(line, load_kg)
        over = room._over(ahead)
        if not over:
            return ()
        rooms = (self.after(done[:count]) for count in range(len(done)))
        told = {(one.of, one.whom) for room in rooms for one in room._over(ahead)}
        first, *others = over
        return (first.sentence(_NEXT, others, says_why=(first.of, first.whom) not in told),)

    def _ahead(self, line: Prescription, load_kg: float | None) -> SetDone:
        """Return a set of a line as the log would have it."""
        reps = line.reps or 1
        times = rep_times(line.tempo, self.allowances, line.shape).times(reps)
        return prescribed_set(
            line,
            WorkDone(reps, times),
            set_id="ahead",
            lifter="ahead",
            started_at=self.at,
            ended_at=self.at,
            timing="paced",
            load_kg=load_kg,
        )

    def _over(self, ahead: SetDone, *, sets: int = 1) -> list[_Over]:
        """Return what goes over with so many sets like one, of the measures that it counts in."""
        if not self._counts(ahead):
            return []
        return [one for one in self._after_all(ahead, sets) if one.has > one.limit]

    def _after_all(self, ahead: SetDone, sets: int) -> Iterator[_Over]:
        group = self._group(ahead)
        measures = [
            (self.lower_s, lower_s(ahead), _SECONDS, ""),
            (self.kg_s, kg_s(ahead), _LOAD, ""),
        ]
        if group is not None and group in self.groups:
            of_group = self.groups[group]
            measures.append((of_group, lower_s(ahead), _SECONDS, f" for {legible(group)}"))
        for measure, each, (unit, of), whom in measures:
            if measure.limit is not None and each > 0:
                # Rounded first, so that what is said adds up.
                has, limit = round(measure.done + each * sets), round(measure.limit)
                yield _Over(has, limit, unit, of, whom, _why(measure))

    def _counts(self, done: SetDone) -> bool:
        return week_of(done) == self.week and is_emphasis_set(done, self.rules)

    def _group(self, done: SetDone) -> str | None:
        return movement_group(done.exercise, more=self.rules.groups)


def _why(measure: Measure) -> str:
    why = measure.level.why
    if not measure.share:
        return "the calendar takes all of it out"
    return why if measure.share == 1 else f"{why}, of which the calendar leaves {measure.share:.0%}"
