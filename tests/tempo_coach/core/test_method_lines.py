from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.load import parse_load
from tempo_coach.core.method_catalogue import METHODS
from tempo_coach.core.method_lines import BestFor, MethodLine, method_lines
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.methods import Method
from tempo_coach.core.plan import Lifter, Max
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.strength import Best, LifterRecord
from tempo_coach.core.tempo import Allowances
from tempo_coach.errors import OutOfRange, TempoCoachError

STEP = parse_load("2.5 kg")
EVERY = pytest.mark.parametrize("method", METHODS.values(), ids=lambda one: one.name.value)
NO_MAX: BestFor = lambda _: None  # noqa: E731 - a value of the type is what is asked for


def of(load: str) -> BestFor:
    return lambda _: Best(parse_load(load), "")


def lines(
    method: Method | MethodName,
    best_for: BestFor = NO_MAX,
    *,
    exercise: str = "front squat",
    is_cleared: bool | None = None,
    lower_ms: int | None = None,
) -> tuple[MethodLine, ...]:
    return method_lines(
        METHODS[method] if isinstance(method, MethodName) else method,
        exercise,
        best_for=best_for,
        step=STEP,
        allowances=Allowances(),
        is_cleared=is_cleared,
        lower_ms=lower_ms,
    )


@EVERY
@pytest.mark.parametrize("exercise", ["front squat", "chin-up", "5", "Überzug", "nordic curl"])
def test_every_line_reads_as_itself(method: Method, exercise: str) -> None:
    for one in lines(method, of("120 kg"), exercise=exercise):
        assert parse_prescription(str(one.prescription)) == one.prescription
        assert one.prescription.method is method.name


def test_each_share_is_explained() -> None:
    # Lates et al. 2022, JSCR 36:1485: 105 and 80 % of a bench press of 125.0 kg are 131.25 and
    # 100 kg; the first can't be loaded exactly.
    published = lines(MethodName.ACCENTUATED_LOWERING, of("125 kg"), exercise="bench press")[0]
    assert str(published.prescription) == (
        "bench press 3x5 @ 100 kg 3-0-X-0 lower @ 130 kg rest 4:00 method accentuated-lowering"
    )
    assert published.why[:2] == (
        "80% of 125 kg = 100, loadable 100 kg",
        "lowered: 105% of 125 kg = 131.25, loadable 130 kg",
    )
    assert "Wagle et al. 2018, Sports 6:59" in " ".join(published.why)


def test_a_share_of_120_kg_is_loadable_at_125() -> None:
    first = lines(MethodName.OVERLOADED_LOWERING, of("120 kg"))[0]
    assert first.why[0] == "105% of 120 kg = 126, loadable 125 kg"


@EVERY
def test_without_a_max_a_line_by_effort_is_given_or_it_is_said_how_to_get_one(
    method: Method,
) -> None:
    if method.is_overload:
        with pytest.raises(OutOfRange, match="needs a max of 'front squat'") as refused:
            lines(method)
        assert "max add" in refused.value.hint
    else:
        assert [one.prescription.load for one in lines(method)] == [None] * len(method.starts)
        assert all("load" in " ".join(one.why) for one in lines(method))


@EVERY
def test_whom_the_coach_has_not_cleared_gets_no_overload(method: Method) -> None:
    if method.is_overload:
        with pytest.raises(OutOfRange, match="the coach has not cleared this lifter"):
            lines(method, of("100 kg"), is_cleared=False)
    else:
        assert lines(method, of("100 kg"), is_cleared=False)


def test_the_lower_can_be_asked_for() -> None:
    slow = lines(MethodName.SLOW_LOWERING, of("100 kg"), lower_ms=6000)[0]
    assert str(slow.prescription.tempo) == "6-0-1-0"
    assert "6 s down: as asked for" in slow.why


@pytest.mark.parametrize(
    ("exercise", "said"),
    [
        ("squat 3x5", "'squat 3x5' is more than an exercise; leave sets, load and tempo out"),
        ("squat @ 80 kg", "column 7: the load comes behind sets and reps"),
        ("", "column 1: the exercise is missing"),
    ],
)
def test_what_is_no_exercise_is_refused(exercise: str, said: str) -> None:
    with pytest.raises(TempoCoachError) as refused:
        lines(MethodName.LEARNING, exercise=exercise)
    assert str(refused.value).startswith(said)


_maxes = st.lists(
    st.builds(
        Max,
        exercise=st.just("front squat"),
        load=st.integers(1, 300).map(lambda kg: parse_load(f"{kg} kg")),
        on=st.dates(date(2026, 1, 1), date(2026, 12, 31)),
        lower_s=st.none() | st.floats(0, 60),
    ),
    min_size=1,
    max_size=5,
    unique_by=lambda one: (one.on, one.lower_s),
)


@given(_maxes, st.lists(st.integers(1_000, 60_000), min_size=2, max_size=2).map(sorted))
def test_a_slower_lower_is_never_given_more(maxes: list[Max], lowers_ms: list[int]) -> None:
    # Wilk et al. 2020, J Hum Kinet 72:151, 10.2478/hukin-2020-0001: the 1RM of 90 men fell from
    # V and 5 s to 8 and 10 s of lowering.
    lifter = Lifter(name="Mirela Oude", maxes=tuple(maxes))

    def best_for(lower_s: float) -> Best | None:
        return LifterRecord(lifter.name, lifter).best("front squat", lower_s=lower_s)

    faster, slower = (
        lines(MethodName.SLOW_LOWERING, best_for, lower_ms=lower_ms)[0].prescription.load
        for lower_ms in lowers_ms
    )
    assert faster is not None
    assert slower is not None
    assert slower.amount <= faster.amount
