from __future__ import annotations

import pytest

from tempo_coach.core.load import LoadUnit
from tempo_coach.core.plan_columns import Column, find_headings


@pytest.mark.parametrize(
    ("heading", "column"),
    [
        *((text, Column.WEEK) for text in ("Week", "WK", "Week no.", "Woche", "Semaine", "Semana")),
        *((text, Column.DAY) for text in ("Day", "Weekday", "Date", "Tag", "Jour", "Día")),
        *(
            (text, Column.SETS)
            for text in ("Sets", "set", "# Sets", "Sätze", "Séries", "No. of sets")
        ),
        *((text, Column.REPS) for text in ("Reps", "Rep.", "Reps/Set", "Répétitions", "Wdh.")),
        *((text, Column.SCHEME) for text in ("Sets x Reps", "Sets × Reps", "Set/Rep", "SxR")),
        *((text, Column.TEMPO) for text in ("Tempo", "TEMPO:", "Kadenz")),
        *(
            (text, Column.LOAD)
            for text in ("Load", "Weight (kg)", "kg", "Gewicht", "Poids", "Carga")
        ),
        *(
            (text, Column.SHARE)
            for text in ("%", "% 1RM", "1RM %", "% of 1RM", "Percent", "Intensity (%)")
        ),
        *(
            (text, Column.REST)
            for text in ("Rest", "Rest (s)", "REST [min]", "Pause", "Repos", "Descanso")
        ),
        *(
            (text, Column.NOTE)
            for text in ("Notes", "Comments", "Coaching notes", "Bemerkungen", "Notas")
        ),
    ],
)
def test_a_column_is_known_by_its_usual_headings(heading: str, column: Column) -> None:
    headings = find_headings([("Exercise", heading)])
    assert headings is not None
    assert [one.column for one in headings.found] == [Column.EXERCISE, column]


@pytest.mark.parametrize(
    "exercise", ["Exercise", "movement", "Übung", "UEBUNG", "Exercice", "Ejercicio"]
)
def test_an_exercise_is_known_in_several_languages(exercise: str) -> None:
    assert find_headings([(exercise, "Tempo")]) is not None


@pytest.mark.parametrize("rows", [[], [()], [("TUT", "RPE")], [("Exercise",)], [("Sets", "Reps")]])
def test_without_an_exercise_and_another_column_there_are_no_headings(
    rows: list[tuple[str, ...]],
) -> None:
    assert find_headings(rows) is None


def test_the_row_that_names_most_columns_is_that_of_the_headings() -> None:
    rows = [
        ("Winter block", None),
        ("Exercise", "list"),
        ("Exercise", "Sets", "Reps"),
        ("row", 4, 5),
    ]
    headings = find_headings(rows)
    assert headings is not None
    assert headings.row == 2


def test_headings_may_be_merged_over_two_rows() -> None:
    rows = [("Movement", "Prescription", None, None, "Rest"), (None, "Sets", "Reps", "Tempo", None)]
    headings = find_headings(rows)
    assert headings is not None
    assert [one.index for one in headings.found] == [0, 1, 2, 3, 4]
    assert headings.row == 1


def test_units_in_headings_count() -> None:
    headings = find_headings([("Exercise", "Weight (lbs)", "% 1RM", "Rest (min)")])
    assert headings is not None
    load, share, rest = (headings.of(column) for column in (Column.LOAD, Column.SHARE, Column.REST))
    assert load is not None
    assert share is not None
    assert rest is not None
    assert (load.load_unit(), share.load_unit(), rest.unit) == (
        LoadUnit.LB,
        LoadUnit.PERCENT,
        "min",
    )


def test_columns_that_are_not_known_or_stand_there_twice_are_left_out_and_named() -> None:
    headings = find_headings([("Exercise", "Reps", "RPE", "reps")])
    assert headings is not None
    assert headings.left_out == ("RPE", "reps")
    assert headings.cell(("row", 5, 8, 9), Column.REPS) == 5
    assert headings.cell(("row",), Column.REPS) is None
    assert headings.cell(("row", 5), Column.TEMPO) is None
