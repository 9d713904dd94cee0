"""A proposal for next week: which sets to add, keep and cut; for the coach to take or to edit."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from tempo_coach.core.done_lines import DoneLine, done_lines
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.prescription import MOST_SETS
from tempo_coach.core.proposed_lines import ProposedLine, Step
from tempo_coach.core.season_table import WeekLimit
from tempo_coach.core.set_adherence import set_adherence
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.tempo import Allowances, parse_tempo

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


def next_week(
    last: Sequence[SetDone],
    *,
    earlier: Sequence[SetDone],
    limits: Sequence[WeekLimit],
    rules: DosingRules,
    overloads: Collection[SetDone],
    may_overload: Callable[[str], bool],
    allowances: Allowances,
    measured: Mapping[str, SetMeasured] = NONE_MEASURED,
) -> tuple[ProposedLine, ...]:
    """Propose next week's lines from those of the last one.

    Overload that the lifter isn't ready for is left out, lines whose lower fell short of its tempo
    get less load, and those that were too hard or not done as written lose a set. The week is cut
    to its limits from the hardest line on, and what room is left goes to the easiest line. A new
    lift climbs the ladder of tempos.

    Parameters
    ----------
    last
        One lifter's sets of the last week.
    earlier
        All of the lifter's sets before it.
    limits
        Of the week's lowering emphasis, as far as they are known.
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
    done = done_lines(last)
    drafts = [
        _not_ready(one)
        if any(each in overloads for each in one.sets) and not may_overload(one.line.exercise)
        else _first_draft(one, earlier, _short_words(one, measured, rules))
        for one in done
    ]
    return tuple(_Week(done, limits, rules, allowances).within(drafts))


def _not_ready(one: DoneLine) -> ProposedLine:
    reason = "not ready for overload: see 'tempo-coach ready'"
    return ProposedLine(Step.CUT, None, one.line, one.day, reason)


def _first_draft(one: DoneLine, earlier: Sequence[SetDone], short: str) -> ProposedLine:
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


def _short_words(one: DoneLine, measured: Mapping[str, SetMeasured], rules: DosingRules) -> str:
    """Say how many lowers of a line fell short; empty where the load is not too heavy for it."""
    found = (set_adherence(done, measured.get(done.id), band=rules.band) for done in one.sets)
    kept = [each for each in found if each is not None]
    if not any(each.is_lower_short for each in kept):
        return ""
    lowers = [each.lower for each in kept if each.lower is not None]
    short = sum(len(each.short_by(rules.band.of(each.prescribed_ms))) for each in lowers)
    return (
        f"too heavy for its tempo: {short} of {sum(each.measured for each in lowers)} measured "
        "lowers fell short"
    )


def _lighter(one: DoneLine, reason: str) -> ProposedLine:
    """Take a twentieth off a load that stands on the line by itself; else ask for it."""
    load = one.line.load
    least = None if load is None else _LEAST_STEPS[load.unit]
    if load is None or least is None or load.on_body or load.amount <= least:
        return ProposedLine(Step.KEEP, one.line, one.line, one.day, f"{reason}; take less load")
    amount = load.amount * _LIGHTER // least * least or least
    line = replace(one.line, load=replace(load, amount=amount))
    return ProposedLine(Step.CHANGE, line, one.line, one.day, reason)


def _less(one: DoneLine, reason: str) -> ProposedLine:
    if one.line.sets == 1:
        return ProposedLine(Step.KEEP, one.line, one.line, one.day, f"{reason}; take less load")
    shorter = replace(one.line, sets=one.line.sets - 1)
    return ProposedLine(Step.CUT, shorter, one.line, one.day, f"{reason}: a set less")


def _next_rung(one: DoneLine, earlier: Sequence[SetDone]) -> ProposedLine | None:
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


def _cut(draft: ProposedLine, reason: str) -> ProposedLine:
    line = draft.line
    shorter = None if line is None or line.sets == 1 else replace(line, sets=line.sets - 1)
    first = draft.reason if draft.step is Step.CUT else reason
    return ProposedLine(Step.CUT, shorter, draft.was, draft.day, first)


@dataclass(frozen=True, slots=True)
class _Week:
    """The week that is proposed, which may hold no more than its limits."""

    done: Sequence[DoneLine]
    """What its lines follow from, each at the place of its draft."""
    limits: Sequence[WeekLimit]
    rules: DosingRules
    allowances: Allowances

    def within(self, drafts: Sequence[ProposedLine]) -> list[ProposedLine]:
        """Cut to the limits from the hardest line on, or give what room is left to the easiest."""
        drafts = list(drafts)
        by_effort = sorted(
            range(len(drafts)), key=lambda place: -(self.done[place].effort or EASY_TO)
        )
        for limit in self.limits:
            while (over := self._over(drafts, limit)) > 0:
                place = next(
                    place for place in by_effort if self._taken(place, drafts[place], limit)
                )
                reason = f"{over:,} {limit.unit} over the limit of {limit}"
                drafts[place] = _cut(drafts[place], reason)
        for place in reversed(by_effort):
            more = list(drafts)
            more[place] = self._longer(place, drafts[place])
            if more != drafts and all(self._over(more, limit) <= 0 for limit in self.limits):
                return more
        return drafts

    def _longer(self, place: int, draft: ProposedLine) -> ProposedLine:
        """Return a line with a set more where it was easy and is limited, else as it is."""
        line, effort = draft.line, self.done[place].effort
        limits = [limit for limit in self.limits if self._taken(place, draft, limit)]
        is_easy = effort is not None and effort <= EASY_TO
        if draft.step is not Step.KEEP or line is None or not is_easy or not limits:
            return draft
        reason = f"easy at an effort of {effort:g}, and within {' and '.join(map(str, limits))}"
        more = replace(line, sets=min(line.sets + 1, MOST_SETS))
        return ProposedLine(Step.ADD, more, draft.was, draft.day, reason)

    def _over(self, drafts: Sequence[ProposedLine], limit: WeekLimit) -> int:
        """Return by how much lines go over a limit, rounded as it is shown; else 0 or less."""
        taken = sum(self._taken(place, draft, limit) for place, draft in enumerate(drafts))
        return round(taken) - round(limit.amount)

    def _taken(self, place: int, draft: ProposedLine, limit: WeekLimit) -> float:
        """Return how much of a limit a line takes."""
        line, rules = draft.line, self.rules
        if line is None:
            return 0.0
        done = self.done[place]
        return line.sets * done.takes(line, limit, rules=rules, allowances=self.allowances)
