from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.facts import SetDone
from tempo_coach.core.plan_season import DosingRules
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.season import lifter_season
from tempo_coach.core.season_limits import Level
from tempo_coach.core.season_table import Measure
from tempo_coach.core.tempo import Allowances, parse_tempo
from tempo_coach.core.week_room import WeekRoom
from tempo_coach.core.weeks import IsoWeek
from tests.tempo_coach.core.done_sets import MONDAY, done_set, seconds
from tests.tempo_coach.core.plans import TEXT, plan_of

NO_GROUPS: Mapping[str, Measure] = {}
LINE = "front squat 4x5 @ 80 kg 4-1-X-1"
"""A set lowers for 20 s, 1,600 kg·s."""


def measure(limit: float | None, done: float = 0, *, share: float = 1.0) -> Measure:
    return Measure(done, Level(limit, "the stated base"), share)


def room(
    lower_s: Measure | None = None,
    *,
    kg_s: Measure | None = None,
    groups: Mapping[str, Measure] = NO_GROUPS,
    rules: DosingRules | None = None,
) -> WeekRoom:
    return WeekRoom(
        at=MONDAY,
        week=IsoWeek.of(MONDAY.date()),
        lower_s=lower_s or measure(None),
        kg_s=kg_s or measure(None),
        groups=groups,
        rules=rules or DosingRules(),
        allowances=Allowances(),
    )


def before_line(week: WeekRoom, line: str = LINE, **where: Any) -> tuple[str, ...]:
    return week.before_line(parse_prescription(line), **where)


def before_set(week: WeekRoom, *done: SetDone, line: str = LINE) -> tuple[str, ...]:
    return week.before_set(parse_prescription(line), done=done)


# Before the first set


def test_a_set_over_the_limit_says_by_how_many_seconds_and_why() -> None:
    assert before_line(room(measure(100, 90))) == (
        "With the next set the week has 110 s of lowering emphasis, 10 s over its limit of 100 s "
        "(the stated base).",
    )


def test_a_line_that_just_fits_is_told_nothing() -> None:
    assert before_line(room(measure(80))) == ()
    assert before_line(room(measure(79.6))) == ()
    assert len(before_line(room(measure(79.4)))) == 1


def test_a_line_whose_later_sets_go_over_says_from_which_one_on() -> None:
    assert before_line(room(measure(50, 5))) == (
        "Set 3 takes the week to 65 s of lowering emphasis, 15 s over its limit of 50 s (the "
        "stated base).",
    )


def test_sets_are_numbered_from_the_one_that_is_next() -> None:
    [said] = before_line(room(measure(50, 15)), first=3)

    assert said.startswith("Set 4 takes the week to 55 s")
    assert before_line(room(measure(50, 15)), first=4) == ()


def test_the_lowering_load_has_a_limit_of_its_own() -> None:
    assert before_line(room(measure(100), kg_s=measure(4_000, 1_000))) == (
        "Set 2 takes the week to 4,200 kg·s of lowering load, 200 kg·s over its limit of 4,000 "
        "kg·s (the stated base).",
    )


def test_several_limits_are_one_sentence_and_one_reason() -> None:
    week = room(
        measure(100, 90), kg_s=measure(8_000, 7_200), groups={"knee extensors": measure(80, 70)}
    )

    assert before_line(week) == (
        "With the next set the week has 110 s of lowering emphasis, 10 s over its limit of 100 s "
        "(the stated base); 8,800 kg·s, 800 over 8,000; 90 s for knee extensors, 10 over 80.",
    )


def test_of_the_groups_the_exercise_s_own_is_held_against_its_limit() -> None:
    groups = {"knee extensors": measure(30, 20), "hip extensors": measure(10, 90)}

    assert before_line(room(groups=groups)) == (
        "With the next set the week has 40 s of lowering emphasis for knee extensors, 10 s over "
        "its limit of 30 s (the stated base).",
    )
    assert before_line(room(groups=groups), "bench press 4x5 @ 80 kg 4-1-X-1") == ()


