from __future__ import annotations

from datetime import datetime, timedelta
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.facts import SetDone
from tempo_coach.core.set_rows import SetRows, phases_by_allowance
from tempo_coach.core.tempo import Phase, parse_tempo
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.done_sets import MONDAY, done_set


def test_only_speeds_of_a_paced_set_rest_on_allowances() -> None:
    tempo = parse_tempo("V-1-X-1")
    assert phases_by_allowance(tempo, "paced") == (Phase.LOWER, Phase.RAISE)
    assert phases_by_allowance(tempo, "tapped") == ()


def test_a_name_is_as_last_written_and_the_order_of_reading_does_not_matter() -> None:
    sets = [
        done_set(id="a", lifter="oda falk"),
        done_set(id="b", lifter="ODA FALK", started_at=MONDAY + timedelta(hours=1)),
        done_set(id="c", lifter="Oda Falk", started_at=MONDAY + timedelta(hours=1)),
        done_set(id="d", lifter="Ansa Vireo"),
    ]
    for seed in range(4):
        Random(seed).shuffle(sets)  # noqa: S311 - the same orders in every run
        assert SetRows.of(sets).lifters == ("Ansa Vireo", "Oda Falk")


@given(st.lists(strategies.sets_done, min_size=1, max_size=8))
@strategies.WHOLE_LOGS
def test_the_week_of_a_row_begins_on_the_monday_of_its_local_date(sets: list[SetDone]) -> None:
    mondays = SetRows.of(sets).mondays().tolist()
    assert mondays == [
        (one.started_at.date() - timedelta(days=one.started_at.weekday())).toordinal()
        for one in sets
    ]


def test_rows_are_chosen_with_their_names() -> None:
    first = datetime.fromisoformat("0001-01-01T00:00:00+14:00")
    rows = SetRows.of([done_set(id="a", started_at=first), done_set(id="b", lifter="Oda Falk")])
    kept = rows.where(rows.data["lifter"] == 1)
    assert (len(kept), kept.lifters[1]) == (1, "Oda Falk")
