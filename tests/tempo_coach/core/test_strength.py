from __future__ import annotations

from datetime import date

import pytest

from tempo_coach.core.history import fold
from tempo_coach.core.load import parse_load
from tempo_coach.core.plan import Lifter, Max
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.strength import UNKNOWN, Best, LifterRecord, Strength
from tempo_coach.core.tempo import Allowances
from tests.tempo_coach.core.done_sets import max_tested

TESTED = Lifter(
    name="Mirela Oude",
    overload=True,
    maxes=tuple(
        Max(exercise="front squat", load=parse_load(load), on=date(2026, 11, 1), lower_s=lower_s)
        for load, lower_s in (("90 kg", 2.0), ("81 kg", 6.0))
    ),
)


@pytest.mark.parametrize(
    ("load", "share"),
    [("72%", 72.0), ("45 kg", 50.0), ("198.416 lb", 100.0), ("bw+10 kg", None), ("bw", None)],
)
def test_a_load_is_a_share_of_the_1rm_where_that_can_be_said(
    load: str, share: float | None
) -> None:
    known = Strength(lifted=Best(parse_load("90 kg"), ""))
    found = known.share(parse_load(load))
    assert found == (None if share is None else pytest.approx(share, abs=0.001))


def test_of_an_unknown_lifter_a_share_is_all_that_is_known() -> None:
    assert UNKNOWN.share(parse_load("72%")) == 72.0
    assert UNKNOWN.share(parse_load("80 kg")) is None
    assert UNKNOWN.kg(parse_load("72%")) is None
    assert UNKNOWN.kg(parse_load("80 kg")) == 80.0
    assert UNKNOWN.kg(None) is None


@pytest.mark.parametrize(("tempo", "load"), [("2-0-1-0", "90 kg"), ("6-0-1-0", "81 kg")])
def test_the_max_belongs_to_the_lines_lower(tempo: str, load: str) -> None:
    line = parse_prescription(f"Front Squat 4x5 @ 72% {tempo}")
    known = LifterRecord(TESTED.name, TESTED).strength_for(line, Allowances())
    assert known.lifted is not None
    assert str(known.lifted.load) == load
    assert str(known.lifted).startswith(f"{load} (the plan's max, lowered in {tempo[0]} s, tested")
    assert known.is_cleared is True


def test_of_another_exercise_and_of_nobody_no_max_is_known() -> None:
    line = parse_prescription("row 4x5 @ 72% 2-0-1-0")
    other = LifterRecord(TESTED.name, TESTED).strength_for(line, Allowances())
    assert other == Strength(is_cleared=True)
    assert LifterRecord("Ana").strength_for(line, Allowances()) == UNKNOWN


def test_the_logs_maxes_count_beside_the_plans_and_those_lowered_are_told_apart() -> None:
    recorded = fold(
        [
            max_tested(id="m1", lifter="Mirela Oude", load_kg=95.0),
            max_tested(id="m2", lifter="Mirela Oude", what="lowered", load_kg=105.0, lower_s=3.0),
            max_tested(id="m3", lifter="Jonne Tarval", load_kg=150.0),
        ]
    ).maxes
    line = parse_prescription("front squat 3x2 @ 110% 3-0-A-0 lowering only")
    known = LifterRecord("mirela oude", TESTED, recorded).strength_for(line, Allowances())

    assert str(known.lifted).startswith("95 kg (the log's max, lowered in 2 s")
    assert str(known.lowered).startswith("105 kg (the log's max, lowered in 3 s")
