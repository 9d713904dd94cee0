from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from tempo_coach.core.facts import MaxTested, SetDone
from tempo_coach.core.max_doubts import max_doubts
from tempo_coach.core.max_estimates import tempo_records
from tempo_coach.core.maxes import known_maxes
from tempo_coach.core.tempo import Allowances, parse_tempo
from tests.tempo_coach.core.done_sets import done_set, max_tested


def doubts(*facts: MaxTested | SetDone) -> list[str]:
    tested = sorted((f for f in facts if isinstance(f, MaxTested)), key=lambda one: one.at)
    records = tempo_records(fact for fact in facts if isinstance(fact, SetDone))
    known = known_maxes(tested, exercise="front squat")
    return list(max_doubts(known, records, allowances=Allowances()))


def easy(**changes: Any) -> SetDone:
    """Return a set that no estimate rests on."""
    tempo = parse_tempo(changes.pop("tempo", "2-0-1-0"))
    return done_set(**({"effort": 5.0, "tempo": tempo} | changes))


def lowered(kg: float, lower_s: float = 3.0) -> MaxTested:
    return max_tested(id="low", what="lowered", load_kg=kg, lower_s=lower_s)


def test_maxes_and_sets_that_fit_leave_no_doubt() -> None:
    assert doubts(max_tested(), lowered(100), easy(load_kg=90.0)) == []
    assert doubts() == []


def test_a_max_below_a_set_is_said_with_the_set() -> None:
    (said,) = doubts(max_tested(), easy(load_kg=92.5, reps_done=2), easy(id="b", load_kg=91.0))
    assert said == (
        "the 90 kg lifted after a lower of 2 s (log, 2026-11-20) is below a set of the log: "
        "2 × 92.5 kg at 2-0-1-0 on 2026-03-02 (set 5c2e); test it again, or correct the set"
    )


@pytest.mark.parametrize(
    ("lower_s", "tempo", "doubted"),
    [
        (2.0, "4-0-1-0", True),
        (4.0, "3-0-1-0", False),
        (None, "2-0-1-0", True),
        (None, "1-0-1-0", False),
        (1.0, "X-0-1-0", True),
        (2.0, "X-0-1-0", False),
        (2.0, "4-0-A-0", False),
        (2.0, "4-0-0-0", False),
    ],
)
def test_only_a_lift_lowered_as_slowly_or_more_slowly_speaks_against_a_max(
    lower_s: float | None, tempo: str, doubted: bool
) -> None:
    found = doubts(max_tested(lower_s=lower_s), easy(load_kg=95.0, tempo=tempo))
    assert bool(found) is doubted


def test_a_lower_with_help_on_the_way_up_speaks_against_a_lowered_max() -> None:
    (said,) = doubts(lowered(100), easy(load_kg=105.0, tempo="3-0-A-0"))
    assert said.startswith("the 100 kg lowered in 3 s (log, 2026-11-20) is below a set of the log")


def test_an_attempt_of_a_reserve_test_speaks_against_nothing() -> None:
    attempt = easy(load_kg=105.0, tempo="5-0-A-0", method="reserve-test")
    assert doubts(lowered(100), attempt) == []


def test_a_set_without_a_rep_speaks_against_nothing() -> None:
    assert doubts(max_tested(), easy(load_kg=120.0, reps_done=0)) == []


def test_a_lowered_max_below_the_lifted_one_is_said() -> None:
    (said,) = doubts(max_tested(), lowered(85))
    assert "the 85 kg lowered in 3 s" in said
    assert "is below the 90 kg lifted after a lower of 2 s" in said


@pytest.mark.parametrize(
    ("kg", "asked"),
    # 2.46 has been measured, so it is asked about and not refused.
    [(90 * 1.5, False), (90 * 1.51, True), (90 * 2.46, True)],
)
def test_a_reserve_that_is_rarely_measured_is_asked_about(kg: float, asked: bool) -> None:
    found = doubts(max_tested(), lowered(kg))
    assert any("above 1.5 is rare" in said for said in found) is asked


def test_a_larger_max_at_a_slower_lower_is_said() -> None:
    slow = max_tested(id="slow", load_kg=95.0, lower_s=5.0)
    (said,) = doubts(max_tested(), slow, max_tested(id="untimed", lower_s=None, load_kg=120.0))
    assert said.startswith("the 95 kg lifted after a lower of 5 s (log, 2026-11-20) is above")
    assert "the 90 kg lifted after a lower of 2 s" in said


def test_an_estimate_at_a_slower_tempo_above_the_max_is_said() -> None:
    hard = done_set(load_kg=85.0, reps_done=5, effort=9.0)
    (said,) = doubts(max_tested(), hard)
    assert "is below what the sets at 4-1-X-1 let expect: " in said
    assert doubts(max_tested(lower_s=5.0), hard) == []


def test_only_the_latest_max_of_a_lower_is_doubted() -> None:
    later = max_tested(id="b", at=max_tested().at + timedelta(days=9), load_kg=95.0)
    assert doubts(max_tested(), later, easy(load_kg=92.5)) == []
