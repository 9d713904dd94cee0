from __future__ import annotations

import pytest

from tempo_coach.core.cautions import LONG, SHORT


def test_the_cautions_shown_once_name_pain_spotters_warning_signs_and_what_this_is_not() -> None:
    told = " ".join(SHORT)
    for words in (
        "Pain stops the set",
        "spotters or safety pins",
        "seek medical care at once",
        "does not diagnose",
    ):
        assert words in told


@pytest.mark.parametrize(
    "sign",
    # Exertional rhabdomyolysis, the signs as CDC/NIOSH lists them.
    [
        "worse than expected",
        "dark urine, the colour of tea or cola",
        "weakness, or being unable to finish a usual session",
        "days later",
        "Only a blood test tells",
        "Seek medical care at once",
    ],
)
def test_the_signs_of_muscle_breakdown_are_told_in_full(sign: str) -> None:
    told = " ".join(paragraph for _, paragraphs in LONG for paragraph in paragraphs)
    assert sign in told


def test_every_heading_of_the_long_text_is_its_own_and_has_sentences() -> None:
    headings = [heading for heading, _ in LONG]
    assert len(set(headings)) == len(headings)
    assert all(text.endswith(".") for _, paragraphs in LONG for text in paragraphs)
