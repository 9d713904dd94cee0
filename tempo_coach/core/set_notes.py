"""What the log and the calendar have to say before a set: reasons to think again, never a lock."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from tempo_coach.core.cautions import PAIN, WARNING_SIGNS
from tempo_coach.core.emphasis import OVERLOAD_BREAK_WEEKS, is_emphasis, overload_run
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible, name_key
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.movement_groups import movement_group
from tempo_coach.core.overload import is_overload
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.season_calendar import SeasonDay
from tempo_coach.core.season_table import is_emphasis_set
from tempo_coach.core.soreness_facts import MOST_SORE
from tempo_coach.core.strength import Strength
from tempo_coach.core.tempo import Phase
from tempo_coach.core.too_heavy import short_lower, too_heavy_words
from tempo_coach.core.weeks import IsoWeek, week_of

OVERLOAD_FORGOTTEN = timedelta(days=183)
"""After half a year an overload is as new: one bout protects for about that long at the least."""
VERY_SORE = 9
"""From here on the warning signs are said too; by choice."""
_SAME_SESSION = timedelta(hours=4)
"""Work that began less than this before other work is of one session with it."""


@dataclass(frozen=True, slots=True)
class Ahead:
    """The set that is about to be done."""

    prescription: Prescription
    at: datetime


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of the lifter when a set is about to be done."""

    sets: Sequence[SetDone]
    """The lifter's, in order."""
    rules: DosingRules
    day: SeasonDay | None
    """What the calendar says of today; None where no plan does."""
    strength: Strength
    """What is known for the set."""
    overloads: Callable[[], Sequence[SetDone]]
    """Returns those of the sets that lowered more than the lifter could raise then."""
    measured: Mapping[str, SetMeasured]
    """How some of the sets were measured, by their ids."""
    soreness: int | None
    """What was told today, 0 to 10; None where nothing was."""


def set_notes(ahead: Ahead, known: Known) -> tuple[str, ...]:
    """Return what speaks against a set, a sentence each, with its reason."""
    notes: list[str] = []
    line, rules = ahead.prescription, known.rules
    if is_emphasis(line.tempo, line.shape, slow_from_ms=round(rules.emphasis_from_s * 1000)):
        if known.day is not None:
            notes += _calendar(known.day)
        notes += _too_soon(ahead, known)
    if is_overload(line, known.strength):
        notes += _new_overload(ahead, known)
        notes += _long_overload(ahead, known)
    notes += _too_heavy(ahead, known)
    if known.soreness is not None and line.shape.counts(Phase.LOWER):
        notes += soreness_notes(known.soreness, rules=rules)
    return tuple(notes)


def soreness_notes(soreness: int, *, rules: DosingRules) -> Iterator[str]:
    """Say what speaks against a set where today's soreness is above what the rules let pass."""
    if soreness <= rules.soreness_most:
        return
    yield (
        f"Soreness today is {soreness} of {MOST_SORE}, above {rules.soreness_most}: think of less "
        "load, fewer sets or other muscles, or go on. It grows for a day, is worst after one to "
        f"three, and gone within a week. {PAIN}"
    )
    if soreness >= VERY_SORE:
        yield WARNING_SIGNS


def _calendar(day: SeasonDay) -> Iterator[str]:
    if day.share == 0:
        yield f"Today is {legible(day.words)}: lowering emphasis is taken out."
    elif day.share < 1:
        yield f"Today is {legible(day.words)}: {day.share:.0%} of the lowering emphasis stays."


def _too_soon(ahead: Ahead, known: Known) -> Iterator[str]:
    rules, exercise = known.rules, ahead.prescription.exercise
    last = _last_session(ahead, known)
    if last is None:
        return
    group = movement_group(exercise, more=rules.groups)
    muscles = f"the {group} ({legible(last.exercise)})" if group else legible(exercise)
    hours = (ahead.at - last.started_at) / timedelta(hours=1)
    yield (
        f"{hours:.0f} h since lowering emphasis for {muscles}; less than "
        f"{rules.hours_apart:g} h is soon, for soreness peaks in one to three days."
    )


def _last_session(ahead: Ahead, known: Known) -> SetDone | None:
    """Return the latest emphasis set of the same muscles that is too near, of another session."""
    rules = known.rules
    muscles = _muscles(ahead.prescription.exercise, rules)
    begun = ahead.at
    for done in reversed(known.sets):
        if done.started_at > ahead.at:
            continue
        if ahead.at - done.started_at >= timedelta(hours=rules.hours_apart):
            return None
        if begun - done.started_at < _SAME_SESSION:
            begun = done.started_at
        elif (
            _muscles(done.exercise, rules) == muscles
            and is_emphasis_set(done, rules)
            and done.seconds.lower > 0
        ):
            return done
    return None


def _muscles(exercise: str, rules: DosingRules) -> str:
    """Return the group of an exercise; one that no table has is alike to itself alone."""
    return movement_group(exercise, more=rules.groups) or name_key(exercise)


def _new_overload(ahead: Ahead, known: Known) -> Iterator[str]:
    exercise, rules = ahead.prescription.exercise, known.rules
    muscles = _muscles(exercise, rules)
    before = [
        one
        for one in known.overloads()
        if one.started_at < ahead.at and _muscles(one.exercise, rules) == muscles
    ]
    if not before:
        yield (
            f"This is the first overload in the log for these muscles: {legible(exercise)} is "
            "lowered with more than can be raised. Spotters or safety pins, and less load than you "
            "think."
        )
    elif ahead.at - before[-1].started_at > OVERLOAD_FORGOTTEN:
        yield (
            f"The last overload for these muscles was on {before[-1].started_at.date().isoformat()}"
            ", over six months ago: begin as with the first."
        )


def _long_overload(ahead: Ahead, known: Known) -> Iterator[str]:
    this = IsoWeek.of(ahead.at.date())
    run = overload_run([*map(week_of, known.overloads()), this], this)
    if run > known.rules.overload_weeks:
        yield (
            f"This is week {run} of overload without a break of {OVERLOAD_BREAK_WEEKS} weeks; "
            f"after {known.rules.overload_weeks} one is due."
        )


def _too_heavy(ahead: Ahead, known: Known) -> Iterator[str]:
    line = ahead.prescription
    load = line.load if line.shape.lower_load is None else line.shape.lower_load.load
    kg = None if load is None else load.kg()
    if kg is None or not isinstance(line.tempo.lower, int):
        return
    found = short_lower(
        line.exercise,
        lower_ms=line.tempo.lower,
        kg=kg,
        sets=known.sets,
        measured=known.measured,
        at=ahead.at,
        band=known.rules.band,
    )
    if found is not None:
        yield too_heavy_words(line.exercise, lower_ms=line.tempo.lower, kg=kg, found=found)
