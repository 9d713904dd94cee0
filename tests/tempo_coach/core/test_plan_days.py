from __future__ import annotations

from datetime import date

import pytest

from tempo_coach.core.plan_days import PlannedDay, days_of, planned_days
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core.plans import TEXT, plan_of


def dates(days: tuple[PlannedDay, ...]) -> list[str]:
    return [f"{day.date:%m-%d}" for day in days]


def test_a_lifter_has_everybody_s_days_and_the_own_ones() -> None:
    plan = plan_of()
    assert dates(days_of(plan, "Jonne Tarval", week=1)) == ["12-03"]
    assert dates(days_of(plan, "Mirela Oude", week=1)) == ["11-30", "12-03"]
    assert len(days_of(plan, "Mirela Oude")) == 12


def test_work_that_is_off_leaves_the_others_their_places() -> None:
    monday = days_of(plan_of(), "Mirela Oude", week=5)[0]
    assert [work.item for work in monday.work] == [2]


def test_a_day_whose_work_is_all_off_is_no_planned_day() -> None:
    second = '[[days.work]]\nline = "chin-up 3x5 @ bw+10 kg 5-0-1-0 rest 90"\n'
    plan = plan_of(TEXT.replace(second, ""))
    assert dates(days_of(plan, "Mirela Oude", week=5)) == ["12-31"]


@pytest.mark.parametrize(
    ("around", "expected"),
    [
        ("2026-11-29", [None, None, "11-30"]),
        ("2026-11-30", [None, "11-30", "12-03"]),
        ("2026-12-01", ["11-30", None, "12-03"]),
        ("2027-01-07", ["01-04", "01-07", None]),
        ("2027-06-01", ["01-07", None, None]),
    ],
)
def test_around_a_date_there_is_the_day_before_the_day_and_the_next(
    around: str, expected: list[str | None]
) -> None:
    near = planned_days(plan_of(), lifter="mirela oude", around=date.fromisoformat(around))
    found = [
        None if day is None else f"{day.date:%m-%d}" for day in (near.last, near.today, near.next)
    ]
    assert found == expected


def test_a_stranger_has_no_days() -> None:
    with pytest.raises(OutOfRange):
        days_of(plan_of(), "Sabine Ihle")
