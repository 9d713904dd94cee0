"""Whether a lifter is ready for overloaded or for fast lowering: criteria, met or not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tempo_coach.core.adherence import Adherence, Band, adherence
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.marks import counted
from tempo_coach.core.maxes import KnownMax, reserve_maxes
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.reserve import Reserve
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.weeks import IsoWeek, week_of


@dataclass(frozen=True, slots=True)
class Criterion:
    """One thing that is asked for."""

    name: str
    """The same under any rules."""
    asked: str
    is_met: bool | None
    """None where nothing can be said."""
    evidence: str
    missing: str = ""
    """What to do about it; empty where it is met."""

    @property
    def state(self) -> str:
        """Whether it is met, in a few words."""
        return "can't be told" if self.is_met is None else "met" if self.is_met else "not met"

    @property
    def words(self) -> str:
        """What there is of it, and what is missing."""
        return f"{self.evidence}; missing: {self.missing}" if self.missing else self.evidence


@dataclass(frozen=True, slots=True)
class Readiness:
    """Whether one exercise can be done in a way that asks more of the lifter."""

    way: str
    """Overloaded lowering, or fast lowering."""
    exercise: str
    criteria: tuple[Criterion, ...]

    @property
    def is_ready(self) -> bool:
        """Nothing that can be told is missing."""
        return all(one.is_met is not False for one in self.criteria)

    @property
    def verdict(self) -> str:
        """Ready or not yet, in a word or two."""
        return "ready" if self.is_ready else "not yet"


def overload_readiness(
    exercise: str,
    *,
    sets: Sequence[SetDone],
    maxes: Sequence[KnownMax],
    rules: DosingRules,
    is_cleared: bool | None,
    today: date,
    measured: Mapping[str, SetMeasured] = NONE_MEASURED,
) -> Readiness:
    """Return what overloaded lowering of an exercise asks for, and what there is of it.

    Parameters
    ----------
    exercise
        The spelling's case does not matter.
    sets
        The lifter's, of any exercise.
    maxes
        The lifter's, of this exercise.
    rules
        The coach's criteria.
    is_cleared
        The coach's own word; None where nothing is said.
    today
        Weeks are counted back from here.
    measured
        How some of the sets were measured, by their ids.
    """
    own = _of(exercise, sets)
    criteria = (
        _control(own, measured, rules, today),
        _adherence(own, measured, rules, today),
        *_tested(maxes, rules, today),
        _clearance(is_cleared),
    )
    return Readiness("overloaded lowering", exercise, criteria)


def fast_readiness(
    exercise: str,
    *,
    sets: Sequence[SetDone],
    maxes: Sequence[KnownMax],
    rules: DosingRules,
    today: date,
    measured: Mapping[str, SetMeasured] = NONE_MEASURED,
) -> Readiness:
    """Return what fast lowering asks for; who can't lower slowly isn't ready to lower fast.

    The parameters are those of `overload_readiness`.
    """
    own = _of(exercise, sets)
    criteria = (
        _control(own, measured, rules, today),
        _adherence(own, measured, rules, today),
        _reserve(maxes, rules),
    )
    return Readiness("fast lowering", exercise, criteria)


def _of(exercise: str, sets: Iterable[SetDone]) -> list[SetDone]:
    return [one for one in sets if name_key(one.exercise) == name_key(exercise)]


def _is_slow(done: SetDone, rules: DosingRules) -> bool:
    lower = done.tempo.lower
    return isinstance(lower, int) and lower >= rules.ready_lower_s * 1000


def _recent(sets: Iterable[SetDone], weeks: int, today: date) -> list[SetDone]:
    since = IsoWeek.of(today).before(weeks - 1).monday()
    return [one for one in sets if since <= one.started_at.date() <= today]


def _control(
    sets: Iterable[SetDone],
    measured: Mapping[str, SetMeasured],
    rules: DosingRules,
    today: date,
) -> Criterion:
    """Ask for slow sets done as written in each of the last weeks, this one or the one before.

    A set whose lower was measured and fell short was not.
    """
    whole = {
        week_of(one)
        for one in sets
        if _is_slow(one, rules)
        and one.reps_prescribed is not None
        and one.reps_done >= one.reps_prescribed
        and not _fell_short(one, measured.get(one.id), rules.band)
    }
    this = IsoWeek.of(today)
    last = this if this in whole else this.before()
    asked = [last.before(back) for back in range(rules.ready_weeks)]
    count = sum(week in whole for week in asked)
    return Criterion(
        "slow lowering done",
        f"{counted(rules.ready_weeks, 'week')} in a row with a lower of "
        f"{rules.ready_lower_s:g} s or more, every rep done",
        count == rules.ready_weeks,
        f"{count} of the last {rules.ready_weeks}",
        ""
        if count == rules.ready_weeks
        else f"{counted(rules.ready_weeks - count, 'week')} more of slow lowering under control",
    )


def _adherence(
    sets: Iterable[SetDone],
    measured: Mapping[str, SetMeasured],
    rules: DosingRules,
    today: date,
) -> Criterion:
    name = "slow lowering on tempo"
    asked = (
        f"{rules.ready_kept_percent:g}% of measured slow lowers short by no more than "
        f"{rules.on_tempo_percent:g}% or {rules.on_tempo_s:g} s"
    )
    counts = [
        _kept_lowers(one, measured.get(one.id), rules.band)
        for one in _recent(sets, rules.ready_weeks, today)
        if one.timing != "paced" and _is_slow(one, rules)
    ]
    kept, lowers = (sum(column) for column in zip(*counts, strict=True)) if counts else (0, 0)
    if not lowers:
        return Criterion(name, asked, None, "nothing was measured: paced sets count as if kept")
    is_met = kept * 100 >= rules.ready_kept_percent * lowers
    return Criterion(
        name,
        asked,
        is_met,
        f"{kept} of {counted(lowers, 'lower')} in {counted(len(counts), 'set')}",
        "" if is_met else "a load at which the lower keeps its time",
    )


def _kept_lowers(done: SetDone, measured: SetMeasured | None, band: Band) -> tuple[int, int]:
    """Return how many lowers were not too short, and how many were measured."""
    lower = _kept(done, measured, band).lower
    if lower is None:
        return 0, 0
    return lower.measured - len(lower.short_by(band.of(lower.prescribed_ms))), lower.measured


def _fell_short(done: SetDone, measured: SetMeasured | None, band: Band) -> bool:
    return done.timing != "paced" and _kept(done, measured, band).is_lower_short


def _kept(done: SetDone, measured: SetMeasured | None, band: Band) -> Adherence:
    """Return how a set was kept; measured as a whole, each of its lowers counts as their mean."""
    if measured is None:
        mean_ms = round(done.seconds.lower * 1000 / max(done.reps_done, 1))
        reps = (MeasuredRep(mean_ms, None, None, None),) * done.reps_done
    else:
        reps = measured.measured_reps()
    return adherence(reps, tempo=done.tempo, shape=done.shape, band=band)


def _tested(
    maxes: Sequence[KnownMax], rules: DosingRules, today: date
) -> tuple[Criterion, Criterion]:
    since = today - timedelta(weeks=rules.ready_max_weeks)
    criteria = []
    for what, words in (("lifted", "1RM"), ("lowered", "greatest load lowered")):
        tests = [one for one in maxes if one.what == what]
        is_recent = bool(tests) and tests[-1].on >= since
        evidence = "never tested"
        if tests:
            evidence = f"{tests[-1].load} on {tests[-1].on.isoformat()}"
        criteria.append(
            Criterion(
                f"{words} tested",
                f"{words} tested in the last {counted(rules.ready_max_weeks, 'week')}",
                is_recent,
                evidence,
                "" if is_recent else f"a test of the {words}, with spotters or safety pins",
            )
        )
    return criteria[0], criteria[1]


def _clearance(is_cleared: bool | None) -> Criterion:
    evidence = {True: "cleared", False: "not cleared", None: "the plan says nothing"}[is_cleared]
    missing = "" if is_cleared else "the coach's word, in the plan"
    return Criterion("cleared", "cleared by the coach", is_cleared is True, evidence, missing)


def _reserve(maxes: Sequence[KnownMax], rules: DosingRules) -> Criterion:
    name = "reserve"
    asked = f"a reserve of {rules.ready_reserve_percent:g}% of the 1RM"
    rests_on = reserve_maxes(maxes)
    if rests_on is None:
        return Criterion(name, asked, False, "never tested", "a reserve test")
    lowered, lifted = rests_on
    reserve = Reserve(lowered.load_kg, lifted.load_kg)
    is_met = reserve.ratio * 100 >= rules.ready_reserve_percent
    needed_kg = rules.ready_reserve_percent / 100 * lifted.load_kg - lowered.load_kg
    return Criterion(
        name,
        asked,
        is_met,
        f"{reserve.ratio:.0%}: {lowered.load} lowered, {lifted.load} lifted",
        "" if is_met else f"{needed_kg:.1f} kg more lowered under control",
    )
