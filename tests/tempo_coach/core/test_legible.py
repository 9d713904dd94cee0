from __future__ import annotations

import pytest
from hypothesis import given

from tempo_coach.core.legible import legible, name_key, quoted
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.harmless import is_harmless


@pytest.mark.parametrize("text", ["front squat", "Überzug – 4×5", "ヒップ", "a\u0301"])
def test_readable_text_stays_as_it_is(text: str) -> None:
    assert legible(text) == text


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[31mred", "\\x1b[31mred"),
        ("a\nb\tc", "a\\nb\\tc"),
        ("\x9b", "\\x9b"),
        ("\u2028", "\\u2028"),
        ("left\u202eright", "left\\u202eright"),
        ("\ud800", "\\ud800"),
    ],
)
def test_what_would_move_the_cursor_or_turn_the_line_is_spelt_out(text: str, shown: str) -> None:
    assert legible(text) == shown


@given(strategies.any_text)
def test_any_text_becomes_harmless_and_stays_so(text: str) -> None:
    shown = legible(text)
    assert is_harmless(shown)
    assert legible(shown) == shown


def test_a_quotation_is_cut_at_forty_characters() -> None:
    assert quoted("a" * 40) == f"'{'a' * 40}'"
    assert quoted("a" * 41) == f"'{'a' * 39}…'"


@pytest.mark.parametrize(
    ("one", "other"),
    [("Ansa", "ANSA"), ("Jos\u00e9", "Jose\u0301"), ("STRASSE", "straße"), ("Å", "å")],
)
def test_two_spellings_of_one_name_share_a_key(one: str, other: str) -> None:
    assert name_key(one) == name_key(other)


def test_two_names_do_not_share_a_key() -> None:
    assert name_key("Ansa") != name_key("Anša")
