from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

import pytest

from tempo_coach.core.export_columns import COLUMNS, By, Cells, named
from tempo_coach.core.export_tables import Choice, export_table
from tempo_coach.core.facts import Fact
from tempo_coach.core.soreness_facts import SorenessTold
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core.done_sets import MONDAY, done_set
from tests.tempo_coach.core.text_logs import log_of, merge_of

TUESDAY, WEDNESDAY = MONDAY + timedelta(days=1), MONDAY + timedelta(days=2)


def told(at: datetime, soreness: int, lifter: str = "ansa vireo") -> SorenessTold:
    return SorenessTold(id=f"{at}{lifter}", at=at, lifter=lifter, soreness=soreness)


FACTS: tuple[Fact, ...] = (
    told(MONDAY - timedelta(minutes=2), 2),
    done_set(id="1"),
    done_set(id="2", exercise="row", started_at=MONDAY + timedelta(minutes=5), method="hold"),
    told(TUESDAY, 7),
    done_set(id="3", started_at=WEDNESDAY, load_kg=None),
    told(WEDNESDAY, 4, "Oda Falk"),
)


def days(**choice: Any) -> list[tuple[object, ...]]:
    table = export_table(merge_of(log_of(FACTS)), By.DAY, Choice(**choice), today=WED)
    rows: list[Cells] = list(table.rows)
    assert table.length == len(rows)
    assert all(tuple(row) == named(COLUMNS[By.DAY]) for row in rows)
    return [(row["lifter"], row["date"], row["sets"], row["soreness"]) for row in rows]


MON, TUE, WED = (one.date() for one in (MONDAY, TUESDAY, WEDNESDAY))


def test_a_day_has_its_sums_and_what_was_told_of_soreness_also_where_nothing_was_lifted() -> None:
    assert days() == [
        ("Ansa Vireo", MON, 2, 2),
        ("Ansa Vireo", TUE, 0, 7),
        ("Ansa Vireo", WED, 1, None),
        ("Oda Falk", WED, 0, 4),
    ]


def test_a_day_s_sums_are_those_of_its_sets() -> None:
    rows = export_table(merge_of(log_of(FACTS)), By.DAY, Choice(), today=WED).rows

    first, rest, last, _ = rows

    assert (first["lower_s"], first["lowering_kg_s"], first["week"]) == (40.0, 3200.0, "2026-W10")
    assert (rest["lower_s"], rest["tension_s"], rest["tonnage_kg"]) == (0.0, 0.0, 0.0)
    assert (last["sets_without_load"], last["week_begins"]) == (1, date(2026, 3, 2))


@pytest.mark.parametrize(
    ("choice", "found"),
    [
        ({"lifters": ("oda falk",)}, [("Oda Falk", WED, 0, 4)]),
        ({"first": TUE, "last": TUE}, [("Ansa Vireo", TUE, 0, 7)]),
        ({"exercises": ("row",)}, [("Ansa Vireo", MON, 1, 2)]),
        ({"methods": ("hold",)}, [("Ansa Vireo", MON, 1, 2)]),
    ],
)
def test_a_choice_of_exercises_or_methods_leaves_out_days_without_their_sets(
    choice: dict[str, Any], found: list[tuple[object, ...]]
) -> None:
    assert days(**choice) == found


def test_a_lifter_who_only_told_of_soreness_is_known_as_last_written() -> None:
    facts = (*FACTS, told(MONDAY, 1, "ODA falk"))

    rows = export_table(merge_of(log_of(facts)), By.DAY, Choice(("Oda Falk",)), today=WED).rows

    assert {row["lifter"] for row in rows} == {"Oda Falk"}


def test_who_told_nothing_and_did_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange, match="no lifter 'Ivo Brand'"):
        days(lifters=("Ivo Brand",))
