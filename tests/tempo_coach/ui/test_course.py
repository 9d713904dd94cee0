from __future__ import annotations

from dataclasses import replace

from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.ui.course import Course
from tests.tempo_coach.core.done_sets import done_set, seconds
from tests.tempo_coach.core.test_week_room import measure, room

COURSE = Course(parse_prescription("front squat 2x5 @ 80 kg 4-1-X-1"))
FIRST = done_set(id="one")
SECOND = done_set(id="two")


def test_sets_follow_one_another_until_all_are_done() -> None:
    first = COURSE.started().ended(FIRST)
    second = first.started().ended(SECOND)

    assert (COURSE.next_number, first.next_number, second.next_number) == (1, 2, 3)
    assert (first.is_finished, second.is_finished) == (False, True)
    assert second.done == (FIRST, SECOND)


def test_a_set_in_which_nothing_was_lifted_comes_again() -> None:
    course = COURSE.started().ended(None)

    assert course.next_number == 1
    assert course.done == ()


def test_a_repeated_set_keeps_its_number_and_counts_both_times() -> None:
    course = COURSE.started().ended(FIRST).repeated()
    again = course.started().ended(SECOND)

    assert course.next_number == 1
    assert (again.number, again.next_number) == (1, 2)
    assert again.done == (FIRST, SECOND)


def test_repeating_can_be_taken_back() -> None:
    course = COURSE.started().ended(FIRST)

    assert course.repeated().repeated() == course


def test_a_struck_set_comes_again_and_counts_no_more() -> None:
    course = COURSE.started().ended(FIRST).started().ended(SECOND).struck()

    assert course.next_number == 2
    assert course.done == (FIRST,)
    assert not course.is_finished


def test_a_correction_reaches_a_set_after_the_next_has_started() -> None:
    corrected = done_set(id="one", reps_done=4)

    course = COURSE.started().ended(FIRST).started().corrected(corrected)

    assert course.done == (corrected,)
    assert course.last is None


LIMITED = replace(COURSE, room=room(measure(35)))


def test_a_further_set_is_held_against_what_was_really_done() -> None:
    first = LIMITED.started().ended(FIRST)
    stopped = done_set(id="one", reps_done=3, seconds=seconds(lower=12))

    assert LIMITED.warnings == ()
    assert first.warnings[0].startswith("With the next set the week has 40 s")
    assert first.corrected(stopped).warnings == ()
    assert first.struck().warnings == ()
    assert first.repeated().warnings == first.warnings
    assert LIMITED.started().ended(None).warnings == ()


def test_once_all_is_done_nothing_is_warned_of_unless_a_set_is_repeated() -> None:
    done = LIMITED.started().ended(FIRST).started().ended(SECOND)

    assert done.warnings == ()
    assert done.repeated().warnings[0].startswith("With the next set the week has 60 s")


def test_other_work_that_comes_next_is_warned_of_as_it_is_begun() -> None:
    bench = parse_prescription("bench press 3x5 4-0-1-0")
    then = NextSet(bench, notes=("Today is League.",), room=LIMITED.room)

    course = Course.of(NextSet(COURSE.prescription, 2, room=LIMITED.room), then)

    assert course.warnings == ()
    assert course.started().ended(done_set(seconds=seconds(lower=10))).warnings == (
        "Set 2 takes the week to 50 s of lowering emphasis, 15 s over its limit of 35 s (the "
        "stated base).",
        "Today is League.",
    )
    assert course.started().ended(FIRST).warnings[0].startswith("With the next set the week has 40")
