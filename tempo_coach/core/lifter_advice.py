"""What can be advised to one lifter: who is ready for more, and what next week could hold."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tempo_coach.core.emphasis import overloads
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.next_week import next_week
from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_days import days_of
from tempo_coach.core.proposed_lines import ProposedLine
from tempo_coach.core.readiness import Readiness, fast_readiness, overload_readiness
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.season import Season, lifter_season
from tempo_coach.core.season_table import WeekLimit, is_emphasis_set
from tempo_coach.core.set_rows import NONE_MEASURED, SetRows
from tempo_coach.core.strength import LifterRecord
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.weeks import IsoWeek, week_of

_LONG_AGO_WEEKS = 2
"""Work so old or older is not simply gone on with. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """Next week, as it could be."""

    follows: IsoWeek | None
    """The week whose work it follows from; None where there are no sets to go by."""
    limits: tuple[WeekLimit, ...]
    """How much lowering emphasis it may hold, as far as that is known."""
    lines: tuple[ProposedLine, ...]
    """None where there are no sets to go by."""
    weeks_old: int = 0
    """How many weeks before this one that work was done."""

    @property
    def caution(self) -> str:
        """What to think of where that work was done long ago; else empty."""
        if self.weeks_old < _LONG_AGO_WEEKS:
            return ""
        return (
            f"That work is {self.weeks_old} weeks old: who comes back begins with less load than "
            "then, and after an illness or an injury asks a clinician first."
        )

    @property
    def limit_words(self) -> str:
        """The limits in a few words."""
        if not self.limits:
            return "no limit known"
        return f"lowering emphasis up to {', '.join(map(str, self.limits))}"


@dataclass(frozen=True, slots=True)
class LifterAdvice:
    """What advice to one lifter rests on: season, sets, maxes and the coach's word."""

    season: Season
    record: LifterRecord
    sets: Sequence[SetDone]
    """In the order they were done."""
    measured: Mapping[str, SetMeasured]
    """How some of them were measured, by their ids."""
    written: Sequence[str]
    """The exercises that the plan's days give the lifter, in their order."""
    overloaded: Collection[IsoWeek]
    """The weeks up to today in which the lifter lowered more than could be raised."""

    @classmethod
    def of(
        cls,
        plan: Plan | None,
        lifter: str,
        *,
        sets: Sequence[SetDone],
        maxes: RecordedMaxes,
        today: date,
        measured: Mapping[str, SetMeasured] = NONE_MEASURED,
    ) -> LifterAdvice:
        """Put together what plan and log know of a lifter.

        Parameters
        ----------
        plan
            None where there is none; one that does not have the lifter says nothing.
        lifter
            The spelling's case does not matter.
        sets
            The lifter's, in the order they were done.
        maxes
            Those of the log, of all lifters.
        today
            The lifter's date.
        measured
            How some of the sets were measured, by their ids.
        """
        person = plan.lifter(lifter) if plan is not None and plan.has(lifter) else None
        days = () if plan is None or person is None else days_of(plan, person.name)
        record = LifterRecord(lifter if person is None else person.name, person, maxes)
        done = (one for one in sets if one.started_at.date() <= today)
        return cls(
            lifter_season(plan, lifter, sets=sets, today=today),
            record,
            sets,
            measured,
            tuple(work.prescription.exercise for day in days for work in day.work),
            frozenset(map(week_of, overloads(done, record=record, allowances=Allowances()))),
        )

    def exercises(self) -> tuple[str, ...]:
        """Return what plan and log name for the lifter, each as last written, by alphabet.

        That is what the plan's days hold, what was tested and what was done; of anything else
        nothing can be said but that it is not known.
        """
        tested = (exercise for _, exercise in self.record.tested())
        done = (one.exercise for one in self.sets)
        names = {name_key(exercise): exercise for exercise in (*self.written, *tested, *done)}
        return tuple(names[key] for key in sorted(names))

    def _done(self) -> list[SetDone]:
        """Return the sets up to today; later ones say nothing yet of what can be advised."""
        return [one for one in self.sets if one.started_at.date() <= self.season.today]

    def readiness(self, exercise: str) -> tuple[Readiness, Readiness]:
        """Return whether overloaded and whether fast lowering of an exercise could begin."""
        person, season, done = self.record.planned, self.season, self._done()
        maxes = [one for one in self.record.known(exercise) if one.on <= season.today]
        return (
            overload_readiness(
                exercise,
                sets=done,
                maxes=maxes,
                rules=season.rules,
                is_cleared=None if person is None else person.overload,
                overloaded=self.overloaded,
                today=season.today,
                measured=self.measured,
            ),
            fast_readiness(
                exercise,
                sets=done,
                maxes=maxes,
                rules=season.rules,
                today=season.today,
                measured=self.measured,
            ),
        )

    def judged_exercises(self) -> tuple[str, ...]:
        """Return those with lowering-emphasis work or a tested max by today, the latest first."""
        rules = self.season.rules
        done = (
            (one.started_at.date(), one.exercise)
            for one in self.sets
            if is_emphasis_set(one, rules)
        )
        latest = {
            name_key(exercise): (day, exercise)
            for day, exercise in sorted((*self.record.tested(), *done))
            if day <= self.season.today
        }
        by_day = sorted(latest.items(), key=lambda one: (-one[1][0].toordinal(), one[0]))
        return tuple(exercise for _, (_, exercise) in by_day)

    def proposal(self, allowances: Allowances) -> Proposal:
        """Propose next week's lines from those of the last week up to today that has sets.

        Attempts of a reserve test are no work to be repeated.
        """
        season = self.season
        done = [one for one in self._done() if one.method != MethodName.RESERVE_TEST]
        # By the date, since a set done later may be of an earlier date in another time zone.
        week = max(map(week_of, done), default=None)
        ahead = season.row_of(IsoWeek.of(season.today + timedelta(weeks=1)))
        limits = () if ahead is None else ahead.limits()
        last = [one for one in done if week_of(one) == week]
        lines = next_week(
            last,
            earlier=[one for one in done if week_of(one) != week],
            limits=limits,
            rules=season.rules,
            overloads=overloads(last, record=self.record, allowances=allowances),
            may_overload=lambda exercise: self.readiness(exercise)[0].is_ready,
            allowances=allowances,
            measured=self.measured,
        )
        this = IsoWeek.of(season.today)
        weeks_old = 0 if week is None else (this.monday() - week.monday()) // timedelta(weeks=1)
        return Proposal(week, limits, lines, weeks_old)


def logged_advice(
    plan: Plan | None, lifter: str, *, logs: MergedLogs, rows: SetRows, today: date
) -> LifterAdvice:
    """Put together what plan and logs know of a lifter.

    Parameters
    ----------
    plan, lifter, today
        As for `LifterAdvice.of`.
    logs
        Where whole sets are read again.
    rows
        The lifter's.
    """
    found = tuple(logs.measured_sets(rows))
    return LifterAdvice.of(
        plan,
        lifter,
        sets=[done for done, _ in found],
        maxes=logs.maxes,
        today=today,
        measured={done.id: measured for done, measured in found if measured is not None},
    )
