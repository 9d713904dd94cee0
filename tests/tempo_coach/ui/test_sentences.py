from __future__ import annotations

from tempo_coach.core.method_flags import Flag
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.tempo import parse_tempo
from tempo_coach.core.timeline import Timeline
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.course import Course
from tempo_coach.ui.sentences import (
    corrected_sentence,
    fault_sentence,
    next_words,
    opening_sentences,
    saved_sentence,
    start_words,
    struck_sentence,
    total_sentence,
    without_sound_sentence,
)
from tests.tempo_coach.core.done_sets import done_set, seconds
from tests.tempo_coach.fakes import disk_full, no_device

EXACT = done_set(tempo=parse_tempo("4-1-1-1"))


def test_what_is_to_be_thought_over_is_kept_apart_where_a_part_has_a_comma_of_its_own() -> None:
    line = parse_prescription("squat 3x5 4-0-1-0")
    flags = tuple(Flag(what, "why", "") for what in ("load 130 kg, 144% of the 1RM", "rest 30 s"))

    first, *_ = opening_sentences(
        NextSet(line, flags=flags), Timeline.of(line, setup_ms=10_000), "off"
    )

    assert first == "To be thought over: load 130 kg, 144% of the 1RM; rest 30 s."


def test_a_saved_set_is_told_with_its_reps_and_seconds() -> None:
    assert saved_sentence(EXACT, None) == "Saved: 5 of 5 reps, lowering 20 s, tension 35 s."


def test_seconds_that_rest_on_an_allowance_say_so() -> None:
    fast = done_set(tempo=parse_tempo("4-1-X-1"))
    own = done_set(tempo=parse_tempo("V-1-2-1"))

    assert "lowering 20 s, tension about 35 s" in saved_sentence(fast, None)
    assert "lowering about 20 s, tension about 35 s" in saved_sentence(own, None)


def test_seconds_of_a_set_broken_off_are_told_to_the_tenth() -> None:
    stopped = done_set(
        reps_done=3,
        tempo=parse_tempo("4-1-1-1"),
        seconds=seconds(lower=13.649, pause=3, raise_=3, top=3),
    )

    assert saved_sentence(stopped, None) == "Saved: 3 of 5 reps, lowering 13.6 s, tension 22.6 s."


def test_an_open_ended_set_has_no_number_to_reach() -> None:
    assert saved_sentence(done_set(reps_prescribed=None, reps_done=1), None).startswith(
        "Saved: 1 rep, "
    )


def test_a_set_that_is_not_on_the_disk_says_where_it_is_and_why() -> None:
    kept = (
        "5 of 5 reps, lowering 20 s, tension 35 s. "
        "Kept in memory, not yet on the disk. The disk is full. Make room."
    )

    assert saved_sentence(EXACT, disk_full()) == kept
    assert corrected_sentence(EXACT, disk_full()) == kept
    assert struck_sentence(disk_full()).endswith(
        "Kept in memory, not yet on the disk. The disk is full. Make room."
    )


def test_nothing_lifted_is_said_as_such() -> None:
    assert saved_sentence(None, None) == "Nothing was lifted, nothing is logged."


def test_all_sets_are_summed_up() -> None:
    course = Course(parse_prescription("front squat 2x5 @ 80 kg 4-1-1-1"))
    for number in range(2):
        course = course.started().ended(done_set(id=str(number), tempo=parse_tempo("4-1-1-1")))

    assert total_sentence(course) == "All 2 sets done: 10 reps, lowering 40 s, tension 70 s."


def test_sets_done_before_are_not_summed_up_again() -> None:
    course = Course(parse_prescription("front squat 3x5 @ 80 kg 4-1-1-1"), number=3)
    course = course.started().ended(EXACT)

    assert total_sentence(course).startswith("All 3 sets done, 1 of them now: 5 reps, ")


def test_one_set_is_summed_up_as_one() -> None:
    course = Course(parse_prescription("front squat 1x5 4-1-1-1")).started().ended(EXACT)

    assert total_sentence(course) == "The set is done: 5 reps, lowering 20 s, tension 35 s."


def test_the_next_set_is_named_behind_the_rest() -> None:
    ahead = NextSet(parse_prescription("front squat 4x5 @ 80 kg 4-1-X-1"), 2)

    assert (
        next_words(ahead, rest_is_over=False)
        == "Rest · next: set 2 of 4, front squat 80 kg 4-1-X-1"
    )
    assert next_words(ahead, rest_is_over=True).startswith("Rest is over · next: set 2 of 4")


def test_what_starts_a_set_is_said_with_the_time_until_rep_1() -> None:
    assert (
        start_words(1, 7_500)
        == "Space or Page Down starts set 1; the first rep begins 7.5 s later."
    )


def test_a_set_without_sound_says_why_and_goes_on() -> None:
    assert without_sound_sentence(no_device()) == (
        "No sound. There is no sound device. Plug in headphones. The set goes on by the screen."
    )


def test_control_characters_in_a_refusal_are_spelt_out() -> None:
    assert fault_sentence(OutOfRange("bad \x1b[31m text")) == "Bad \\x1b[31m text."
