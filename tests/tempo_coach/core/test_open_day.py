from __future__ import annotations

from datetime import date, timedelta

import pytest

from tempo_coach.core.facts import Fact
from tempo_coach.core.history import fold
from tempo_coach.core.open_day import open_day
from tempo_coach.core.plan import Plan
from tempo_coach.core.tempo import Allowances
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core.plans import TEXT, one_lifter_plan, plan_of
from tests.tempo_coach.core.test_session import MONDAY, chin_up, squat
from tests.tempo_coach.core.test_session_changed import changed

ALL_DONE = [*(squat(number) for number in range(1, 5)), *(chin_up(number) for number in (5, 6, 7))]


def opened(
    today: date, *facts: Fact, plan: Plan | None = None, lifter: str = "Mirela Oude"
) -> date | None:
    day = open_day(
        plan or plan_of(TEXT),
        lifter=lifter,
        today=today,
        history=fold(facts),
        allowances=Allowances(),
    )
    return None if day is None else day.date


def test_a_planned_day_opens_on_its_date() -> None:
    assert opened(MONDAY) == MONDAY
    assert opened(MONDAY, *ALL_DONE) == MONDAY


def test_a_day_that_is_not_finished_stays_open_on_the_days_after() -> None:
    assert opened(MONDAY + timedelta(days=1), squat(1)) == MONDAY
    assert opened(MONDAY + timedelta(days=2)) == MONDAY


def test_after_a_finished_day_the_next_one_opens() -> None:
    thursday = MONDAY + timedelta(days=3)

    assert opened(MONDAY + timedelta(days=1), *ALL_DONE) == thursday
    skipped = [changed(f"c{item}", item=item) for item in (1, 2)]
    assert opened(MONDAY + timedelta(days=1), *skipped) == thursday


def test_before_the_plan_its_first_day_opens_and_behind_it_its_last() -> None:
    assert opened(date(2026, 11, 1)) == MONDAY
    assert opened(date(2027, 6, 1)) == date(2027, 1, 7)


def test_a_lifter_without_days_has_nothing_to_open() -> None:
    days = '[[days]]\nday = "Monday"\n[[days.work]]\nline = "off"'

    assert opened(MONDAY, plan=one_lifter_plan(days, weeks=1), lifter="Sabine Ihle") is None


def test_nobody_of_that_name_is_refused() -> None:
    with pytest.raises(OutOfRange, match="no lifter 'Ana'"):
        opened(MONDAY, lifter="Ana")
