from __future__ import annotations

import pytest

from tempo_coach.core.method_card import card_data, card_rows
from tempo_coach.core.method_catalogue import METHODS, method_named
from tempo_coach.core.method_flags import flags
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.method_sources import PRACTICE
from tempo_coach.core.methods import NO_FIGURE, Aspect, Figure, Method, within
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.strength import Strength
from tempo_coach.errors import OutOfRange

ALL = pytest.mark.parametrize("method", METHODS.values(), ids=lambda one: one.name.value)


def figures(name: MethodName, aspect: Aspect) -> dict[str, tuple[float | None, float | None]]:
    """Return low and high by source."""
    return {one.source: (one.low, one.high) for one in METHODS[name].of(aspect)}


def test_every_name_of_a_line_is_a_method_but_the_test() -> None:
    assert set(MethodName) - set(METHODS) == {MethodName.RESERVE_TEST}


def test_accentuated_lowering_has_the_published_shares() -> None:
    # Wagle et al. 2018, Sports 6:59: 105 % down, 80 % up, 3x5. Taber et al. 2021,
    # 10.3390/sports9050054: 100 or 110 % down with 30 to 80 % up. Walker et al. 2016, Front
    # Physiol 7:149: down = up + 40 %.
    name = MethodName.ACCENTUATED_LOWERING
    down, up = figures(name, Aspect.LOWERED), figures(name, Aspect.LOAD)

    assert down["Wagle et al. 2018, Sports 6:59"] == (105, 105)
    assert down["Taber et al. 2021, doi 10.3390/sports9050054"] == (100, 110)
    assert down["Walker et al. 2016, Front Physiol 7:149"] == (140, 140)
    assert up["Wagle et al. 2018, Sports 6:59"] == (80, 80)
    assert up["Taber et al. 2021, doi 10.3390/sports9050054"] == (30, 80)
    assert METHODS[name].starts[0].line.startswith("3x5 @ 80% ")
    assert "lower @ 105%" in METHODS[name].starts[0].line


def test_the_first_rep_and_slow_lowers_have_their_published_designs() -> None:
    # Merrigan et al. 2021, JSCR 35:1208: 120 % in the first rep, 4x5. Mike et al. 2017, JSCR
    # 31:773: 4 sets of 6 with 2, 4 and 6 s down on 2 days a week.
    merrigan = "Merrigan et al. 2021, JSCR 35:1208"
    mike = "Mike et al. 2017, JSCR 31:773, doi 10.1519/jsc.0000000000001675"
    first, slow = MethodName.FIRST_REP_ACCENTUATED, MethodName.SLOW_LOWERING

    assert figures(first, Aspect.LOWERED) == {merrigan: (120, 120)}
    assert (figures(first, Aspect.SETS)[merrigan], figures(first, Aspect.REPS)[merrigan]) == (
        (4, 4),
        (5, 5),
    )
    assert [figures(slow, what)[mike] for what in (Aspect.LOWER, Aspect.SETS, Aspect.REPS)] == [
        (2, 6),
        (4, 4),
        (6, 6),
    ]
    assert figures(slow, Aspect.SESSIONS)[mike] == (2, 2)


def test_overload_has_the_trades_dose() -> None:
    # Above 100 to about 130 %, 2 to 4 weeks at a time with at least 2 between, about 6 reps a
    # session, once a week: common practice, no source.
    name = MethodName.OVERLOADED_LOWERING

    assert figures(name, Aspect.LOAD) == {PRACTICE: (100, 130)}
    assert figures(name, Aspect.SESSION_REPS) == {PRACTICE: (None, 6)}
    assert figures(name, Aspect.SESSIONS) == {PRACTICE: (1, 1)}
    assert figures(name, Aspect.WEEKS) == {PRACTICE: (2, 4)}
    assert figures(name, Aspect.WEEKS_BETWEEN) == {PRACTICE: (2, None)}


@ALL
def test_every_number_has_a_source_and_the_rest_says_no_figure(method: Method) -> None:
    for several in method.figures.values():
        for figure in several:
            assert bool(figure.source) == figure.is_number
            assert figure.is_number or str(figure) == NO_FIGURE


@ALL
def test_every_card_says_for_whom_and_for_whom_not_people_equipment_and_cautions(
    method: Method,
) -> None:
    labels = [label for label, words in card_rows(method) if words]

    for label in ("for", "suits", "not for", "of which max", "load", "reps a set", "rest"):
        assert label in labels
    assert {"sessions a week", "weeks at a time", "people", "equipment", "caution"} <= set(labels)
    assert card_data(method)["name"] == method.name.value


@ALL
def test_every_line_to_begin_from_lies_within_its_own_method(method: Method) -> None:
    for start in method.starts:
        line = parse_prescription(f"front squat {start.line} method {method.name}")

        assert flags(line, Strength(is_cleared=True)) == ()
        assert method.needs is None or method.needs.is_in(line)


def test_a_method_is_found_by_its_words_and_else_the_nearest_is_named() -> None:
    assert method_named("Two up  one-down").name is MethodName.TWO_UP_ONE_DOWN
    with pytest.raises(OutOfRange) as refused:
        method_named("slow-lowerin")
    assert refused.value.hint == "the nearest is 'slow-lowering'"
    with pytest.raises(OutOfRange, match="no method to train by"):
        method_named("reserve-test")


@pytest.mark.parametrize(
    ("figure", "words"),
    [
        (Figure(60, 85, "% of the 1RM", PRACTICE), "60 to 85% of the 1RM"),
        (Figure(105, 105, "%", PRACTICE), "105%"),
        (Figure(2, None, "s", PRACTICE), "at least 2 s"),
        (Figure(None, 6, "", PRACTICE, is_about=True), "at most about 6"),
        (Figure(100, 130, "%", PRACTICE, is_above=True), "above 100 to 130%"),
        (Figure(None, None, "", ""), "no figure"),
    ],
)
def test_a_figure_is_said_in_words(figure: Figure, words: str) -> None:
    assert str(figure) == words


@pytest.mark.parametrize(
    ("value", "lies_within"), [(99.9, False), (100, True), (104, True), (110, True), (111, False)]
)
def test_what_lies_between_two_figures_lies_within(value: float, lies_within: bool) -> None:
    known = [Figure(100, 102, "%", PRACTICE), Figure(108, 110, "%", PRACTICE)]
    assert within(known, value) is lies_within


def test_a_figure_that_begins_above_a_value_leaves_the_value_out() -> None:
    figure = Figure(100, 130, "%", PRACTICE, is_above=True)
    assert not figure.holds(100)
    assert figure.holds(100.5)
    assert figure.holds(131, give=1)
