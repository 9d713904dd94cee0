from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tempo_coach.core.load import KG_PER_LB, parse_load
from tempo_coach.core.load_span import LoadSpan, as_load, span_of
from tempo_coach.core.loading import Rack
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.reserve_test import attempt_line
from tempo_coach.core.settings import Settings
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core.reserve_tests import spans

RACK = Settings().rack

# Bounds that hold for every span.


# A ceiling that is a round number of pounds but for a millionth.
@example(span_of(147.33, step=parse_load("1%"), ceiling=parse_load("156%")), None)
@given(spans, st.sampled_from([None, RACK]))
def test_loads_rise_by_at_most_a_tenth_of_the_max_and_never_above_the_ceiling(
    span: LoadSpan, rack: Rack | None
) -> None:
    loads = span.loads(rack)
    assert loads[0] <= span.max_kg
    assert all(before < after for before, after in pairwise(loads))
    assert all(after - before <= span.max_kg / 10 for before, after in pairwise(loads))
    assert loads[-1] <= span.ceiling_kg


@given(spans)
def test_a_load_can_be_written_on_a_line_and_is_had_from_the_discs(span: LoadSpan) -> None:
    for kg in span.loads(RACK):
        line = attempt_line("bench press", kg, lower_s=5)
        assert parse_prescription(str(line)) == line
        assert kg < RACK.empty_kg or kg % Decimal("2.5") == 0


# Steps and ceilings.


@pytest.mark.parametrize("step", ["10.5%", "11 kg", "0.5%", "25 lb"])
def test_a_step_above_a_tenth_of_the_max_or_next_to_none_is_refused(step: str) -> None:
    with pytest.raises(OutOfRange, match=r"steps of .* not possible; 1 to 10 % of the 1RM"):
        span_of(100, step=parse_load(step))


@pytest.mark.parametrize("ceiling", ["99%", "161 kg", "bw+20 kg"])
def test_a_ceiling_below_the_max_or_above_160_percent_is_refused(ceiling: str) -> None:
    with pytest.raises(OutOfRange):
        span_of(100, ceiling=parse_load(ceiling))


@pytest.mark.parametrize("lower_s", [0.5, 31])
def test_a_lower_is_one_to_thirty_seconds(lower_s: float) -> None:
    with pytest.raises(OutOfRange, match="1 to 30 s"):
        span_of(100, lower_s=lower_s)


def test_without_a_word_it_goes_by_five_percent_to_130_percent() -> None:
    assert list(map(int, span_of(100).loads(RACK))) == [100, 105, 110, 115, 120, 125, 130]


def test_loads_are_rounded_down_to_the_discs_and_steps_stay_even() -> None:
    loads = span_of(91, step=parse_load("10%")).loads(RACK)
    assert [float(kg) for kg in loads] == [90, 97.5, 105, 112.5, 117.5]


def test_no_test_goes_above_what_can_be_a_max() -> None:
    with pytest.raises(OutOfRange, match="500 kg to 600 kg"):
        span_of(500)


def test_pounds_stay_pounds() -> None:
    pounds = Settings.model_validate({"bar": "45 lb", "discs": "pounds"}).rack
    loads = span_of(float(250 * KG_PER_LB)).loads(pounds)
    assert [str(as_load(kg)) for kg in loads[:3]] == ["250 lb", "260 lb", "275 lb"]


def test_what_is_lighter_than_the_bar_is_not_rounded_to_it() -> None:
    assert span_of(12.5).loads(RACK)[0] == Decimal("12.5")
