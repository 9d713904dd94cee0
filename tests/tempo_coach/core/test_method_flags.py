from __future__ import annotations

import pytest

from tempo_coach.core.load import parse_load
from tempo_coach.core.method_flags import flags
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.strength import UNKNOWN, Best, Strength

CLEARED = Strength(is_cleared=True)
OF_100_KG = Strength(lifted=Best(parse_load("100 kg"), ""), is_cleared=True)


def what(line: str, strength: Strength = CLEARED) -> list[str]:
    return [flag.what for flag in flags(parse_prescription(line), strength)]


@pytest.mark.parametrize(
    ("line", "flagged"),
    [
        ("squat 4x6 @ 70% 4-0-1-0 rest 3:00 method slow-lowering", []),
        ("squat 4x6 @ 90% 4-0-1-0 rest 3:00 method slow-lowering", ["load 90%"]),
        ("squat 4x12 @ 70% 4-0-1-0 method slow-lowering", ["12 reps a set"]),
        ("squat 9x6 @ 70% 4-0-1-0 method slow-lowering", ["9 sets"]),
        ("squat 4x6 @ 70% 1-0-1-0 method slow-lowering", ["lower 1 s"]),
        ("squat 4x6 @ 70% X-0-1-0 method slow-lowering", ["lower X"]),
        ("squat 4x6 @ 70% 4-0-1-0 rest 0:30 method slow-lowering", ["rest 30 s"]),
        ("squat 4x6 @ 70% 8-0-4-0 method slow-lowering", ["a rep of 12 s"]),
        ("squat 3x4 @ 60% 3-0-1-0 method stopped-lowering", ["method stopped-lowering"]),
        ("squat 3x4 @ 60% 3-0-1-0 stop 9 s at 1/2 method stopped-lowering", ["hold 9 s"]),
        ("squat 3x2 @ 105% 4-0-A-0 lowering only method overloaded-lowering", []),
        ("squat 3x3 @ 105% 4-0-A-0 lowering only method overloaded-lowering", ["9 reps a session"]),
        ("squat 3x2 @ 140% 4-0-A-0 lowering only method overloaded-lowering", ["load 140%"]),
        ("squat 3x2 @ 100% 4-0-A-0 lowering only method overloaded-lowering", ["load 100%"]),
        (
            "squat 3x2 @ 105% 4-0-A-0 method overloaded-lowering",
            ["load 105%", "method overloaded-lowering"],
        ),
        ("squat 3x5 @ 80% 3-0-X-0 lower @ 105% method accentuated-lowering", []),
        ("squat 3x5 @ 80% 3-0-X-0 method accentuated-lowering", ["method accentuated-lowering"]),
        ("squat 3x5 @ 80% 3-0-X-0 lower @ 130% method accentuated-lowering", ["lower 130%"]),
        # Down = up + 40 % (Walker et al. 2016, Front Physiol 7:149): 80 and 112 %.
        ("squat 3x5 @ 80% 3-0-X-0 lower @ 112% method accentuated-lowering", []),
        ("squat 4x5 @ 70% 3-0-X-0 first lower @ 120% method first-rep-accentuated", []),
        (
            "squat 4x5 @ 70% 3-0-X-0 lower @ 120% method first-rep-accentuated",
            ["method first-rep-accentuated"],
        ),
        ("press 3x6 4-0-2-0 method two-up-one-down", ["method two-up-one-down"]),
        ("squat 3x4 3-0-1-0 method hold", ["method hold"]),
        ("squat 3x4 3-3-1-0 method hold", []),
        ("squat 3x3 1-0-X-0 method raise-only", ["method raise-only"]),
        # Without a method only what can't be lifted is said.
        ("squat 9x30 @ 90% 1-0-1-0 rest 5", []),
        ("squat 1x1 @ 101% 3-0-1-0", ["load 101%"]),
        ("squat 1x1 @ 101% 3-0-A-0 lowering only", []),
        ("squat 1x5 @ 80% 3-0-X-0 lower @ 105%", []),
        ("rack pull 1x1 @ 110% 1-0-X-0 raise only", []),
    ],
)
def test_what_leaves_the_range_of_its_method_is_flagged(line: str, flagged: list[str]) -> None:
    assert what(line) == flagged


def test_a_flag_says_the_reason_and_the_source() -> None:
    line = parse_prescription("bench 3x2 @ 140% 4-0-A-0 lowering only method overloaded-lowering")
    assert str(flags(line, CLEARED)[0]) == (
        "load 140%: overloaded-lowering has load above 100 to about 130% of the 1RM "
        "(common practice, no source)"
    )


def test_slow_reps_name_the_review_that_found_less_growth() -> None:
    # Schoenfeld, Ogborn & Krieger 2015, Sports Med 45:577: alike for 0.5 to 8 s a rep, lower
    # above 10 s.
    at_most = parse_prescription("squat 4x6 @ 70% 8-0-2-0 method slow-lowering")
    above = parse_prescription("squat 4x6 @ 70% 8-0-3-0 method slow-lowering")

    assert flags(at_most, CLEARED) == ()
    assert "10.1007/s40279-015-0304-0" in str(flags(above, CLEARED)[0])


def test_a_load_in_kg_is_taken_as_a_share_of_a_known_max_and_rounding_is_no_reason() -> None:
    line = "squat 4x6 @ {} 4-0-1-0 method slow-lowering"

    assert what(line.format("120 kg")) == []
    assert what(line.format("120 kg"), OF_100_KG) == ["load 120 kg, 120% of the 1RM"] * 2
    assert what(line.format("86 kg"), OF_100_KG) == []
    assert what(line.format("87.5 kg"), OF_100_KG) == ["load 87.5 kg, 87.5% of the 1RM"]
    assert what(line.format("bw+10 kg"), OF_100_KG) == []


OVERLOAD_LINE = "squat 3x2 @ 105% 4-0-A-0 lowering only method overloaded-lowering"


@pytest.mark.parametrize(
    ("word", "said"),
    [
        (True, []),
        (None, ["only for those whom their coach has cleared, and nothing says so here"]),
        (False, ["the coach has not cleared this lifter for it"]),
    ],
)
def test_overload_rests_on_the_coachs_word(word: bool | None, said: list[str]) -> None:
    found = flags(parse_prescription(OVERLOAD_LINE), Strength(is_cleared=word))
    assert [flag.reason.split(": ")[0] for flag in found] == said


@pytest.mark.parametrize(
    "line",
    [
        "squat 1x1 @ 110% 3-0-A-0 lowering only",
        "squat 1x5 @ 80% 3-0-X-0 lower @ 101%",
        "squat 1x1 @ 90 kg 3-0-A-0 lowering only method reserve-test",
        "squat 3x5 3-0-X-0 method first-rep-accentuated",
    ],
)
def test_whatever_lowers_more_than_can_be_lifted_asks_for_that_word(line: str) -> None:
    assert what(line, UNKNOWN)[0] == "overload"


def test_more_than_was_ever_lowered_is_flagged() -> None:
    strength = Strength(
        lifted=Best(parse_load("100 kg"), ""),
        lowered=Best(parse_load("115 kg"), ""),
        is_cleared=True,
    )
    line = "squat 3x2 @ {} 4-0-A-0 lowering only method overloaded-lowering"

    assert what(line.format("115%"), strength) == []
    assert what(line.format("120 kg"), strength) == ["120 kg lowered"]
