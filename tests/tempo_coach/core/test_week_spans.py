from __future__ import annotations

from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.week_spans import WeekSpan, week_span
from tempo_coach.core.weeks import IsoWeek
from tests.tempo_coach.core.done_sets import MONDAY, done_set, seconds

LAST = IsoWeek.of(MONDAY.date())


def span_of(*work: tuple[int, str, float], most: int = 5, weeks: int = 4) -> WeekSpan:
    """Return the weeks of sets so many weeks back, of an exercise, with so many seconds."""
    sets = (
        done_set(
            id=str(number),
            started_at=MONDAY - timedelta(weeks=back),
            exercise=exercise,
            seconds=seconds(lower=lower),
        )
        for number, (back, exercise, lower) in enumerate(work)
    )
    return week_span(SetRows.of(sets), through=LAST, weeks=weeks, most_exercises=most)


def test_weeks_without_sets_stand_there_too_but_none_before_the_first_on_record() -> None:
    span = span_of((2, "row", 30), (0, "row", 10))

    assert [str(week) for week in span.weeks] == ["2026-W08", "2026-W09", "2026-W10"]
    assert [totals.times.lower_ms for totals in span.totals] == [30_000, 0, 10_000]


def test_the_first_week_on_record_has_none_before() -> None:
    assert span_of((0, "row", 10)).before is None
    assert span_of((9, "row", 30), (0, "row", 10)).before is not None


def test_exercises_come_by_lowering_time_and_the_last_share_a_line() -> None:
    span = span_of((0, "a", 10), (0, "b", 30), (0, "c", 20), (1, "d", 90), most=3)

    assert [one.name for one in span.exercises] == ["b", "c", "2 others"]
    assert [one.totals[-1].times.lower_ms for one in span.exercises] == [30_000, 20_000, 10_000]


@given(
    st.lists(
        st.tuples(st.integers(0, 6), st.sampled_from("abcdef"), st.integers(0, 500)), max_size=20
    ),
    st.integers(2, 6),
)
def test_the_exercises_add_up_to_each_week(work: list[tuple[int, str, float]], most: int) -> None:
    span = span_of(*work, most=most)

    assert len(span.exercises) <= most
    for place, total in enumerate(span.totals):
        parts = [one.totals[place] for one in span.exercises]
        assert sum(part.sets for part in parts) == total.sets
        assert sum(part.times.lower_ms for part in parts) == total.times.lower_ms
