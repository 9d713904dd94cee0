from __future__ import annotations

from datetime import date

from rich.cells import cell_len

from tempo_coach.core.marks import ALLOWED, OPEN_SETS
from tempo_coach.core.session import Session
from tempo_coach.core.tempo import Allowances
from tempo_coach.ui.day_sums import sum_notes, sum_rows
from tests.tempo_coach.core.done_sets import seconds
from tests.tempo_coach.core.plans import TEXT
from tests.tempo_coach.core.test_session import session, squat
from tests.tempo_coach.core.test_session_changed import changed


def rows(day: Session) -> list[str]:
    return [" ".join(row.split()) for row in sum_rows(day, Allowances(), width=70)]


def test_what_was_done_stands_beside_what_was_written() -> None:
    day = session(squat(1), squat(2, reps_done=4, seconds=seconds(lower=16.5)))

    assert rows(day) == [
        "done of written sets reps lowering s",
        "front squat 2 of 4 9 of 20 36.5 of 80",
        "chin-up 0 of 3 0 of 15 0 of 75",
        "the day 2 of 7 9 of 35 36.5 of 155",
    ]
    assert list(sum_notes(day)) == []


def test_what_is_written_stays_as_it_was_whatever_is_changed_today() -> None:
    assert rows(session(changed(change="added_set")))[-1] == "the day 0 of 7 0 of 35 0 of 155"


def test_allowances_and_open_sets_are_marked_and_explained() -> None:
    text = TEXT.replace("45 kg 2-0", "45 kg V-0").replace(
        'lead raise"', 'lead raise"\n[[days.work]]\nline = "row 2xmax 3-0-1-0"'
    )
    day = session(text=text, on=date(2026, 12, 3))

    assert rows(day)[1:] == [
        "bench pull 0 of 3 0 of 24 0 of ≈48",
        "row 0 of 2 0, open 0, open",
        "the day 0 of 5 0 of 24+ 0 of ≈48+",
    ]
    assert list(sum_notes(day)) == [ALLOWED, OPEN_SETS]


def test_a_small_window_cuts_names_alone() -> None:
    for width in (34, 60):
        assert {cell_len(row) for row in sum_rows(session(), Allowances(), width=width)} == {width}