def test_groups_are_the_plan_s_and_shown_as_they_are() -> None:
    rules = DosingRules(groups={"sled drag": "legs\x1b"})
    week = room(groups={"legs\x1b": measure(10)}, rules=rules)

    [said] = before_line(week, "sled drag 1x5 4-0-1-0")

    assert "for legs\\x1b, 10 s over" in said


@pytest.mark.parametrize(
    ("line", "load_kg", "over_kg_s"),
    [
        ("front squat 1x5 @ 175 lb 4-0-1-0", None, "1,588 kg·s"),
        ("front squat 1x5 @ bw+10 kg 4-0-1-0", 78.0, "1,560 kg·s"),
        ("front squat 1x5 @ 60 kg 4-0-1-0 lower @ 90 kg", None, "1,800 kg·s"),
        ("front squat 1x5 @ 60 kg 4-0-1-0 first lower @ 90 kg", None, "1,320 kg·s"),
    ],
)
def test_what_is_lowered_counts_in_kilograms(
    line: str, load_kg: float | None, over_kg_s: str
) -> None:
    [said] = before_line(room(kg_s=measure(1_000)), line, load_kg=load_kg)

    assert f"has {over_kg_s} of lowering load" in said


@pytest.mark.parametrize("load", ["", "@ bw", "@ 72%"])
def test_a_load_that_is_not_known_in_kilograms_takes_nothing_of_the_load(load: str) -> None:
    line = f"front squat 4x5 {load} 4-1-X-1"

    assert before_line(room(kg_s=measure(0, 500)), line) == ()
    assert len(before_line(room(measure(0), kg_s=measure(0, 500)), line)) == 1


def test_ordinary_work_is_told_nothing_even_in_a_week_that_is_over() -> None:
    week = room(measure(10, 90), kg_s=measure(10, 90), groups={"knee extensors": measure(10, 90)})

    assert before_line(week, "front squat 4x5 @ 80 kg 2-0-X-0") == ()
    assert before_line(week, "front squat 4x5 @ 80 kg 4-0-1-0 raise only") == ()


def test_a_set_until_stopped_counts_one_rep() -> None:
    line = "front squat 3xmax @ 80 kg 4-0-1-0"

    assert before_line(room(measure(12)), line) == ()
    assert before_line(room(measure(10)), line)[0].startswith("Set 3 takes the week to 12 s")


def test_where_no_limit_is_known_nothing_is_said() -> None:
    assert before_line(room()) == ()


def test_what_the_calendar_takes_out_of_the_limit_is_said_with_its_reason() -> None:
    [said] = before_line(room(measure(30, share=0.5)))

    assert said.endswith(
        "over its limit of 15 s (the stated base, of which the calendar leaves 50%)."
    )


# Before further sets


def test_where_the_calendar_takes_all_out_any_set_goes_over_whatever_is_known() -> None:
    said = before_line(room(measure(None, share=0.0)))

    assert said == (
        "With the next set the week has 20 s of lowering emphasis, 20 s over its limit of 0 s (the "
        "calendar takes all of it out).",
    )


def test_what_was_done_since_decides_whether_the_next_set_goes_over() -> None:
    week = room(measure(50))
    stopped = done_set(id="stopped", reps_done=2, seconds=seconds(lower=9))

    assert before_set(week, done_set()) == ()
    assert before_set(week, done_set(), stopped) == ()
    assert before_set(week, done_set(), done_set(id="whole")) == (
        "With the next set the week has 60 s of lowering emphasis, 10 s over its limit of 50 s "
        "(the stated base).",
    )


def test_the_reason_is_not_repeated_before_each_set_that_goes_over() -> None:
    sets = [done_set(id=f"{number}") for number in range(3)]

    assert before_set(room(measure(50)), *sets) == (
        "With the next set the week has 80 s of lowering emphasis, 30 s over its limit of 50 s.",
    )


