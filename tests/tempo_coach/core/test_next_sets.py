from __future__ import annotations

from tempo_coach.core.facts import Fact
from tempo_coach.core.history import fold
from tempo_coach.core.next_sets import NextSet, sets_ahead
from tempo_coach.core.plan_days import days_of
from tempo_coach.core.session import session_of
from tempo_coach.core.tempo import Allowances
from tests.tempo_coach.core.plans import TEXT, plan_of
from tests.tempo_coach.core.test_session import EVENING, chin_up, session, squat
from tests.tempo_coach.core.test_session_changed import changed


def ahead(*facts: Fact, first: int | None = None) -> list[tuple[str, int]]:
    sets = sets_ahead(session(*facts), first=first)
    return [(one.prescription.exercise, one.number) for one in sets]


def test_a_fresh_day_begins_with_the_first_set_of_each_item_in_order() -> None:
    assert ahead() == [("front squat", 1), ("chin-up", 1)]


def test_the_chosen_item_comes_first_and_the_others_follow() -> None:
    assert ahead(squat(1), first=2) == [("chin-up", 1), ("front squat", 2)]


def test_items_that_are_done_or_skipped_have_nothing_ahead() -> None:
    assert ahead(*(chin_up(number) for number in (1, 2, 3)), first=2) == [("front squat", 1)]
    assert ahead(changed(why="knee")) == [("chin-up", 1)]


def test_what_is_ahead_has_the_load_that_goes_on_the_bar() -> None:
    first = sets_ahead(session())[0]

    assert first == NextSet(session().items[0].prescription, load_kg=65.0)
    assert str(first.prescription.load) == "65 kg"


def test_what_speaks_against_several_is_noted_of_the_first() -> None:
    league = f"""{TEXT}
[[calendar]]
kind = "in season"
first = 2026-11-30
last = 2026-12-06
name = "League"
"""
    plan = plan_of(league)
    day = session_of(
        plan,
        days_of(plan, "Mirela Oude")[0],
        lifter="Mirela Oude",
        history=fold(()),
        allowances=Allowances(),
        at=EVENING,
    )

    out = ("Today is League: lowering emphasis is taken out.",)
    assert [one.notes for one in sets_ahead(day)] == [out, ()]
    assert [one.notes for one in sets_ahead(day, first=2)] == [out, ()]
