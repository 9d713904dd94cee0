from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_cells import Row
from tempo_coach.core.plan_reading import read_plan
from tempo_coach.core.plan_table import Sheet, TableReading, imported_text, read_table
from tempo_coach.errors import OutOfRange, TableRefused
from tests.tempo_coach.core.plans import TODAY
from tests.tempo_coach.core.test_plan_cells import cells

START = date(2026, 11, 30)
HEADINGS: Row = ("Week", "Day", "Exercise", "Sets", "Reps", "Tempo", "Load", "Note")
ROWS: tuple[Row, ...] = (
    HEADINGS,
    (1, "Mon", "front squat", 4, 5, "4-1-X-1", "72%", "heels down"),
    (1, "Mon", "row", 3, 8, "2-0-1-1", 45, None),
    (1, "Thu", "chin-up", 3, 5, "5-0-X-0", "bw", None),
    (2, "Mon", "Front squat", 4, 4, "5-1-X-1", "77%", "chest up"),
    (3, "Mon", "front squat", 4, 4, "5-1-X-1", "77%", None),
    (3, "Mon", "front squat", 1, 8, "2-0-1-0", "50%", None),
)


def table(*rows: Row, start: date = START, name: str = "winter") -> TableReading:
    return read_table([Sheet("one", rows)], name=name, start=start, lifter="Sabine Ihle")


def works(plan: Plan) -> dict[str, list[list[str]]]:
    """Return the lines of each day's work, week by week."""
    return {
        day.day: [
            [str(work.in_week(week) or "off") for week in range(1, plan.weeks + 1)]
            for work in day.work
        ]
        for day in plan.days
    }


def test_the_weeks_of_an_exercise_become_one_piece_of_work() -> None:
    plan = table(*ROWS).plan
    later = "Front squat 4x4 @ 77% 5-1-X-1"
    assert works(plan) == {
        "Monday": [
            ["front squat 4x5 @ 72% 4-1-X-1", later, later.lower().replace("-x-", "-X-")],
            ["row 3x8 @ 45 kg 2-0-1-1", "off", "off"],
            ["off", "off", "front squat 1x8 @ 50% 2-0-1-0"],
        ],
        "Thursday": [["chin-up 3x5 @ bw 5-0-X-0", "off", "off"]],
    }
    assert plan.days[0].work[0].note == "week 1: heels down; week 2: chest up"


def test_the_first_week_of_the_table_is_week_1() -> None:
    shifted = tuple((row[0] + 4, *row[1:]) for row in ROWS[1:] if isinstance(row[0], int))
    assert table(HEADINGS, *shifted).plan == table(*ROWS).plan


def test_a_row_for_several_weeks_holds_in_each() -> None:
    plan = table(HEADINGS, ("1-3", "Mon", "row", 3, 8, "2-0-1-1", None, None)).plan
    assert (plan.weeks, plan.days[0].work[0].from_week) == (3, {})


def test_the_sheet_with_the_most_of_the_usual_columns_counts() -> None:
    sheets = [Sheet("list", (("Exercise", "Tempo"),)), Sheet("plan", ROWS)]
    assert read_table(sheets, name="x", start=START, lifter="Sabine Ihle").sheet == "plan"


def test_the_written_plan_reads_as_itself_and_names_the_missing_maxes() -> None:
    reading = table(*ROWS)
    text, missing = imported_text(reading, source="winter.xlsx", today=TODAY)
    read = read_plan(text, today=TODAY)
    assert read.plan == reading.plan
    assert missing == (
        "72% of 'front squat': 'Sabine Ihle' has no max of it; "
        "give one in [[lifters.maxes]] behind the lifter",
    )
    assert text.startswith(f"# Made of winter.xlsx.\n# Still missing: {missing[0]}.\n")


def test_a_table_without_shares_misses_nothing() -> None:
    reading = table(HEADINGS, ROWS[2])
    text, missing = imported_text(reading, source="winter.csv", today=TODAY)
    assert missing == ()
    assert read_plan(text, today=TODAY).faults == ()


def test_a_table_of_which_nothing_is_understood_is_refused_and_says_why() -> None:
    with pytest.raises(TableRefused, match="no row of headings that is understood; such as week"):
        table(("a", "b"), ("c", "d"))
    with pytest.raises(
        TableRefused, match=r"no row .*, the first, row 2: the reps are missing; one"
    ):
        table(HEADINGS, (1, "Mon", "row", 3, None, "2-0-1-1"))
    with pytest.raises(
        TableRefused, match="no row beneath the headings could be understood; each has"
    ):
        table(HEADINGS)


def test_more_weeks_than_a_plan_has_or_a_start_outside_the_calendar_are_refused() -> None:
    late: Row = (180, "Mon", "row", 3, 8, "2-0-1-1", None, None)
    with pytest.raises(OutOfRange, match="spans 180 weeks; at most 104"):
        table(*ROWS, late)
    with pytest.raises(OutOfRange, match="can't start on 1066-10-14; 1970-01-01 to 2999-12-31"):
        table(*ROWS, start=date(1066, 10, 14))


def test_a_name_that_no_plan_can_have_becomes_one() -> None:
    assert table(*ROWS, name="  ").plan.name == "Plan"
    assert len(table(*ROWS, name="x" * 300).plan.name) == 80


_rows = st.lists(
    st.tuples(*(cells for _ in HEADINGS))
    | st.sampled_from(ROWS)
    | st.builds(
        lambda row, place, cell: (*row[:place], cell, *row[place + 1 :]),
        st.sampled_from(ROWS),
        st.integers(0, 7),
        cells,
    ),
    max_size=6,
)


@given(_rows)
def test_any_table_is_a_plan_that_reads_as_itself_or_is_refused(rows: list[Row]) -> None:
    try:
        reading = table(HEADINGS, *rows)
    except (TableRefused, OutOfRange):
        return
    text, missing = imported_text(reading, source="any", today=TODAY)
    read = read_plan(text, today=TODAY)
    assert read.plan == reading.plan
    assert len(read.faults) == len(missing)