def test_a_limit_that_another_set_has_reached_since_has_its_reason_said() -> None:
    week = room(measure(50), kg_s=measure(3_000))

    load, *_ = before_set(week, done_set())
    both, *_ = before_set(week, done_set(), done_set(id="b"))

    assert load.endswith("of 3,000 kg·s (the stated base).")
    assert "its limit of 50 s (the stated base); 4,800 kg·s, 1,800 over 3,000." in both


def test_sets_until_stopped_that_lasted_are_counted_as_they_were() -> None:
    [said] = before_set(
        room(measure(20)),
        done_set(tempo=parse_tempo("4-0-1-0"), seconds=seconds(lower=32)),
        line="front squat 3xmax @ 80 kg 4-0-1-0",
    )

    assert "has 36 s of lowering emphasis, 16 s over its limit of 20 s (the stated base)" in said


def test_ordinary_sets_and_those_of_another_week_take_nothing() -> None:
    week = room(measure(10), kg_s=measure(10), groups={"knee extensors": measure(10)})
    later = MONDAY + timedelta(days=7)

    assert week.after([done_set(tempo=parse_tempo("2-0-X-0"))]).lower_s.done == 0
    after = week.after([done_set(started_at=later, ended_at=later)])
    assert (after.lower_s.done, after.kg_s.done, after.groups["knee extensors"].done) == (0, 0, 0)


def test_once_a_set_was_done_in_the_next_week_this_week_says_nothing_more() -> None:
    week, later = room(measure(10, 90)), MONDAY + timedelta(days=7)

    assert before_set(week, done_set(started_at=later, ended_at=later)) == ()


def test_sets_of_other_work_are_taken_in_too() -> None:
    week = room(measure(100), kg_s=measure(9_000), groups={"knee extensors": measure(100)})

    after = week.after([done_set(), done_set(id="b", exercise="bench press", load_kg=None)])

    assert (after.lower_s.done, after.kg_s.done) == (40, 1_600)
    assert after.groups["knee extensors"].done == 20


# Against the season


def test_the_room_is_that_of_the_season_s_week() -> None:
    plan = plan_of(
        f"{TEXT}\n[dosing]\nbase_s = 60\nbase_kg_s = 4000\ngroup_base_s = {{ pulling = 30 }}\n"
    )
    today = plan.start
    begun = MONDAY.replace(year=today.year, month=today.month, day=today.day)
    done = done_set(lifter="Mirela Oude", started_at=begun, ended_at=begun)
    season = lifter_season(plan, "Mirela Oude", sets=[done], today=today)

    week = WeekRoom.of(season, at=begun, allowances=Allowances())

    assert week is not None
    assert (week.lower_s.done, week.lower_s.limit) == (20, 60)
    assert (week.kg_s.done, week.kg_s.limit) == (1_600, 4_000)
    assert (week.groups["pulling"].done, week.groups["pulling"].limit) == (0, 30)
    outside = lifter_season(plan, "Mirela Oude", sets=[], today=today - timedelta(weeks=3))
    assert WeekRoom.of(outside, at=begun, allowances=Allowances()) is None


@given(
    limit=st.floats(0, 300),
    before=st.floats(0, 300),
    reps=st.integers(1, 10),
    sets=st.integers(1, 8),
)
def test_a_line_done_as_written_goes_over_at_the_set_that_was_said(
    limit: float, before: float, reps: int, sets: int
) -> None:
    week = room(measure(limit, before))
    line = parse_prescription(f"front squat {sets}x{reps} @ 80 kg 4-0-1-0")
    one = done_set(reps_done=reps, seconds=seconds(lower=4 * reps))

    said = week.before_line(line)

    warned = [
        number for number in range(1, sets + 1) if week.before_set(line, done=[one] * (number - 1))
    ]
    if not said:
        assert warned == []
        return
    [sentence] = said
    found = re.match(r"Set (\d+) takes", sentence)
    assert warned == list(range(int(found[1]) if found else 1, sets + 1))
    has, over, most = (
        int(text) for text in re.findall(r"(\d+) s (?:of lowering|over|\()", sentence)
    )
    assert has - over == most
    assert over > 0
