from __future__ import annotations

from datetime import timedelta

from tempo_coach.core.facts import SetDone
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.week_chart import WEEKS, exercises_of, planned_in, week_chart
from tempo_coach.core.weeks import IsoWeek
from tests.tempo_coach.core.done_sets import MONDAY, done_set
from tests.tempo_coach.core.plans import TEXT, plan_of
from tests.tempo_coach.core.test_session import MONDAY as PLANNED

NOW = IsoWeek.of(MONDAY.date())


def weeks_ago(weeks: int, exercise: str = "front squat", set_id: str = "") -> SetDone:
    began = MONDAY - timedelta(weeks=weeks)
    return done_set(
        id=set_id or f"{exercise}{weeks}",
        exercise=exercise,
        started_at=began,
        ended_at=began + timedelta(seconds=35),
    )


def test_a_chart_has_twelve_weeks_up_to_the_last_whatever_was_done() -> None:
    for sets in ([], [weeks_ago(0)], [weeks_ago(40)]):
        chart = week_chart(sets, through=NOW)

        assert [one.week for one in chart] == [NOW.before(back) for back in range(WEEKS)][::-1]


def test_weeks_without_sets_are_zero_and_lose_what_the_week_before_had() -> None:
    chart = week_chart([weeks_ago(3), weeks_ago(1)], through=NOW)

    assert [one.total.times.lower_ms for one in chart[-5:]] == [0, 20_000, 0, 20_000, 0]
    assert [one.lower_change_ms for one in chart[-5:]] == [None, None, -20_000, 20_000, -20_000]
    assert chart[-1].exercises == ()


def test_the_week_before_the_chart_counts_for_the_first_change() -> None:
    chart = week_chart([weeks_ago(13), weeks_ago(12), weeks_ago(11)], through=NOW)

    assert chart[0].lower_change_ms == 0


def test_one_exercise_alone_can_be_counted_in_any_spelling() -> None:
    sets = [weeks_ago(0), weeks_ago(0, "Bench pull"), weeks_ago(1, "bench pull")]
    chart = week_chart(sets, through=NOW, exercise="BENCH PULL")

    assert [one.total.sets for one in chart[-2:]] == [1, 1]
    assert [part.exercise for part in chart[-1].exercises] == ["Bench pull"]


def test_exercises_are_named_once_as_last_written() -> None:
    sets = [weeks_ago(1, "squat"), weeks_ago(1, "Bench pull"), weeks_ago(0, "Squat")]

    assert exercises_of(sets) == ("Bench pull", "Squat")


def test_the_plan_s_week_is_added_up_for_all_or_for_one_exercise() -> None:
    week = IsoWeek.of(PLANNED)

    def lowering(exercise: str | None) -> int:
        planned = planned_in(
            plan_of(TEXT),
            week,
            lifter="mirela oude",
            exercise=exercise,
            allowances=Allowances(),
        )
        assert planned is not None
        return planned.times.lower_ms

    assert lowering(None) == 80_000 + 75_000 + 48_000
    assert lowering("Chin-Up") == 75_000
    assert lowering("row") == 0


def test_weeks_outside_the_plan_have_nothing_planned() -> None:
    for week in (IsoWeek.of(PLANNED).before(), IsoWeek.of(PLANNED + timedelta(weeks=6))):
        planned = planned_in(
            plan_of(TEXT), week, lifter="Mirela Oude", exercise=None, allowances=Allowances()
        )

        assert planned is None
