from __future__ import annotations

from datetime import datetime, timedelta

from tempo_coach.core.history import fold
from tempo_coach.core.next_sets import sets_ahead
from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_days import days_of
from tempo_coach.core.session import Session, session_of
from tempo_coach.core.tempo import Allowances
from tests.tempo_coach.core.done_sets import done_set
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


def session(plan: Plan, *, at: datetime | None, days_ago: int = 30) -> Session:
    begun = MONDAY - timedelta(days=days_ago)
    history = fold([done_set(lifter="Mirela Oude", started_at=begun, ended_at=begun)])
    day = days_of(plan, "Mirela Oude")[0]
    return session_of(
        plan, day, lifter="Mirela Oude", history=history, allowances=Allowances(), at=at
    )


def test_at_a_moment_the_work_is_told_what_speaks_against_it() -> None:
    found = session(plan_of(TEXT + CALENDAR), at=MONDAY, days_ago=1)

    [squat, chin_up] = (item.notes for item in found.items)
    assert squat == (
        "Today is League: 50% of the lowering emphasis stays.",
        "24 h since lowering emphasis for the knee extensors (front squat); less than 48 h is "
        "soon, for soreness peaks in one to three days.",
    )
    assert chin_up == ("Today is League: 50% of the lowering emphasis stays.",)


def test_a_set_over_the_week_s_limit_is_told_so_at_the_rack() -> None:
    plan = plan_of(TEXT + CALENDAR.replace("base_s = 60", "base_s = 20"))

    ahead = sets_ahead(session(plan, at=MONDAY))

    assert any("over its limit of 10 s" in note for note in ahead[0].notes)


def test_without_a_moment_and_outside_the_season_nothing_is_said() -> None:
    plan = plan_of(TEXT + CALENDAR)

    for at in (None, MONDAY - timedelta(weeks=3), MONDAY + timedelta(weeks=60)):
        assert [item.notes for item in session(plan, at=at).items] == [(), ()]
