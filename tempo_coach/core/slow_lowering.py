"""Slow lowering under control, which is asked for before overloaded and before fast lowering."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from itertools import takewhile

from tempo_coach.core.adherence import Band
from tempo_coach.core.criterion import Criterion
from tempo_coach.core.facts import SetDone
from tempo_coach.core.marks import counted
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.set_adherence import set_adherence
from tempo_coach.core.tempo import Phase
from tempo_coach.core.weeks import IsoWeek, week_of


def slow_lowering_done(
    sets: Iterable[SetDone],
    measured: Mapping[str, SetMeasured],
    rules: DosingRules,
    today: date,
) -> Criterion:
    """Ask for slow sets done as written in each of the last weeks, this one or the one before.

    A set whose lower was measured and fell short was not.

    Parameters
    ----------
    sets
        One lifter's of one exercise.
    measured
        How some of them were measured, by their ids.
    rules
        The coach's criteria.
    today
        Weeks are counted back from here.
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
    in_a_row = sum(1 for _ in takewhile(whole.__contains__, asked))
    weeks = counted(rules.ready_weeks - in_a_row, "week")
    return Criterion(
        "slow lowering done",
        f"{counted(rules.ready_weeks, 'week')} in a row with a lower of "
        f"{rules.ready_lower_s:g} s or more, every rep done",
        in_a_row == rules.ready_weeks,
        f"{count} of the last {rules.ready_weeks}"
        + ("" if in_a_row == count else f", {in_a_row} in a row up to now"),
        "" if in_a_row == rules.ready_weeks else f"{weeks} more of slow lowering under control",
    )


def slow_lowering_on_tempo(
    sets: Iterable[SetDone],
    measured: Mapping[str, SetMeasured],
    rules: DosingRules,
    today: date,
) -> Criterion:
    """Ask how many of the measured slow lowers of the last weeks kept their time.

    The parameters are as for `slow_lowering_done`.
    """
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


def _is_slow(done: SetDone, rules: DosingRules) -> bool:
    """Tell whether a set trained slow lowers; a lost attempt of a test looks like a held one."""
    if done.method == MethodName.RESERVE_TEST or not done.shape.counts(Phase.LOWER):
        return False
    lower = done.tempo.lower
    return isinstance(lower, int) and lower >= rules.ready_lower_s * 1000


def _recent(sets: Iterable[SetDone], weeks: int, today: date) -> list[SetDone]:
    since = IsoWeek.of(today).before(weeks - 1).monday()
    return [one for one in sets if since <= one.started_at.date() <= today]


def _kept_lowers(done: SetDone, measured: SetMeasured | None, band: Band) -> tuple[int, int]:
    """Return how many lowers were not too short, and how many were measured."""
    kept = set_adherence(done, measured, band=band)
    if kept is None or kept.lower is None:
        return 0, 0
    lower = kept.lower
    return lower.measured - len(lower.short_by(band.of(lower.prescribed_ms))), lower.measured


def _fell_short(done: SetDone, measured: SetMeasured | None, band: Band) -> bool:
    kept = set_adherence(done, measured, band=band)
    return kept is not None and kept.is_lower_short
