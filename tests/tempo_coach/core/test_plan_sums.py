from __future__ import annotations

import pytest

from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_days import days_of
from tempo_coach.core.plan_sums import PlannedTotals
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.tempo import Allowances, Phase
from tempo_coach.core.work import PhaseTimes
from tests.tempo_coach.core.plans import one_lifter_plan

WEEKDAYS = ("Monday", "Wednesday", "Friday")


def programme(weeks: list[tuple[int, list[str]]]) -> Plan:
    """Return weeks of Nordic hamstring curls: sessions a week, and sets x reps of each.

    How the sets of a week fall to its days is free; the sums are not.
    """
    days = []
    for number, weekday in enumerate(WEEKDAYS):
        work = []
        for place in range(max(len(schemes) for _, schemes in weeks)):
            by_week = [
                f"nordic hamstring curl {schemes[place]} @ bw 4-0-A-0"
                if number < sessions and place < len(schemes)
                else "off"
                for sessions, schemes in weeks
            ]
            changes = "".join(
                f'from_week.{week} = "{line}"\n' for week, line in enumerate(by_week[1:], start=2)
            )
            work.append(f'[[days.work]]\nline = "{by_week[0]}"\n{changes}')
        days.append(f'[[days]]\nday = "{weekday}"\n{"".join(work)}')
    return one_lifter_plan("".join(days), weeks=len(weeks))


def weekly_reps(plan: Plan) -> list[int]:
    return [
        sum(totals_of(plan, week, day).reps for day in range(7))
        for week in range(1, plan.weeks + 1)
    ]


def totals_of(plan: Plan, week: int, weekday: int) -> PlannedTotals:
    lines = [
        work.prescription
        for day in days_of(plan, "Sabine Ihle", week=week)
        if day.date.weekday() == weekday
        for work in day.work
    ]
    return PlannedTotals.of(lines, allowances=Allowances())


# Impellizzeri et al. 2021, J Clin Epidemiol: eccentric reps a week.
VAN_DER_HORST = [10, 24, 36, 42, 54] + [54] * 8
HASEBE = [10] + [24] * 2 + [36] * 3 + [42] * 3 + [54] * 4 + [54] * 14


def by_sums(weeks: list[int]) -> Plan:
    return programme([(2, [f"1x{reps // 2}"]) for reps in weeks])


@pytest.mark.parametrize(("weeks", "total"), [(VAN_DER_HORST, 598), (HASEBE, 1264)])
def test_weekly_sums_of_a_review_add_up_to_its_totals(weeks: list[int], total: int) -> None:
    # Impellizzeri et al. 2021, J Clin Epidemiol: Van der Horst 598, Hasebe 1264.
    plan = by_sums(weeks)
    assert weekly_reps(plan) == weeks
    assert sum(weekly_reps(plan)) == total


@pytest.mark.parametrize(
    ("weeks", "total", "a_week"),
    [
        # Anastasi: 3x6x3 (sessions x sets x reps) for 2 weeks, 3x7x3 for 2, 3x8x3 for 3, 3x10x3
        # for 3.
        (
            [(3, ["3x6"])] * 2 + [(3, ["3x7"])] * 2 + [(3, ["3x8"])] * 3 + [(3, ["3x10"])] * 3,
            720,
            72,
        ),
        # Alt: 3x3x3 for 4 weeks.
        ([(3, ["3x3"])] * 4, 108, 27),
        # Delahunt: 2x5x1, 2x6x2, 3x6x3, 3x8x3, then 2 weeks of 3x(12+10+8).
        (
            [(1, ["2x5"]), (2, ["2x6"]), (3, ["3x6"]), (3, ["3x8"])]
            + [(3, ["1x12", "1x10", "1x8"])] * 2,
            340,
            57,
        ),
        # Freeman: 20, 24, 30, 36 a week; 27.5 on average, printed as 28.
        ([(2, ["2x5"]), (2, ["2x6"]), (2, ["3x5"]), (2, ["3x6"])], 110, 28),
    ],
)
def test_published_programmes_have_their_published_totals(
    weeks: list[tuple[int, list[str]]], total: int, a_week: int
) -> None:
    # Cuthbert et al. 2020, Sports Med 50:83, 10.1007/s40279-019-01178-7, Table 2.
    reps = weekly_reps(programme(weeks))
    assert sum(reps) == total
    assert abs(sum(reps) / len(reps) - a_week) <= 0.5


@pytest.mark.parametrize(
    ("lower_s", "a_session", "a_week"), [(2, 48, 96), (4, 96, 192), (6, 144, 288)]
)
def test_lowering_seconds_of_a_published_design(lower_s: int, a_session: int, a_week: int) -> None:
    # Mike et al. 2017, JSCR 31:773, 10.1519/jsc.0000000000001675: 4 sets of 6 reps, 2 s up, 1 s
    # pause, 2, 4 or 6 s down, 2 days a week.
    line = f'[[days.work]]\nline = "squat 4x6 {lower_s}-1-2-0"\n'
    plan = one_lifter_plan(
        "".join(f'[[days]]\nday = "{day}"\n{line}' for day in ("Monday", "Thursday")), weeks=1
    )
    sessions = [totals_of(plan, 1, weekday).times for weekday in (0, 3)]
    assert [times.lower_ms for times in sessions] == [a_session * 1000] * 2
    assert sum(sessions, PhaseTimes()).lower_ms == a_week * 1000
    # The same design: 120, 168, 216 s of tension with the pause, 96, 144, 192 s without.
    assert sessions[0].tension_ms == (a_session + 72) * 1000
    assert sessions[0].moving_ms == (a_session + 48) * 1000


def test_the_part_that_rests_on_allowances_is_kept_apart() -> None:
    totals = PlannedTotals.of([parse_prescription("squat 2x5 V-1-X-1")], allowances=Allowances())
    assert [totals.by_allowance.of(phase) for phase in Phase] == [20_000, 0, 10_000, 0]
    assert totals.times.tension_ms == 50_000


def test_sets_that_run_until_stopped_are_counted_and_add_no_reps() -> None:
    lines = [parse_prescription("chin-up 3xmax 3-0-1-0"), parse_prescription("chin-up 2x4 3-0-1-0")]
    totals = PlannedTotals.of(lines, allowances=Allowances())
    assert (totals.sets, totals.open_sets, totals.reps) == (5, 3, 8)
    assert totals.times.lower_ms == 24_000
