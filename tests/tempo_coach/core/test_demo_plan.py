from __future__ import annotations

from datetime import timedelta

import pytest

from tempo_coach.core.demo import LIFTER, demo_facts
from tempo_coach.core.demo_plan import demo_plan
from tempo_coach.core.history import fold
from tempo_coach.core.plan_days import days_of, planned_days
from tempo_coach.core.session import Session, session_of
from tempo_coach.core.tempo import Allowances
from tests.tempo_coach.core.plans import plan_of
from tests.tempo_coach.core.test_demo import SUNDAY_NIGHT


def session(days_earlier: int) -> Session:
    now = SUNDAY_NIGHT - timedelta(days=days_earlier)
    plan = plan_of(demo_plan(now.date()))
    day = planned_days(plan, lifter=LIFTER, around=now.date()).today
    assert day is not None
    return session_of(
        plan, day, lifter=LIFTER, history=fold(demo_facts(now)), allowances=Allowances()
    )


@pytest.mark.parametrize("days_earlier", range(7))
def test_the_demo_has_work_today_on_any_weekday_and_none_of_it_is_done(days_earlier: int) -> None:
    today = session(days_earlier)

    assert today.day.week == 4
    assert today.done.sets == 0
    assert [item.next_set for item in today.items] == [1, 1]


@pytest.mark.parametrize("days_earlier", range(7))
def test_the_demo_s_work_is_what_its_log_holds_so_far(days_earlier: int) -> None:
    squats, pulls = session(days_earlier).items

    words = squats.resolved.words
    assert words.startswith("75% of 90 kg = 67.5, loadable 67.5 kg (the log's max, lowered in 2 s")
    assert len(squats.last_time) == 4
    assert len(pulls.last_time) == 3
    assert squats.note


def test_every_lifter_of_the_demo_has_days_and_sets() -> None:
    plan = plan_of(demo_plan(SUNDAY_NIGHT.date()))
    history = fold(demo_facts(SUNDAY_NIGHT))

    names = [lifter.name for lifter in plan.lifters]
    assert sorted(names) == list(history.lifters())
    assert all(len(days_of(plan, name)) > 10 for name in names)
