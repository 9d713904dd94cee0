from __future__ import annotations

from datetime import date

import pytest

from tempo_coach.core.plan_cells import Row, SheetDate
from tempo_coach.core.plan_columns import find_headings
from tempo_coach.core.plan_rows import RowRead, read_rows

HEADINGS = ("Week", "Day", "Exercise", "Sets", "Reps", "Tempo", "Load", "% 1RM", "Rest", "Note")


def read(*rows: Row, headings: tuple[str, ...] = HEADINGS) -> list[RowRead]:
    table = (headings, *rows)
    found = find_headings(table)
    assert found is not None
    return list(read_rows(table, found))


def squat(week: object = None, day: object = None, **cells: object) -> Row:
    """Return a row of front squats; the cells take the place of its own."""
    own = {
        "Week": week, "Day": day, "Exercise": "front squat", "Sets": 4, "Reps": 5,
        "Tempo": "4-1-X-1", "Load": None, "% 1RM": None, "Rest": None, "Note": None,
    } | cells  # fmt: skip
    return tuple(own[heading] for heading in HEADINGS)  # type: ignore[misc] # any value, on purpose


def test_a_row_is_a_line_with_its_week_and_day() -> None:
    row = read(squat(2, "Thu", Load="80 kg", Rest="3:00", Note="heels  down"))[0]
    assert (row.row, row.weeks, row.day, row.note) == (2, range(2, 3), "Thursday", "heels down")
    assert str(row.line) == "front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00"
    assert row.remarks == ()


def test_a_blank_week_or_day_is_that_of_the_row_above() -> None:
    rows = read(squat(1, "Mon"), squat(), (), squat(None, "Fri"), squat(2, None), (3,), squat())
    assert [(row.row, row.weeks[0], row.day) for row in rows] == [
        (2, 1, "Monday"),
        (3, 1, "Monday"),
        (5, 1, "Friday"),
        (6, 2, "Friday"),
        (8, 3, "Friday"),
    ]


def test_titles_between_the_rows_turn_the_week_and_the_day() -> None:
    rows = read(("Week 3: heavy",), (None, "Dienstag"), squat(), ("Day 4",), squat())
    assert [(row.weeks[0], row.day) for row in rows] == [(3, "Tuesday"), (3, "Thursday")]


@pytest.mark.parametrize(
    ("day", "weekday"),
    [
        ("lundi", "Monday"),
        ("mié", "Wednesday"),
        ("Do", "Thursday"),
        ("SATURDAY pm", "Saturday"),
        ("Domingo", "Sunday"),
        ("samedi", "Saturday"),
        ("Tues.", "Tuesday"),
    ],
)
def test_weekdays_are_known_in_several_languages(day: str, weekday: str) -> None:
    assert read(squat(1, day))[0].day == weekday


def test_days_that_are_no_weekdays_are_put_on_some_and_that_is_said_once() -> None:
    rows = read(squat(1, "A"), squat(1, "B"), squat(2, "A"), squat(2, "Day 5"))
    assert [row.day for row in rows] == ["Monday", "Tuesday", "Monday", "Friday"]
    assert [row.remarks for row in rows] == [
        ("the day 'A' was put on Monday",),
        ("the day 'B' was put on Tuesday",),
        (),
        ("the day 'Day 5' was put on Friday",),
    ]


def test_dates_give_the_weekday_and_without_weeks_the_week_too() -> None:
    days = [SheetDate(date(2026, 12, day), "dmy") for day in (2, 4, 9)]
    dated = [squat(None, day)[1:] for day in days]
    rows = read(*dated, headings=HEADINGS[1:])
    assert [(row.weeks[0], row.day) for row in rows] == [
        (1, "Wednesday"),
        (1, "Friday"),
        (2, "Wednesday"),
    ]


def test_dates_of_a_text_are_those_of_a_workbook() -> None:
    dated = [squat(None, day)[1:] for day in ("2026-12-02", "2026-12-09 00:00:00")]
    rows = read(*dated, headings=HEADINGS[1:])
    assert [(row.weeks[0], row.day, row.remarks) for row in rows] == [
        (1, "Wednesday", ()),
        (2, "Wednesday", ()),
    ]


