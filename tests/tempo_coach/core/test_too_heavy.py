from __future__ import annotations

from datetime import datetime, timedelta
from itertools import count

import pytest

from tempo_coach.core.adherence import USUAL_BAND
from tempo_coach.core.facts import SetDone
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.tempo import parse_tempo
from tempo_coach.core.too_heavy import FORGOTTEN, ShortLower, short_lower, too_heavy_words
from tempo_coach.core.work import PhaseTimes
from tests.tempo_coach.core.done_sets import MONDAY, done_set

SHORT, KEPT = 3_100, 3_900
_numbers = count(1)


def tapped(
    lower_ms: int, *, kg: float = 80.0, days: int = 0, tempo: str = "4-1-X-1"
) -> tuple[SetDone, SetMeasured]:
    at = MONDAY + timedelta(days=days)
    done = done_set(id=f"{next(_numbers):x}", started_at=at, ended_at=at + timedelta(seconds=35),
                    load_kg=kg, tempo=parse_tempo(tempo))  # fmt: skip
    reps = [MeasuredRep(lower_ms, 1000, 800, None)] * 3
    return done, SetMeasured.of(done.id, reps, times=PhaseTimes(), by="tapped", at=at)


def found(
    *tapped_sets: tuple[SetDone, SetMeasured],
    kg: float = 80.0,
    lower_ms: int = 4000,
    exercise: str = "Front Squat",
    at: datetime = MONDAY + timedelta(days=7),
) -> ShortLower | None:
    return short_lower(
        exercise,
        lower_ms=lower_ms,
        kg=kg,
        sets=[done for done, _ in tapped_sets],
        measured={done.id: measured for done, measured in tapped_sets},
        at=at,
        band=USUAL_BAND,
    )


def test_a_lower_that_fell_short_says_too_heavy_with_the_evidence() -> None:
    spoken = found(tapped(SHORT))

    assert spoken is not None
    assert too_heavy_words("front squat", lower_ms=4000, kg=80, found=spoken) == (
        "front squat: 80 kg is too heavy for a lower of 4 s: on 2026-03-02 3 of 3 measured lowers "
        "of 4 s at 80 kg were short, by 0.9 s on the mean."
    )


@pytest.mark.parametrize(("kg", "lower_ms"), [(82.5, 4000), (80, 5000)])
def test_it_speaks_against_more_load_and_a_slower_lower_too(kg: float, lower_ms: int) -> None:
    assert found(tapped(SHORT), kg=kg, lower_ms=lower_ms) is not None


@pytest.mark.parametrize(("kg", "lower_ms"), [(77.5, 4000), (80, 3000)])
def test_it_says_nothing_of_less_load_or_a_faster_lower(kg: float, lower_ms: int) -> None:
    assert found(tapped(SHORT), kg=kg, lower_ms=lower_ms) is None


def test_it_says_nothing_of_another_exercise() -> None:
    assert found(tapped(SHORT), exercise="bench press") is None


@pytest.mark.parametrize(("kg", "tempo"), [(80, "4-1-X-1"), (85, "4-1-X-1"), (80, "5-1-X-1")])
def test_a_later_set_that_was_kept_with_as_much_answers_it(kg: float, tempo: str) -> None:
    kept = tapped(KEPT if tempo.startswith("4") else 4_900, kg=kg, days=3, tempo=tempo)

    assert found(tapped(SHORT), kept) is None


def test_a_later_set_that_was_kept_with_less_does_not() -> None:
    assert found(tapped(SHORT), tapped(KEPT, kg=75, days=3)) is not None


def test_what_was_kept_before_does_not_answer_what_fell_short_later() -> None:
    assert found(tapped(KEPT), tapped(SHORT, days=3)) is not None


def test_after_twelve_weeks_it_is_forgotten() -> None:
    assert found(tapped(SHORT), at=MONDAY + FORGOTTEN) is not None
    assert found(tapped(SHORT), at=MONDAY + FORGOTTEN + timedelta(days=1)) is None


def test_paced_sets_say_nothing() -> None:
    done, _ = tapped(SHORT)

    spoken = short_lower("front squat", lower_ms=4000, kg=80, sets=[done], measured={}, at=MONDAY,
                         band=USUAL_BAND)  # fmt: skip

    assert spoken is None
