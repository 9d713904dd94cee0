"""What the screen of a reserve test says, in sentences."""

from __future__ import annotations

from decimal import Decimal

from tempo_coach.core.load import LoadUnit
from tempo_coach.core.load_span import as_load
from tempo_coach.core.reserve_facts import LARGEST_STEP
from tempo_coach.core.reserve_test import ReserveTest, ahead_words, short_words
from tempo_coach.core.tempo import seconds_text
from tempo_coach.ui.reserve_stage import Question

NOT_OVER = "The test is not over; F8 goes on with it today."
CHOOSE = "H for held or L for lost first."


def count_words(test: ReserveTest, question: Question | None) -> str:
    """Say which attempt is at hand."""
    made = len(test.attempts)
    is_earlier = question is not None and question.is_asked_again
    return f"attempt {made if is_earlier else made + 1}"


def ahead_sentence(test: ReserveTest, load_kg: Decimal, *, setup_ms: int, rests: bool) -> str:
    """Say what is ahead and what starts it.

    Parameters
    ----------
    test
        As far as it went.
    load_kg
        The load of the next attempt.
    setup_ms
        From the start to the lower.
    rests
        The rest before it is not over yet.
    """
    words = ahead_words(test, load_kg)
    ahead = f"Rest · next: {words}" if rests else words[:1].upper() + words[1:]
    return (
        f"{ahead}. Space or Page Down starts it; the lower begins {seconds_text(setup_ms)} s later."
    )


def question_sentence(question: Question, *, lowered_s: float | None, lower_s: float) -> str:
    """Say what is asked of an attempt, and what would be logged.

    Parameters
    ----------
    question
        The attempt, with what was said of it so far.
    lowered_s
        The measured seconds, where some can be read.
    lower_s
        What was asked for.
    """
    load = as_load(question.load_kg)
    if question.done is None:
        return f"{load} could not be lifted out: that ends the test. Enter or Page Down logs it."
    held = question.counts(lowered_s=lowered_s, lower_s=lower_s)
    if held is None:
        return f"{load}: held under control for {lower_s:g} s, or lost? H or L."
    short = ""
    if question.said_held and not held and lowered_s is not None:
        short = f"{short_words(lowered_s, lower_s)}. "
    return f"{short}{load} {'held' if held else 'lost'}: Enter or Page Down logs it."


def load_help(test: ReserveTest, unit: LoadUnit) -> str:
    """Say which loads can be typed for the next attempt."""
    most = "the 1RM, to begin with"
    if test.held_kg is not None:
        most = f"{LARGEST_STEP:.0%} of the 1RM above the {test.held_kg:g} kg that were held"
    return f"In kg or lb; a number alone is in {unit}. At most {most}."
