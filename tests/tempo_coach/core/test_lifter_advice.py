from __future__ import annotations

from datetime import date, datetime
from typing import Any

import pytest

from tempo_coach.core.facts import MaxTested, SetDone
from tempo_coach.core.lifter_advice import LifterAdvice
from tempo_coach.core.plan import Plan
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.tempo import Allowances, parse_tempo
from tempo_coach.core.weeks import IsoWeek
from tests.tempo_coach.core.done_sets import done_set, max_tested
from tests.tempo_coach.core.plans import TEXT, plan_of

TODAY = date(2026, 12, 2)


def on(day: str, *, hour: int = 18, offset: str = "+01:00", **changes: Any) -> SetDone:
    begun = datetime.fromisoformat(f"{day}T{hour:02d}:00:00{offset}")
    return done_set(**({"id": day} | changes), started_at=begun, ended_at=begun)


def advice(
    *sets: SetDone,
    plan: Plan | None = None,
    maxes: tuple[MaxTested, ...] = (),
    today: date = TODAY,
) -> LifterAdvice:
    return LifterAdvice.of(plan, "mirela oude", sets=sets, maxes=RecordedMaxes(maxes), today=today)


def test_a_proposal_goes_by_the_last_week_that_has_sets_and_not_by_days_to_come() -> None:
    given = advice(on("2026-11-17"), on("2026-11-24", exercise="chin-up"), on("2026-12-05"))

    found = given.proposal(Allowances())

    assert [one.line and one.line.exercise for one in found.lines] == ["chin-up"]
    assert found.limit_words == "lowering emphasis up to 24 s, 1,936 kg·s"


def test_a_proposal_goes_by_the_later_week_though_the_earlier_ended_last_in_another_zone() -> None:
    monday = on("2026-11-30", hour=1, offset="+13:00")
    sunday = on("2026-11-29", hour=20, exercise="chin-up")
    assert monday.started_at < sunday.started_at

    found = advice(monday, sunday).proposal(Allowances())

    assert [one.was.exercise for one in found.lines] == ["front squat"]


def test_a_set_of_a_day_that_has_begun_in_another_zone_alone_counts_for_its_week() -> None:
    given = advice(on("2026-12-07", hour=0, offset="+13:00"), today=date(2026, 12, 6))

    row = given.season.row_of(IsoWeek(2026, 50))

    assert row is not None
    assert row.lower_s.done == 20


@pytest.mark.parametrize("day", ["2026-11-24", "2026-11-30"])
def test_work_of_this_week_or_the_last_is_simply_gone_on_with(day: str) -> None:
    assert advice(on(day)).proposal(Allowances()).caution == ""


def test_work_of_long_ago_is_not_simply_gone_on_with() -> None:
    found = advice(on("2026-10-01")).proposal(Allowances())

    assert found.caution == (
        "That work is 9 weeks old: who comes back begins with less load than then, and after an "
        "illness or an injury asks a clinician first."
    )


def test_the_attempts_of_a_reserve_test_are_not_proposed_again() -> None:
    attempt = on("2026-11-25", method="reserve-test", load_kg=105.0)

    found = advice(on("2026-11-24"), attempt).proposal(Allowances())

    assert [one.was.method for one in found.lines] == [None]
    assert advice(attempt).proposal(Allowances()).lines == ()


OVER: dict[str, Any] = {"load_kg": 95.0, "load_as_written": "95 kg"}
"""More than the 90 kg of the plan's lifter."""


def test_overload_without_its_break_is_not_proposed() -> None:
    maxes = (
        max_tested(lifter="Mirela Oude"),
        max_tested(id="l", lifter="Mirela Oude", what="lowered", load_kg=100.0, lower_s=3.0),
    )
    cleared = plan_of(TEXT.replace('name = "Mirela Oude"', 'name = "Mirela Oude"\noverload = true'))
    days = ("2026-11-05", "2026-11-12", "2026-11-19", "2026-11-26")
    slow = [on(day) for day in days]

    def of_overload(*weeks: int) -> list[str]:
        sets = [*slow, *(on(days[week], hour=19, id=f"o{week}", **OVER) for week in weeks)]
        given = advice(*sets, plan=cleared, maxes=maxes, today=date(2026, 11, 28))
        lines = given.proposal(Allowances()).lines
        return [one.step for one in lines if str(one.was.load) == "95 kg"]

    assert of_overload(3) == ["keep"]
    assert of_overload(1, 2, 3) == ["keep"]
    assert of_overload(0, 1, 2, 3) == ["cut"]


def test_without_sets_there_is_neither_a_line_nor_a_limit() -> None:
    found = advice().proposal(Allowances())

    assert found.lines == ()
    assert found.limit_words == "no limit known"


def test_what_is_planned_tested_or_done_names_the_exercises_as_last_written() -> None:
    of_another = max_tested(id="other", lifter="Jonne Tarval", exercise="bench press")
    own = max_tested(lifter="MIRELA oude", exercise="leg press")

    given = advice(
        on("2026-11-24", exercise="Chin-up"), plan=plan_of(TEXT), maxes=(own, of_another)
    )

    assert given.record.name == "Mirela Oude"
    assert given.exercises() == ("bench pull", "Chin-up", "front squat", "leg press")


def test_work_that_the_plan_gives_to_others_alone_is_not_the_lifter_s() -> None:
    given = LifterAdvice.of(
        plan_of(TEXT), "Jonne Tarval", sets=(), maxes=RecordedMaxes(), today=TODAY
    )

    assert given.exercises() == ("bench pull",)


def test_readiness_counts_no_set_of_a_day_to_come() -> None:
    overload, _ = advice(on("2026-12-04"), on("2026-11-24")).readiness("front squat")

    assert overload.criteria[0].evidence == "1 of the last 4"


def test_readiness_counts_the_plan_s_maxes() -> None:
    asked = "1RM tested in the last 12 weeks"

    overload, fast = advice(plan=plan_of(TEXT)).readiness("front squat")
    [tested] = [one for one in overload.criteria if one.asked == asked]

    assert tested.state == "met"
    assert fast.way == "fast lowering"


def test_a_max_that_was_tested_later_says_nothing_yet() -> None:
    later = datetime.fromisoformat("2026-12-03T12:00:00+01:00")
    maxes = RecordedMaxes((max_tested(lifter="Mirela Oude", at=later),))
    given = LifterAdvice.of(None, "Mirela Oude", sets=(), maxes=maxes, today=TODAY)

    overload, _ = given.readiness("front squat")

    assert [one.evidence for one in overload.criteria if one.name == "1RM tested"] == [
        "never tested"
    ]
    assert given.judged_exercises() == ()


def test_judged_are_exercises_with_lowering_emphasis_or_a_max_the_latest_first() -> None:
    given = advice(
        on("2026-11-24", exercise="chin-up"),
        on("2026-11-25", exercise="row"),
        on("2026-11-26", exercise="Chin-up"),
        on("2026-11-27", exercise="bench pull", tempo=parse_tempo("2-0-1-0")),
        plan=plan_of(TEXT),
    )

    assert given.judged_exercises() == ("Chin-up", "row", "front squat")
