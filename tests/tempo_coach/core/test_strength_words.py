from __future__ import annotations

from datetime import date, datetime

from tempo_coach.core.facts import MaxTested, What
from tempo_coach.core.load import parse_load
from tempo_coach.core.plan import Max
from tempo_coach.core.recorded_maxes import fold_maxes
from tempo_coach.core.strength_words import strength_words

LATE = date(2026, 12, 31)


def max_tested(
    on: str, kg: float, *, what: What = "lifted", exercise: str = "front squat", who: str = "Ana"
) -> MaxTested:
    return MaxTested(
        id=f"{on}{kg}{who}",
        lifter=who,
        at=datetime.fromisoformat(f"{on}T18:00:00+01:00"),
        exercise=exercise,
        what=what,
        load_kg=kg,
        load_as_written=f"{kg:g} kg",
        lower_s=3.0 if what == "lowered" else 2.0,
        note="",
    )


def test_maxes_and_the_reserve_are_said_exercise_by_exercise_the_latest_first() -> None:
    recorded = fold_maxes(
        [
            max_tested("2026-11-02", 90),
            max_tested("2026-11-10", 99, what="lowered"),
            max_tested("2026-11-20", 60, exercise="bench press"),
            max_tested("2026-11-21", 200, who="Bo"),
        ]
    )

    assert strength_words(recorded, lifter="ana", until=LATE) == (
        "bench press: 60 kg lifted after a lower in 2 s (2026-11-20).",
        "front squat: 90 kg lifted after a lower in 2 s (2026-11-02), 99 kg lowered in 3 s "
        "(2026-11-10), reserve 110% of the 1RM.",
    )


def test_the_plan_s_maxes_count_too_and_later_tests_are_left_out() -> None:
    planned = Max(exercise="dip", load=parse_load("40 kg"), on=date(2026, 10, 1))
    recorded = fold_maxes([max_tested("2026-11-02", 90)])

    said = strength_words(recorded, lifter="Ana", planned=[planned], until=date(2026, 11, 1))

    assert said == ("dip: 40 kg lifted (2026-10-01).",)


def test_of_whom_nothing_is_known_nothing_is_said() -> None:
    assert strength_words(fold_maxes([]), lifter="Ana", until=LATE) == ()
