from __future__ import annotations

from tempo_coach.core.export_columns import COLUMNS, By, named
from tempo_coach.core.facts import Fact
from tempo_coach.core.max_rows import max_rows
from tempo_coach.core.rep_equations import band
from tests.tempo_coach.core.done_sets import done_set, max_tested
from tests.tempo_coach.core.text_logs import log_of, merge_of


def test_rows_come_by_lifter_exercise_and_date_each_with_every_column() -> None:
    facts: list[Fact] = [
        done_set(),
        max_tested(),
        max_tested(id="a", lifter="Ada Bremm"),
        max_tested(id="b", exercise="bench press"),
    ]
    logs = merge_of(log_of(facts))

    cells = [row.cells() for row in max_rows(logs.maxes.tested, logs, logs.rows)]

    assert [(row["lifter"], row["exercise"], row["what"]) for row in cells] == [
        ("Ada Bremm", "front squat", "lifted"),
        ("Ansa Vireo", "bench press", "lifted"),
        ("Ansa Vireo", "front squat", "estimated"),
        ("Ansa Vireo", "front squat", "lifted"),
    ]
    assert all(set(row) == set(named(COLUMNS[By.MAX])) for row in cells)


def test_an_estimate_has_its_set_and_its_band_and_a_test_its_lower() -> None:
    logs = merge_of(log_of([done_set(), max_tested(note="pins")]))

    estimated, tested = (row.cells() for row in max_rows(logs.maxes.tested, logs, logs.rows))

    said = band(80, reps=7)
    assert (estimated["load_kg"], estimated["reps_done"], estimated["effort"]) == (80.0, 5, 8.0)
    assert estimated["estimated_low_kg"] == round(said.low_kg, 3)
    assert estimated["estimated_high_kg"] == round(said.high_kg, 3)
    assert (estimated["tempo"], estimated["lower_s"]) == ("4-1-X-1", None)
    assert (tested["load_kg"], tested["lower_s"], tested["note"]) == (90.0, 2.0, "pins")
    assert (tested["tempo"], tested["estimated_kg"]) == (None, None)
