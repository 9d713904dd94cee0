from __future__ import annotations

import pytest

from tempo_coach.core.bar_answer import BarAnswer, answer_data, bar_answer, lowered_bars
from tempo_coach.core.load import parse_load
from tempo_coach.core.mass import parse_mass
from tempo_coach.errors import OutOfRange
from tests.tempo_coach.core.racks import disc_texts, rack_of


def answer(
    load: str,
    *,
    before: str | None = None,
    lower: str | None = None,
    releaser: str = "0 kg",
    discs: str = "powerlifting",
    collars: str = "0 kg",
) -> BarAnswer:
    return bar_answer(
        rack_of(discs, collars=collars),
        parse_load(load),
        before=None if before is None else parse_load(before),
        lower=None if lower is None else parse_load(lower),
        releaser=parse_mass(releaser),
    )


def test_a_load_that_can_be_had_has_one_way() -> None:
    found = answer("100 kg")

    assert found.is_exact
    assert [disc_texts(way.bar.side) for way in found.ways] == ["25+15"]


def test_a_load_that_cant_be_had_has_one_below_and_one_above() -> None:
    found = answer("131.25 kg")

    assert not found.is_exact
    assert [way.bar.kg for way in found.ways] == [130, 132.5]


def test_what_is_on_the_bar_decides_which_way_is_taken() -> None:
    (way,) = answer("100 kg", before="80 kg").ways

    assert disc_texts(way.bar.side) == "25+5+10"
    assert way.change is not None
    assert way.change.moves == 1


def test_an_overload_is_hung_on_releasers_or_taken_off_by_hand() -> None:
    found = answer("100 kg", lower="132.5 kg", releaser="2.5 kg")

    assert found.lowering is not None
    assert found.by_hand is not None
    assert [disc_texts(bar.hung) for bar in lowered_bars(found.lowering)] == [
        "10+2.5+1.25",
    ]
    assert [disc_texts(bar.hung) for bar in lowered_bars(found.by_hand)] == ["15+1.25"]


def test_an_overload_goes_over_the_lighter_of_two_bars() -> None:
    found = answer("101 kg", lower="120 kg")

    assert found.lowering is not None
    assert found.lowering.exact is not None
    assert found.lowering.exact.raised.kg == 100


def test_an_answer_as_data_has_its_units_in_the_keys() -> None:
    data = answer_data(answer("81 kg", before="80 kg", lower="100 kg"))

    assert (data["load_kg"], data["bar_kg"], data["from_kg"]) == (81.0, 20.0, 80.0)
    assert data["is_exact"] is False
    assert data["ways"] == [
        {
            "kg": 80.0,
            "difference_kg": -1.0,
            "side": ["25 kg", "5 kg"],
            "side_kg": 30.0,
            "change": {"off": [], "on": [], "moves_a_side": 0},
        },
        {
            "kg": 82.5,
            "difference_kg": 1.5,
            "side": ["25 kg", "5 kg", "1.25 kg"],
            "side_kg": 31.25,
            "change": {"off": [], "on": ["1.25 kg"], "moves_a_side": 1},
        },
    ]
    assert data["lowering"] == {
        "asked_kg": 100.0,
        "is_exact": True,
        "ways": [{"kg": 100.0, "difference_kg": 0.0, "releaser_kg": 0.0, "a_side": ["10 kg"]}],
    }


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (
            {"load": "72%"},
            "72% is a share of a max that is not known here; give it in kg or lb, such as 80 kg",
        ),
        (
            {"load": "bw+10 kg"},
            "bw+10 kg hangs on the body and not on a bar; give it in kg or lb, such as 80 kg",
        ),
        ({"load": "15 kg"}, "15 kg is less than the empty bar; the nearest is 20 kg"),
        (
            {"load": "21 kg", "collars": "5 kg"},
            "21 kg is less than the empty bar with its collars; the nearest is 25 kg",
        ),
        (
            {"load": "90 kg", "discs": "20x2 10x2"},
            "90 kg is more than these discs reach; the most is 80 kg",
        ),
        (
            {"load": "100 kg", "before": "81 kg"},
            "81 kg can't be on the bar now; the nearest: 80 kg and 82.5 kg",
        ),
        (
            {"load": "100 kg", "before": "19 kg"},
            "19 kg can't be on the bar now; the nearest: 20 kg",
        ),
        ({"load": "100 kg", "before": "bw"}, "bw hangs on the body"),
        ({"load": "100 kg", "lower": "105%"}, "105% is a share of a max"),
        (
            {"load": "100 kg", "lower": "100 kg"},
            "100 kg to lower is not more than 100 kg to raise; "
            "leave --lower out where both are the same",
        ),
        (
            {"load": "80 kg", "discs": "20x4 10x2", "lower": "130 kg"},
            "130 kg to lower is more than the discs left over reach; the most is 120 kg",
        ),
    ],
)
def test_what_is_no_load_of_the_bar_is_refused_with_the_nearest(
    given: dict[str, str], said: str
) -> None:
    with pytest.raises(OutOfRange) as refusal:
        answer(**given)

    assert str(refusal.value).startswith(said)
