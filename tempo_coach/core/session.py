"""A planned day as it stands: what is to be done, what was changed, what was done."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any

from tempo_coach.core.exercises import usual_lead
from tempo_coach.core.facts import SetDone
from tempo_coach.core.history import History
from tempo_coach.core.legible import name_key
from tempo_coach.core.load import Load
from tempo_coach.core.method_flags import Flag, flags
from tempo_coach.core.overload import OverloadQuestion, overload_question
from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_days import PlannedDay, PlannedWork, days_of
from tempo_coach.core.plan_loads import ResolvedLoad, resolve
from tempo_coach.core.plan_sums import PlannedTotals
from tempo_coach.core.prescription import MOST_SETS, Prescription
from tempo_coach.core.session_facts import Change, SessionChanged
from tempo_coach.core.session_notes import SessionNotes
from tempo_coach.core.strength import LifterRecord
from tempo_coach.core.tempo import Allowances, Tempo
from tempo_coach.core.week_room import WeekRoom
from tempo_coach.core.weeks import Totals
from tempo_coach.errors import OutOfRange

LONGEST_DAYS = 7
"""How long after its date a planned day can still be done; the next planned day ends it earlier."""


@dataclass(frozen=True, slots=True)
class SessionItem:
    """One piece of the day's work, with today's changes."""

    item: int
    """Its place in the plan's day, from 1."""
    written: Prescription
    """As it stands in the plan."""
    resolved: ResolvedLoad
    """What is to be done: the sets with those added, the exercise it was swapped to, the load."""
    note: str
    skipped: str | None
    """Why it is skipped, perhaps empty; None where it is not."""
    flags: tuple[Flag, ...]
    """Where it leaves the range of its method, or what the lifter can do."""
    overload: OverloadQuestion | None
    """What must be typed before a set of it; None where nothing must."""
    notes: tuple[str, ...]
    """What log and calendar have to say before the next set beside the limits, a sentence each."""
    done: tuple[SetDone, ...]
    """In the order they were done; may be more than are to be done."""
    last_time: tuple[SetDone, ...]
    """The sets of the latest earlier day with that exercise at that tempo."""

    @property
    def prescription(self) -> Prescription:
        """What is to be done, with the load that goes on the bar."""
        return self.resolved.prescription

    @property
    def added_sets(self) -> int:
        """How many sets were added today."""
        return self.prescription.sets - self.written.sets

    @property
    def next_set(self) -> int | None:
        """The number of the next set, from 1; None where nothing is left to do."""
        number = len(self.done) + 1
        return number if self.skipped is None and number <= self.prescription.sets else None


@dataclass(frozen=True, slots=True)
class Session:
    """One lifter's planned day."""

    plan: str
    """The plan's name."""
    lifter: str
    """As the plan writes the name."""
    day: PlannedDay
    until: date
    """The first date whose sets no longer count for it."""
    items: tuple[SessionItem, ...]
    """In today's order."""
    changes: tuple[SessionChanged, ...]
    """Today's, in the order of time."""
    written: PlannedTotals
    """What the plan asks for, without today's changes."""
    done: Totals
    """What was done of it, and added."""
    room: WeekRoom | None
    """What the limits leave of the week; None where no moment was given, or the season
    does not hold it."""

    @property
    def next_item(self) -> SessionItem | None:
        """The first item that has a set left to do; None once the day is done."""
        return next((item for item in self.items if item.next_set is not None), None)

    def changed(self, item: int, change: Change, *, at: datetime, **rest: Any) -> SessionChanged:
        """Return a change of one item, for this day alone; the plan stays as it is.

        Parameters
        ----------
        item
            The item's place in the plan's day, from 1.
        change
            What is changed.
        at
            When; dated after the latest change so far, even by a clock that was set back.
        rest
            The change's `id`, and what it needs: ``skipped`` has `why`, ``swapped`` `exercise`,
            ``load_changed`` `load`, ``moved`` `to`, as in `SessionChanged`.
        """
        if self.changes:
            at = max(at, self.changes[-1].at + timedelta(milliseconds=1))
        return SessionChanged(
            at=at,
            lifter=self.lifter,
            plan=self.plan,
            date=self.day.date,
            item=item,
            change=change,
            **rest,
        )


