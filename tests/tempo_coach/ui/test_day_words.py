from __future__ import annotations

from datetime import date, timedelta

from rich.cells import cell_len

from tempo_coach.core.facts import Fact
from tempo_coach.core.load import parse_load
from tempo_coach.core.loading import Rack
from tempo_coach.core.session import Session
from tempo_coach.core.settings import Settings
from tempo_coach.ui.day_words import (
    LABELS,
    day_words,
    heading_words,
    item_rows,
    item_words,
    reach_words,
)
from tests.tempo_coach.core.plans import TEXT, plan_of
from tests.tempo_coach.core.test_session import EVENING, MONDAY, chin_up, session, squat
from tests.tempo_coach.core.test_session_changed import AT, changed

LONG_NAME = "squat " * 12


RACK = Settings().rack


def words(
    label: str, *facts: Fact, item: int = 0, text: str = TEXT, rack: Rack | None = RACK
) -> str | None:
    day = session(*facts, text=text)
    said = dict(item_words(day, day.items[item], rack=rack))
    assert [one for one in LABELS if one in said] == list(said)
    return said.get(label)


def rows(day: Session, width: int = 78) -> list[str]:
    return [" ".join(row.split()) for row in item_rows(day, width=width)]


def test_a_day_is_named_by_the_calendar_and_by_the_plan() -> None:
    day, plan = session().day, plan_of(TEXT)

    rest = " · week 1 of 6 · Winter block"
    assert day_words(plan, day, MONDAY) == f"Monday 2026-11-30, today{rest}"
    assert day_words(plan, day, MONDAY + timedelta(days=1)) == f"Monday 2026-11-30, yesterday{rest}"
    assert day_words(plan, day, MONDAY - timedelta(days=1)) == f"Monday 2026-11-30, tomorrow{rest}"
    assert day_words(plan, day, date(2026, 11, 20)) == f"Monday 2026-11-30{rest}"


def test_a_row_says_what_is_to_be_done_what_was_and_what_is_next() -> None:
    assert rows(session(squat(1))) == [
        "work sets load tempo rest done",
        "front squat 4x5 65 kg 4-1-X-1 3:00 next: set 2",
        "chin-up 3x5 bw+10 kg 5-0-1-0 1:30 0 of 3",
        "the day 1 of 7",
    ]


def test_a_row_says_that_its_work_is_done_or_skipped() -> None:
    chins = [chin_up(number) for number in range(4)]

    assert [row.split(" ")[-3:] for row in rows(session(changed(), *chins))[1:3]] == [
        ["4-1-X-1", "3:00", "skipped"],
        ["of", "3,", "done"],
    ]


def test_rows_are_of_one_width_in_any_script() -> None:
    for exercise in ("前蹲" * 20, "سكوات أمامي", "e\u0301cole", LONG_NAME.strip(), "[b]row[/b]"):
        day = session(changed(change="swapped", exercise=exercise))

        for width in (36, 50, 76, 156):
            assert {cell_len(row) for row in item_rows(day, width=width)} == {width}


def test_a_narrow_window_keeps_the_work_and_what_was_done() -> None:
    assert rows(session(), width=36) == [
        "work sets done",
        "front squat 4x5 next: set 1",
        "chin-up 3x5 0 of 3",
        "the day 0 of 7",
    ]


def test_an_item_is_headed_by_where_it_stands() -> None:
    fresh, skipped = session(squat(1)), session(changed(why="[b]knee"))

    assert heading_words(fresh.items[0]) == "front squat · set 2 of 4"
    assert heading_words(skipped.items[0]) == "front squat · skipped: [b]knee"
    done = session(*(squat(number) for number in range(4)))
    assert heading_words(done.items[0]) == "front squat · done"


def test_a_share_of_a_max_is_worked_out() -> None:
    assert words("load") == (
        "72% of 90 kg = 64.8, loadable 65 kg (the plan's max, lowered in 2 s, tested 2026-11-12)"
    )
    assert words("load", item=1) == "bw+10 kg"
    weightless = TEXT.replace('body_mass = "68 kg"', "")
    assert words("load", item=1, text=weightless) == "bw+10 kg, without a body mass in the plan"


def test_a_share_of_an_unknown_max_asks_for_a_load() -> None:
    swapped = changed(change="swapped", exercise="hack squat")
    typed = changed("c2", at=AT + timedelta(minutes=1), change="load_changed",
                    load=parse_load("70 kg"))  # fmt: skip

    asked = "no max for hack squat: load by feel, or type one"
    assert words("load", swapped) == asked
    assert words("load", swapped, typed) == "70 kg"


def test_work_without_a_load_says_so() -> None:
    text = TEXT.replace(" @ 72%", "")

    assert words("load", text=text) == "as you choose: none is written"


def test_what_is_other_than_written_is_said() -> None:
    assert words("today") is None
    assert words("today", changed(change="load_changed", load=parse_load("60 kg"))) == (
        "load written: 72%"
    )
    assert words("today", changed(change="load_changed", load=parse_load("72%"))) is None
    both = (
        changed("a", change="added_set"),
        changed("b", change="added_set"),
        changed("c", at=AT + timedelta(minutes=1), change="swapped", exercise="goblet squat"),
    )
    assert words("today", *both) == "in place of front squat; 2 sets added"


def test_last_time_is_told_with_its_date_loads_reps_and_efforts() -> None:
    week_before = EVENING - timedelta(days=7)
    sets = [
        squat(1, began=week_before, effort=7.0),
        squat(2, began=week_before, effort=None, reps_done=4),
        squat(3, began=week_before, load_kg=60.0, load_as_written="60 kg", effort=None),
    ]

    assert words("last time", *sets) == (
        "Monday 2026-11-23: 80 kg: 5, 4 reps, effort 7, –; 60 kg: 5 reps"
    )
    assert words("last time") == "nothing on record at 4-1-X-1"


def test_this_time_is_told_alike_once_there_is_something() -> None:
    assert words("this time") is None
    assert words("this time", squat(1), squat(2)) == "80 kg: 5, 5 reps, effort 8, 8"


def test_a_note_keeps_its_lines_and_nothing_of_it_takes_effect() -> None:
    text = TEXT.replace("heels down", "[b]heels\\ndown\\u001b[2J")

    assert words("coach", text=text) == "[b]heels\ndown\\x1b[2J"


def test_a_day_whose_sets_would_not_count_says_so() -> None:
    assert reach_words(session(), MONDAY) == ()
    assert reach_words(session(), MONDAY + timedelta(days=2)) == ()
    assert reach_words(session(), MONDAY - timedelta(days=1))[0].startswith("This day is still")
    assert reach_words(session(), MONDAY + timedelta(days=3))[0].startswith("This day is past")
