"""A proposal for next week: which sets to add, keep and cut; for the coach to take or to edit."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from statistics import mean

from tempo_coach.core.adherence import adherence
from tempo_coach.core.emphasis import is_emphasis
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.prescription import MOST_SETS, Prescription
from tempo_coach.core.proposed_lines import ProposedLine, Step
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.tempo import Allowances, Phase, parse_tempo
from tempo_coach.core.timeline import rep_times
from tempo_coach.errors import OutOfRange

HARD_FROM = 9.5
"""An effort from here on leaves less than one rep."""
EASY_TO = 8.0
"""An effort up to here leaves two reps or more: room for a set."""
LADDER = ("5-1-2-1", "4-1-1-1", "3-1-1-0", "2-0-1-0")
"""Tempos for a new lift, from the slowest on. Common practice, no source."""
_LIGHTER = Decimal("0.95")
"""Common practice, no source; progress goes by 2 to 10 % (ACSM position stand, 2009)."""
_LEAST_STEPS = {
    LoadUnit.KG: Decimal("2.5"),
    LoadUnit.LB: Decimal(5),
    LoadUnit.PERCENT: Decimal("2.5"),
}
LEARNING_DAYS = 42
"""A lift is new for six weeks from its first set. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class _Done:
    """The sets of one day that are of one line."""

    line: Prescription
    sets: tuple[SetDone, ...]
    is_emphasis: bool
    lower_s: float
    """Of one set of the line."""

    @property
    def day(self) -> date:
        """The day on which they were done."""
        return self.sets[0].started_at.date()

    @property
    def effort(self) -> float | None:
        """The mean of those told; None where none was."""
        told = [one.effort for one in self.sets if one.effort is not None]
        return mean(told) if told else None

    @property
    def is_whole(self) -> bool:
        """Every rep was done."""
        return all(
            one.reps_prescribed is None or one.reps_done >= one.reps_prescribed for one in self.sets
        )


def next_week(
    last: Sequence[SetDone],
    *,
    earlier: Sequence[SetDone],
    limit_s: float | None,
    rules: DosingRules,
    overloads: Collection[SetDone],
    may_overload: Callable[[str], bool],
    allowances: Allowances,
    measured: Mapping[str, SetMeasured] = NONE_MEASURED,
) -> tuple[ProposedLine, ...]:
    """Propose next week's lines from those of the last one.

    Overload that the lifter isn't ready for is left out, lines whose lower fell short of its tempo
    get less load, and those that were too hard or not done as written lose a set. The week is cut
    to its limit from the hardest line on, and what room is left goes to the easiest line. A new
    lift climbs the ladder of tempos.

    Parameters
    ----------
    last
        One lifter's sets of the last week.
    earlier
        All of the lifter's sets before it.
    limit_s
        Lowering seconds of emphasis work that the week may hold; None where no limit is known.
    rules
        How the work is dosed.
    overloads
        Those of the last week's sets that lowered more than the lifter could raise.
    may_overload
        Tells of an exercise whether overload is ready to be done.
    allowances
        What stands in for X, V and A.
    measured
        How some of the sets were measured, by their ids.
    """
    slow_from_ms = round(rules.emphasis_from_s * 1000)
    done = [
        _Done(line, tuple(sets), is_emphasis(line.tempo, line.shape, slow_from_ms=slow_from_ms),
              rep_times(line.tempo, allowances, line.shape).lower_ms * _reps(line, sets) / 1000)
        for line, sets in _lines(last)
    ]  # fmt: skip
    drafts = [
        _not_ready(one)
        if any(each in overloads for each in one.sets) and not may_overload(one.line.exercise)
        else _first_draft(one, earlier, _short_words(one, measured, rules))
        for one in done
    ]
    if limit_s is not None:
        drafts = _within(drafts, done, limit_s)
    return tuple(drafts)


def _lines(sets: Iterable[SetDone]) -> list[tuple[Prescription, list[SetDone]]]:
    """Put sets that are alike into lines, in the order in which they were done."""
    grouped: dict[tuple[object, ...], list[SetDone]] = {}
    for one in sets:
        key = (
            *(one.started_at.date(), name_key(one.exercise), one.tempo, one.shape),
            *(one.load_as_written, one.method, one.reps_prescribed),
        )
        grouped.setdefault(key, []).append(one)
    return [(_line(alike), alike) for alike in grouped.values()]


def _line(alike: Sequence[SetDone]) -> Prescription:
    first = alike[0]
    return Prescription(
        exercise=first.exercise,
        sets=min(len(alike), MOST_SETS),
        reps=first.reps_prescribed,
        load=_load(first),
        tempo=first.tempo,
        rest_ms=None,
        lead=Phase(first.lead),
        shape=first.shape,
        method=MethodName(first.method) if first.method in set(MethodName) else None,
    )


def _load(done: SetDone) -> Load | None:
    try:
        return parse_load(done.load_as_written)
    except OutOfRange:
        return None


def _reps(line: Prescription, sets: Sequence[SetDone]) -> float:
    return line.reps or mean(one.reps_done for one in sets)


def _not_ready(one: _Done) -> ProposedLine:
    reason = "not ready for overload: see 'tempo-coach ready'"
    return ProposedLine(Step.CUT, None, one.line, one.day, reason)


