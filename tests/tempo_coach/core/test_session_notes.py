from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from tempo_coach.core.history import fold
from tempo_coach.core.next_sets import NextSet, sets_ahead
from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_days import days_of
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.session import Session, session_of
from tempo_coach.core.session_notes import SessionNotes
from tempo_coach.core.strength import UNKNOWN, LifterRecord
from tempo_coach.core.tempo import Allowances
from tests.tempo_coach.core.done_sets import done_set, max_tested
from tests.tempo_coach.core.plans import TEXT, plan_of

MONDAY = datetime.fromisoformat("2026-11-30T18:00:00+01:00")
CALENDAR = """
[dosing]
base_s = 60
[[calendar]]
kind = "in season"
first = 2026-11-30
last = 2026-12-06
name = "League"
lowering_percent = 50
"""


def session(plan: Plan, *, at: datetime | None, days_ago: int | None = 30) -> Session:
    sets = []
    if days_ago is not None:
        begun = MONDAY - timedelta(days=days_ago)
        sets.append(done_set(lifter="Mirela Oude", started_at=begun, ended_at=begun))
    history = fold(sets)
    day = days_of(plan, "Mirela Oude")[0]
    return session_of(
        plan, day, lifter="Mirela Oude", history=history, allowances=Allowances(), at=at
    )


def limited(**bases: int) -> tuple[NextSet, ...]:
    """Return what is ahead on a Monday with nothing done, half of these bases being left."""
    stated = "\n".join(f"{key} = {base}" for key, base in bases.items())
    plan = plan_of(TEXT + CALENDAR.replace("base_s = 60", stated))
    return sets_ahead(session(plan, at=MONDAY, days_ago=None))


def test_at_a_moment_the_work_is_told_what_speaks_against_it() -> None:
    found = session(plan_of(TEXT + CALENDAR), at=MONDAY, days_ago=1)

    [squat, chin_up] = (item.notes for item in found.items)
    assert squat == (
        "Today is League: 50% of the lowering emphasis stays.",
        "24 h since lowering emphasis for the knee extensors (front squat); less than 48 h is "
        "soon, for soreness peaks in one to three days.",
    )
    assert chin_up == ("Today is League: 50% of the lowering emphasis stays.",)


def test_sets_over_the_week_s_limit_are_told_so_at_the_rack() -> None:
    squats, chin_ups = limited(base_s=80)

    assert squats.warnings[0] == (
        "Set 3 takes the week to 60 s of lowering emphasis, 20 s over its limit of 40 s (the "
        "stated base, of which the calendar leaves 50%)."
    )
    assert chin_ups.warnings[0].startswith("Set 2 takes the week to 50 s")


def test_work_behind_other_work_is_held_against_what_that_leaves() -> None:
    _, chin_ups = limited(base_s=80)
    sets = [
        done_set(id=f"{number}", lifter="Mirela Oude", started_at=MONDAY, ended_at=MONDAY)
        for number in range(2)
    ]

    assert chin_ups.after(sets[:1]).warnings[0].startswith("With the next set the week has 45 s")
    assert chin_ups.after(sets).warnings[0].startswith("With the next set the week has 65 s")


def test_the_load_that_hangs_on_the_body_counts() -> None:
    _, chin_ups = limited(base_kg_s=4_000)

    [said] = chin_ups.warnings
    assert said.startswith("Set 2 takes the week to 3,900 kg·s of lowering load, 1,900 kg·s over")


def test_without_a_moment_and_outside_the_season_nothing_is_said() -> None:
    plan = plan_of(TEXT + CALENDAR)

    for at in (None, MONDAY - timedelta(weeks=3), MONDAY + timedelta(weeks=60)):
        assert [item.notes for item in session(plan, at=at).items] == [(), ()]


@pytest.mark.parametrize("plan", [None, plan_of(TEXT + CALENDAR)])
def test_without_a_plan_or_a_lifter_it_has_the_limits_come_from_the_log_alone(
    plan: Plan | None,
) -> None:
    begun = MONDAY - timedelta(weeks=1)
    history = fold([done_set(lifter="Ana", started_at=begun, ended_at=begun)])

    notes = SessionNotes(plan, "Ana", history=history, at=MONDAY, allowances=Allowances())

    line = parse_prescription("bench press 4x2 @ 80 kg 5-0-1-0")
    assert notes.of(line, UNKNOWN) == ()
    assert notes.room is not None
    assert notes.room.before_line(line) == (
        "Set 3 takes the week to 30 s of lowering emphasis, 8 s over its limit of 22 s (10% above "
        "the mean of the last 1 full loading week); 2,400 kg·s, 640 over 1,760.",
    )


def test_heavier_work_of_another_exercise_does_not_hide_a_first_overload() -> None:
    lifter, begun = "Ansa Vireo", MONDAY - timedelta(days=5)
    squats = done_set(load_kg=110.0, started_at=begun, ended_at=begun)
    maxes = [
        max_tested(id="b1", exercise="bench press", load_kg=60.0, lower_s=5.0, at=begun),
        max_tested(id="f1", exercise="front squat", load_kg=120.0, lower_s=2.0, at=begun),
    ]
    line = parse_prescription("bench press 3x2 @ 66 kg 5-0-A-0 lowering only")
    history = fold([squats, *maxes])
    notes = SessionNotes(None, lifter, history=history, at=MONDAY, allowances=Allowances())
    strength = LifterRecord(lifter, recorded=history.maxes).strength_for(line, Allowances())

    [said] = notes.of(line, strength)

    assert said.startswith("This is the first overload in the log for these muscles: bench press")
