from __future__ import annotations

from datetime import timedelta

import pytest
from rich.cells import cell_len

from tempo_coach.core.facts import SetDone
from tempo_coach.core.marks import ALLOWED, NO_LOAD, OPEN_SETS
from tempo_coach.core.plan_sums import PlannedTotals
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.tempo import Allowances, parse_tempo
from tempo_coach.core.week_chart import ChartWeek, week_chart
from tempo_coach.core.weeks import IsoWeek
from tempo_coach.ui.weeks_words import chart_rows, notes, planned_words, sum_rows, week_words
from tests.tempo_coach.core.done_sets import MONDAY, done_set

TODAY = MONDAY.date()


def weeks_ago(weeks: int, **changes: object) -> SetDone:
    began = MONDAY - timedelta(weeks=weeks)
    fields = {"id": f"week-{weeks}", "started_at": began, "tempo": parse_tempo("4-1-1-1")}
    return done_set(**{**fields, "ended_at": began + timedelta(seconds=35), **changes})


def chart(*sets: SetDone) -> tuple[ChartWeek, ...]:
    return week_chart(sets, through=IsoWeek.of(TODAY))


def test_a_week_s_row_has_its_bar_its_seconds_and_the_change() -> None:
    weeks = chart(weeks_ago(3), weeks_ago(2), weeks_ago(2, id="b"), weeks_ago(0))
    heading, *rows = chart_rows(weeks, today=TODAY, width=40)

    assert heading.split() == ["week", "lowering", "s", "change"]
    assert [row.split() for row in rows[-4:]] == [
        ["2026-W07", "█████████", "20"],
        ["2026-W08", "█" * 18, "40", "+20"],
        ["2026-W09", "0", "-40"],
        ["2026-W10", "█████████", "20", "so", "far"],
    ]


@pytest.mark.parametrize("width", [34, 76, 156])
def test_rows_fill_any_window(width: int) -> None:
    weeks = chart(weeks_ago(1), weeks_ago(0, exercise="前蹲"), weeks_ago(0, exercise="e\u0301p"))

    assert {cell_len(row) for row in chart_rows(weeks, today=TODAY, width=width)} == {width}
    assert {cell_len(row) for row in sum_rows(weeks[-1], width=width)} == {width}


def test_lowering_at_an_own_speed_is_marked() -> None:
    weeks = chart(weeks_ago(1, tempo=parse_tempo("V-1-1-1")))

    assert "≈20" in chart_rows(weeks, today=TODAY, width=60)[-2].split()
    assert list(notes(weeks, None))[1:] == [ALLOWED]


def test_a_week_is_named_by_its_days() -> None:
    weeks = chart()

    assert week_words(weeks[-1], TODAY) == "2026-W10 · 2026-03-02 to 2026-03-08, so far"
    assert week_words(weeks[-2], TODAY) == "2026-W09 · 2026-02-23 to 2026-03-01"


def test_a_week_is_summed_up_by_exercise_and_in_all() -> None:
    week = chart(weeks_ago(0), weeks_ago(0, exercise="[b]row", load_kg=None))[-1]

    assert [" ".join(row.split()) for row in sum_rows(week, width=90)] == [
        "exercise sets reps lowering s tension s lowering load kg·s",
        "[b]row 1 5 20 35 0+",
        "front squat 1 5 20 35 1,600",
        "all 2 10 40 70 1,600+",
    ]


def test_one_exercise_needs_no_sum() -> None:
    assert len(sum_rows(chart(weeks_ago(0))[-1], width=90)) == 2


def test_planned_stands_before_done() -> None:
    lines = [parse_prescription("front squat 4x5 4-1-X-1"), parse_prescription("row 2xmax V-0-1-0")]
    planned = PlannedTotals.of(lines, allowances=Allowances())
    week = chart(weeks_ago(0))[-1]

    assert planned_words(week, planned) == (
        "Planned: 6 sets, 20+ reps, lowering 80+ s. Done: 1 set, 5 reps, 20 s."
    )
    assert list(notes([week], planned))[-1] == OPEN_SETS


def test_what_is_said_beneath_is_what_stands_above() -> None:
    own_measure = "Lowering load: load × seconds lowering, this tool's own measure."

    assert list(notes(chart(weeks_ago(0)), None)) == [own_measure]
    assert list(notes(chart(weeks_ago(0, load_kg=None)), None)) == [own_measure, NO_LOAD]