def _first_draft(one: _Done, earlier: Sequence[SetDone], short: str) -> ProposedLine:
    line = one.line
    if short:
        return _lighter(one, short)
    if (rung := _next_rung(one, earlier)) is not None:
        return rung
    if not one.is_whole:
        return _less(one, "not every rep was done as written")
    if one.effort is not None and one.effort >= HARD_FROM:
        return _less(one, f"an effort of {one.effort:g} leaves no rep")
    return ProposedLine(Step.KEEP, line, line, one.day, "done as written")


def _short_words(one: _Done, measured: Mapping[str, SetMeasured], rules: DosingRules) -> str:
    """Say how many lowers of a line fell short; empty where the load is not too heavy for it."""
    kept = [
        adherence(found.measured_reps(), tempo=done.tempo, shape=done.shape, band=rules.band)
        for done in one.sets
        if (found := measured.get(done.id)) is not None
    ]
    if not any(each.is_lower_short for each in kept):
        return ""
    lowers = [each.lower for each in kept if each.lower is not None]
    short = sum(len(each.short_by(rules.band.of(each.prescribed_ms))) for each in lowers)
    return (
        f"too heavy for its tempo: {short} of {sum(each.measured for each in lowers)} measured "
        "lowers fell short"
    )


def _lighter(one: _Done, reason: str) -> ProposedLine:
    """Take a twentieth off a load that stands on the line by itself; else ask for it."""
    load = one.line.load
    least = None if load is None else _LEAST_STEPS[load.unit]
    if load is None or least is None or load.on_body or load.amount <= least:
        return ProposedLine(Step.KEEP, one.line, one.line, one.day, f"{reason}; take less load")
    amount = load.amount * _LIGHTER // least * least or least
    line = replace(one.line, load=replace(load, amount=amount))
    return ProposedLine(Step.CHANGE, line, one.line, one.day, reason)


def _less(one: _Done, reason: str) -> ProposedLine:
    if one.line.sets == 1:
        return ProposedLine(Step.KEEP, one.line, one.line, one.day, f"{reason}; take less load")
    shorter = replace(one.line, sets=one.line.sets - 1)
    return ProposedLine(Step.CUT, shorter, one.line, one.day, f"{reason}: a set less")


def _next_rung(one: _Done, earlier: Sequence[SetDone]) -> ProposedLine | None:
    """Return the next tempo of the ladder for a new lift that stands on it; None else."""
    line = one.line
    rungs = [parse_tempo(text) for text in LADDER]
    if line.tempo not in rungs or line.shape:
        return None
    own = [past for past in earlier if name_key(past.exercise) == name_key(line.exercise)]
    first: date = min(past.started_at.date() for past in (*own, *one.sets))
    if (one.sets[-1].started_at.date() - first).days > LEARNING_DAYS:
        return None
    place = rungs.index(line.tempo)
    is_easy = one.effort is not None and one.effort <= EASY_TO
    if not one.is_whole or not is_easy or place + 1 == len(rungs):
        return None
    quicker = rungs[place + 1]
    reason = f"a new lift, done as written and easily: from {line.tempo} to {quicker}"
    return ProposedLine(Step.CHANGE, replace(line, tempo=quicker), line, one.day, reason)


def _within(
    drafts: list[ProposedLine], done: Sequence[_Done], limit_s: float
) -> list[ProposedLine]:
    """Cut drafts to the limit from the hardest on, or give what room is left to the easiest."""
    drafts = list(drafts)
    by_effort = sorted(
        (place for place, one in enumerate(done) if one.is_emphasis),
        key=lambda place: -(done[place].effort or EASY_TO),
    )
    while (over_s := _sum_s(drafts, done) - limit_s) > 0:
        place = next((place for place in by_effort if drafts[place].line is not None), None)
        if place is None:
            return drafts
        drafts[place] = _cut(drafts[place], f"{over_s:.0f} s over the limit of {limit_s:.0f} s")
    for place in reversed(by_effort):
        line, effort = drafts[place].line, done[place].effort
        is_easy = effort is not None and effort <= EASY_TO
        fits = _sum_s(drafts, done) + done[place].lower_s <= limit_s
        if drafts[place].step is Step.KEEP and line is not None and is_easy and fits:
            more = replace(line, sets=min(line.sets + 1, MOST_SETS))
            reason = f"easy at an effort of {effort:g}, and within the limit of {limit_s:.0f} s"
            drafts[place] = ProposedLine(Step.ADD, more, line, done[place].day, reason)
            break
    return drafts


def _cut(draft: ProposedLine, reason: str) -> ProposedLine:
    line = draft.line
    shorter = None if line is None or line.sets == 1 else replace(line, sets=line.sets - 1)
    first = draft.reason if draft.step is Step.CUT else reason
    return ProposedLine(Step.CUT, shorter, draft.was, draft.day, first)


def _sum_s(drafts: Sequence[ProposedLine], done: Sequence[_Done]) -> float:
    return sum(
        one.lower_s * draft.line.sets
        for draft, one in zip(drafts, done, strict=True)
        if draft.line is not None and one.is_emphasis
    )
