from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from tempo_coach.core.facts import MaxTested, SetDone
from tempo_coach.core.lifter_advice import LifterAdvice
from tempo_coach.core.page_ahead import MOST_JUDGED, Ahead, ahead_of
from tempo_coach.core.page_parts import Table
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.tempo import Allowances, parse_tempo
from tempo_coach.core.weeks import IsoWeek
from tests.tempo_coach.core.done_sets import done_set, max_tested
from tests.tempo_coach.core.plans import plan_of

PLAN = """\
name = "Winter block"
start = 2026-11-02
weeks = 6
[dosing]
base_s = 30
ready_weeks = 1
[[lifters]]
name = "Ansa Vireo"
overload = true
[[days]]
day = "Monday"
[[days.work]]
line = "front squat 3x5 @ 80 kg 4-1-X-1"
"""
SUNDAY = date(2026, 11, 29)
WEEKS = (IsoWeek(2026, 47), IsoWeek(2026, 48))
ORDINARY = parse_tempo("1-0-1-0")


def on(day: int, **changes: Any) -> SetDone:
    begun = datetime.fromisoformat(f"2026-11-{day}T18:00:00+01:00")
    fields = {"id": f"{day}{changes.get('exercise')}", "started_at": begun, "ended_at": begun}
    return done_set(**(fields | changes))


def ahead(*sets: SetDone, maxes: Sequence[MaxTested] = ()) -> Ahead:
    advice = LifterAdvice.of(
        plan_of(PLAN), "ansa vireo", sets=sets, maxes=RecordedMaxes(tuple(maxes)), today=SUNDAY
    )
    return ahead_of(advice, WEEKS, allowances=Allowances())


def rows(table: Table | None) -> list[tuple[str, ...]]:
    assert table is not None
    return [(row.heading, *row.cells) for row in table.rows]


def test_each_way_of_lowering_stands_with_its_verdict_and_what_is_missing() -> None:
    maxes = [
        max_tested(lifter="Ansa Vireo", load_kg=100.0),
        max_tested(id="l", lifter="Ansa Vireo", what="lowered", load_kg=105.0),
    ]

    found = ahead(on(25), maxes=maxes)

    assert found.ready is not None
    assert found.ready.caption == "Ready or not yet, at the end of 2026-W48"
    assert rows(found.ready) == [
        ("front squat", "overloaded: ready, 5 of 6 met", "can't be told: slow lowering on tempo"),
        ("front squat", "fast: not yet, 1 of 3 met", "5.0 kg more lowered under control"),
    ]
    assert [row.is_strong for row in found.ready.rows] == [True, False]
    assert "nothing tells whether slow lowers kept their time" in found.remarks
    assert "no list of criteria replaces a coach's eye" in found.remarks


def test_ordinary_work_without_a_max_is_not_judged() -> None:
    found = ahead(on(25, tempo=ORDINARY))

    assert found.ready is None
    assert "criteria" not in found.remarks


def test_the_exercises_of_late_are_judged_and_how_many_are_not_is_said() -> None:
    names = [f"squat {number}" for number in range(MOST_JUDGED + 2)]

    found = ahead(*(on(20 + number, exercise=name) for number, name in enumerate(names)))

    assert {name for name, *_ in rows(found.ready)} == set(names[2:])
    assert found.left_out == "And 2 more exercises: 'tempo-coach ready' says of each."


def test_the_proposal_says_why_and_what_was_done_and_that_it_changes_nothing() -> None:
    found = ahead(on(25, effort=9.5), on(26, exercise="row", tempo=ORDINARY))

    assert found.proposal.caption == (
        "A proposal for 2026-W49, from the work of 2026-W48: lowering emphasis up to 33 s"
    )
    assert rows(found.proposal) == [
        (
            "Wed, keep",
            "front squat 1x5 @ 80 kg 4-1-X-1",
            "an effort of 9.5 leaves no rep; take less load",
        ),
        ("Thu, keep", "row 1x5 @ 80 kg 1-0-1-0 lead lower", "done as written"),
    ]
    assert found.remarks.endswith("for the coach to take or to edit, and changes nothing.")


def test_what_becomes_another_line_stands_beside_what_it_was() -> None:
    found = ahead(on(25, reps_done=3), on(25, reps_done=3, id="again"))

    assert rows(found.proposal) == [
        (
            "Wed, cut",
            "front squat 1x5 @ 80 kg 4-1-X-1",
            "not every rep was done as written: a set less; was front squat 2x5 @ 80 kg 4-1-X-1",
        )
    ]


def test_a_week_without_sets_has_a_proposal_from_the_last_that_has() -> None:
    found = ahead(on(11))

    assert found.proposal.caption.startswith("A proposal for 2026-W49, from the work of 2026-W46")


def test_lines_without_room_are_counted_behind_exercises_without() -> None:
    sets = [on(20 + number, exercise=f"squat {number}") for number in range(MOST_JUDGED + 1)]
    whole = ahead(*sets, on(28, exercise="row"), on(29, exercise="row"))

    cut = whole.cut_to(len(whole.proposal.rows) - 1)

    assert whole.cut_to(99) == whole
    assert len(cut.proposal.rows) == len(whole.proposal.rows) - 1
    assert cut.left_out.endswith("says of each. And 1 more line: 'tempo-coach next' has them.")
    assert cut.mm() < whole.mm() + 5