def test_a_date_before_the_first_is_put_in_the_week_of_the_row_above_and_that_is_said() -> None:
    dated = [squat(None, day)[1:] for day in ("2026-12-02", "2026-12-09", "2026-11-24")]
    last = read(*dated, headings=HEADINGS[1:])[-1]
    assert (last.weeks[0], last.day) == (2, "Tuesday")
    assert last.remarks == (
        "2026-11-24 is before the week of the first date; it was put in week 2",
    )


def test_dates_that_are_none_are_said_and_put_on_a_day_as_other_words_are() -> None:
    rows = read(squat(1, "2026-11-31"), squat(1, "2.12.2026"))
    assert [row.day for row in rows] == ["Monday", "Tuesday"]
    assert [row.remarks for row in rows] == [
        ("there is no 2026-11-31; that month ends on 2026-11-30; it was put on Monday",),
        (
            "'2.12.2026' is no date; a date is written year-month-day, such as 2026-11-30; "
            "it was put on Tuesday",
        ),
    ]


@pytest.mark.parametrize(
    ("cells", "why"),
    [
        (
            {"Exercise": None, "Note": "x"},
            "the name of the exercise is empty; give at least one letter",
        ),
        ({"Exercise": "a" * 81}, "the name of the exercise has 81 characters; at most 80"),
        ({"Sets": None}, "the sets are missing; one whole number from 1 to 30"),
        ({"Reps": "8-10"}, "'8-10' is no number of reps; one whole number from 1 to 100"),
        ({"Tempo": None}, "the tempo is missing; lower-pause-raise-top, such as 4-1-X-1"),
        (
            {"Tempo": "301"},
            "'301' is no tempo: without separators it is exactly four characters; write 3-0-1",
        ),
        (
            {"Reps": 100, "Tempo": "9-0-1-0"},
            "100 reps of 10 s take 1000 s, and a set is at most 600 s; at most 60 reps",
        ),
        (
            {"Exercise": "2x20 squat"},
            "'2x20 squat' can't stand before sets and reps; give it another name",
        ),
    ],
)
def test_a_row_that_is_not_understood_says_why(cells: dict[str, object], why: str) -> None:
    row = read(squat(1, "Mon", **cells))[0]
    assert row.line is None
    assert row.remarks[0].startswith(why)


@pytest.mark.parametrize(
    ("cells", "line", "remark"),
    [
        ({"Load": "heavy"}, "front squat 4x5 4-1-X-1", "left out: 'heavy' is no load; "),
        ({"Rest": "2-3 min"}, "front squat 4x5 4-1-X-1", "left out: '2-3 min' is no rest; "),
        ({"Rest": 3}, "front squat 4x5 4-1-X-1 rest 3:00", "the rest 3 was read as minutes"),
        (
            {"Load": 80, "% 1RM": 72},
            "front squat 4x5 @ 80 kg 4-1-X-1",
            "left out: 72%, since the load 80 kg stands beside it",
        ),
        (
            {"Week": "deload"},
            "front squat 4x5 4-1-X-1",
            "'deload' is no week; it was read as week 1",
        ),
        ({"Note": "x" * 2001}, "front squat 4x5 4-1-X-1", "the note was cut at 2000 characters"),
    ],
)
def test_what_is_left_out_or_guessed_is_said(
    cells: dict[str, object], line: str, remark: str
) -> None:
    row = read(squat(1, "Mon", **cells))[0]
    assert str(row.line) == line
    assert row.remarks[0].startswith(remark)


def test_sets_and_reps_may_stand_in_one_cell() -> None:
    headings = ("Exercise", "Sets x Reps", "Tempo")
    assert str(read(("row", "4 x 5", "4111"), headings=headings)[0].line) == "row 4x5 4-1-1-1"
    assert str(read(squat(Sets=None, Reps="3×max"))[0].line) == "front squat 3xmax 4-1-X-1"