def session_of(
    plan: Plan,
    day: PlannedDay,
    *,
    lifter: str,
    history: History,
    allowances: Allowances,
    at: datetime | None = None,
) -> Session:
    """Put a planned day together with what the log says of it.

    At a moment, it is also told what speaks against the sets that are left.

    A set counts for the day when it is the lifter's, of the exercise of an item or of the one
    that it was swapped to, and began from the day's date on, until the lifter's next planned day.

    Raises
    ------
    OutOfRange
        The plan has nobody of that name.
    """
    person = plan.lifter(lifter)
    until = _until(plan, person.name, day)
    changes = tuple(
        change
        for change in history.changes
        if name_key(change.plan) == name_key(plan.name)
        and name_key(change.lifter) == name_key(person.name)
        and change.date == day.date
    )
    all_sets = history.of(person.name)
    sets = [one for one in all_sets if day.date <= one.started_at.date() < until]
    earlier = [one for one in all_sets if one.started_at.date() < day.date]
    by_place = {work.item: _draft(work, changes) for work in day.work}
    drafts = [by_place[place] for place in _order(list(by_place), changes)]
    done = _shared_out(sets, drafts)
    record = LifterRecord(person.name, person, history.maxes)
    notes = at and SessionNotes(plan, person.name, history=history, at=at, allowances=allowances)
    items = []
    for draft in drafts:
        resolved = resolve(
            draft.line,
            plan=plan,
            lifter=person,
            allowances=allowances,
            recorded=history.maxes,
        )
        strength = record.strength_for(draft.line, allowances)
        items.append(
            SessionItem(
                item=draft.work.item,
                written=draft.work.prescription,
                resolved=resolved,
                note=draft.work.note,
                skipped=draft.skipped,
                flags=flags(
                    draft.line, strength, allowances=allowances, step_kg=plan.loads_by.kg() or 0
                ),
                overload=overload_question(resolved.prescription, strength),
                notes=notes.of(resolved.prescription, strength) if notes else (),
                done=tuple(done[draft.work.item]),
                last_time=_last_time(earlier, draft.line.exercise, draft.line.tempo),
            )
        )
    counted = [one for several in done.values() for one in several]
    return Session(
        plan=plan.name,
        lifter=person.name,
        day=day,
        until=until,
        items=tuple(items),
        changes=changes,
        written=PlannedTotals.of((w.prescription for w in day.work), allowances=allowances),
        done=Totals.of(counted),
        room=notes.room if notes else None,
    )


def _until(plan: Plan, lifter: str, day: PlannedDay) -> date:
    later = (one.date for one in days_of(plan, lifter) if one.date > day.date)
    longest = day.date + timedelta(days=LONGEST_DAYS)
    return min(next(later, longest), longest)


@dataclass(frozen=True, slots=True)
class _Draft:
    """An item with today's changes, before its load is worked out."""

    work: PlannedWork
    line: Prescription
    skipped: str | None
    exercises: frozenset[str]
    """Keys of its own exercise, and of those it was swapped to: their sets count for it."""


def _draft(work: PlannedWork, changes: Iterable[SessionChanged]) -> _Draft:
    """Fold an item's changes in the order of time: the later one holds where two conflict.

    Whoever swaps, adds a set or changes the load of a skipped item takes it up again.
    """
    line, skipped = work.prescription, None
    exercises = {name_key(line.exercise)}
    for change in changes:
        if change.item != work.item or change.change == "moved":
            continue
        skipped = change.why
        if change.exercise is not None:
            key = name_key(change.exercise)
            is_own = key == name_key(work.prescription.exercise)
            lead = work.prescription.lead if is_own else usual_lead(change.exercise)
            line = replace(line, exercise=change.exercise, lead=lead)
            exercises.add(key)
        elif change.load is not None:
            line = _with_load(line, change.load)
        elif change.change == "added_set":
            line = replace(line, sets=min(line.sets + 1, MOST_SETS))
    return _Draft(work, line, skipped, frozenset(exercises))


def _with_load(line: Prescription, load: Load) -> Prescription:
    """Return a line with another load; what is lowered goes where it would be no more than that."""
    try:
        return replace(line, load=load)
    except OutOfRange:
        return replace(line, load=load, shape=replace(line.shape, lower_load=None))


def _order(places: list[int], changes: Iterable[SessionChanged]) -> list[int]:
    for change in changes:
        if change.to is not None and change.item in places:
            places.remove(change.item)
            places.insert(change.to - 1, change.item)
    return places


def _shared_out(sets: Iterable[SetDone], drafts: list[_Draft]) -> dict[int, list[SetDone]]:
    """Give each set to the item most like it, of equals to the first with a set left to do."""
    done: dict[int, list[SetDone]] = {draft.work.item: [] for draft in drafts}
    for one in sets:
        fitting = [draft for draft in drafts if name_key(one.exercise) in draft.exercises]
        if fitting:
            chosen = max(
                fitting,
                key=lambda draft: (
                    draft.line.tempo == one.tempo,
                    draft.line.reps == one.reps_prescribed,
                    draft.skipped is None and len(done[draft.work.item]) < draft.line.sets,
                ),
            )
            done[chosen.work.item].append(one)
    return done


def _last_time(earlier: list[SetDone], exercise: str, tempo: Tempo) -> tuple[SetDone, ...]:
    alike = [
        one
        for one in earlier
        if name_key(one.exercise) == name_key(exercise) and one.tempo == tempo
    ]
    return tuple(one for one in alike if one.started_at.date() == alike[-1].started_at.date())
