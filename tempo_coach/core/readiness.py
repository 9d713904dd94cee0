"""Whether a lifter is ready for overloaded or for fast lowering: criteria, met or not."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tempo_coach.core.criterion import Criterion
from tempo_coach.core.emphasis import OVERLOAD_BREAK_WEEKS, overload_run
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.marks import counted
from tempo_coach.core.maxes import KnownMax, reserve_maxes
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.reserve import Reserve
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.slow_lowering import slow_lowering_done, slow_lowering_on_tempo
from tempo_coach.core.weeks import IsoWeek


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
    overloaded: Collection[IsoWeek],
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
    overloaded
        The weeks in which the lifter lowered more than could be raised, of any exercise.
    today
        Weeks are counted back from here.
    measured
        How some of the sets were measured, by their ids.
    """
    own = _of(exercise, sets)
    criteria = (
        slow_lowering_done(own, measured, rules, today),
        slow_lowering_on_tempo(own, measured, rules, today),
        *_tested(maxes, rules, today),
        _break(overloaded, rules, today),
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

    The parameters are as for `overload_readiness`.
    """
    own = _of(exercise, sets)
    criteria = (
        slow_lowering_done(own, measured, rules, today),
        slow_lowering_on_tempo(own, measured, rules, today),
        _reserve(maxes, rules, today),
    )
    return Readiness("fast lowering", exercise, criteria)


def _of(exercise: str, sets: Iterable[SetDone]) -> list[SetDone]:
    return [one for one in sets if name_key(one.exercise) == name_key(exercise)]


def _tested(
    maxes: Sequence[KnownMax], rules: DosingRules, today: date
) -> tuple[Criterion, Criterion]:
    criteria = []
    for what, words in (("lifted", "1RM"), ("lowered", "greatest load lowered")):
        tests = [one for one in maxes if one.what == what]
        is_recent = bool(tests) and _is_recent(tests[-1], rules, today)
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


def _is_recent(tested: KnownMax, rules: DosingRules, today: date) -> bool:
    return tested.on >= today - timedelta(weeks=rules.ready_max_weeks)


def _break(overloaded: Collection[IsoWeek], rules: DosingRules, today: date) -> Criterion:
    """Ask whether one week more of overload, this one or else the next, is not one too many."""
    this = IsoWeek.of(today)
    ahead = this.before(-1) if this in overloaded else this
    run = overload_run([*overloaded, ahead], ahead) - 1
    is_met = run < rules.overload_weeks
    last = max((week for week in overloaded if week < ahead), default=None)
    evidence = "none of late"
    if run:
        evidence = f"{counted(run, 'week')} without that break, overload last in {last}"
    return Criterion(
        "break from overload",
        f"no more than {counted(rules.overload_weeks, 'week')} of overload without a break of "
        f"{counted(OVERLOAD_BREAK_WEEKS, 'week')}",
        is_met,
        evidence,
        "" if is_met else f"{counted(OVERLOAD_BREAK_WEEKS, 'week')} without overload after {last}",
    )


def _clearance(is_cleared: bool | None) -> Criterion:
    evidence = {True: "cleared", False: "not cleared", None: "the plan says nothing"}[is_cleared]
    missing = "" if is_cleared else "the coach's word, in the plan"
    return Criterion("cleared", "cleared by the coach", is_cleared is True, evidence, missing)


def _reserve(maxes: Sequence[KnownMax], rules: DosingRules, today: date) -> Criterion:
    name = "reserve"
    asked = (
        f"a reserve of {rules.ready_reserve_percent:g}% of the 1RM, tested in the last "
        f"{counted(rules.ready_max_weeks, 'week')}"
    )
    rests_on = reserve_maxes(maxes)
    if rests_on is None:
        return Criterion(name, asked, False, "never tested", "a reserve test")
    lowered, lifted = rests_on
    reserve = Reserve(lowered.load_kg, lifted.load_kg)
    needed_kg = rules.ready_reserve_percent / 100 * lifted.load_kg - lowered.load_kg
    missing = ""
    if reserve.ratio * 100 < rules.ready_reserve_percent:
        missing = f"{needed_kg:.1f} kg more lowered under control"
    elif not all(_is_recent(one, rules, today) for one in rests_on):
        missing = "a newer reserve test"
    return Criterion(
        name,
        asked,
        not missing,
        f"{reserve.ratio:.0%}: {lowered.load} lowered on {lowered.on.isoformat()}, {lifted.load} "
        f"lifted on {lifted.on.isoformat()}",
        missing,
    )
