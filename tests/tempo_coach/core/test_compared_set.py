from __future__ import annotations

import json
from dataclasses import replace

import numpy as np
import pytest

from tempo_coach.core.compared_set import ComparedSet, compared_data
from tempo_coach.core.compared_table import loss_words, phase_rows, speed_rows
from tempo_coach.core.cut_set import CutRep, CutSet, Stretch
from tempo_coach.core.measured_rep import MeasuredRep, Motion
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.tempo import Phase, Speed
from tempo_coach.core.trace import Quantity

FIRST = MeasuredRep(4_120, 950, 600, 1_000, Motion(0.5, 0.121, 0.135, 0.833, 1.55))
LAST = MeasuredRep(3_400, 1_010, 750, None, Motion(0.49, 0.144, 0.155, 0.653, 1.22))
BLIND = MeasuredRep(None, None, 600, 1_000)


def compared(*reps: MeasuredRep, line: str = "front squat 1x2 4-1-X-1") -> ComparedSet:
    cut = CutSet(
        tuple(CutRep(rep, (Stretch(Phase.LOWER, 1.0, 1.0 + (rep.lower_ms or 0) / 1000),))
              for rep in reps),
        np.arange(4) / 10, np.zeros(4), Quantity.HEIGHT, 100.0, 0.001, ("A gap.",),
    )  # fmt: skip
    return ComparedSet(parse_prescription(line), cut)


def test_each_phase_stands_beside_what_was_asked_and_x_has_no_difference() -> None:
    rows = list(phase_rows(compared(FIRST, LAST)))

    assert rows == [
        ("line", "4.00", "", "1.00", "", "X", "", "1.00", ""),
        ("1", "4.12", "+0.12", "0.95", "−0.05", "0.60", "", "1.00", "0.00"),
        ("2", "3.40", "−0.60", "1.01", "+0.01", "0.75", "", "–", ""),
        ("sum", "7.52", "−0.48", "1.96", "−0.04", "1.35", "", "1.00", "0.00"),
    ]


def test_a_sum_says_that_something_was_not_measured() -> None:
    total = list(phase_rows(compared(FIRST, BLIND, LAST)))[-1]

    assert total[1::2] == ("7.52+", "1.96+", "1.95", "2.00")


def test_ranges_and_speeds_have_a_row_a_rep() -> None:
    assert list(speed_rows(compared(FIRST, BLIND))) == [
        ("1", "0.50", "0.12", "0.14", "0.83", "1.55"),
        ("2", "–", "–", "–", "–", "–"),
    ]


def test_speed_loss_is_from_the_fastest_raise_to_the_last() -> None:
    loss = compared(FIRST, LAST).speed_loss

    assert loss is not None
    assert (loss.best_rep, loss.last_rep) == (1, 2)
    assert loss.share == pytest.approx(1 - 0.653 / 0.833)
    assert loss_words(compared(FIRST, LAST)) == (
        "Speed lost over the raise: 22%, from 0.83 m/s in rep 1, the fastest, to 0.65 in rep 2, "
        "the last."
    )
    assert loss_words(compared(LAST, FIRST)) == (
        "No speed lost: the last raise was the fastest, at 0.83 m/s."
    )


@pytest.mark.parametrize("line", ["squat 1x2 4-1-X-1 lowering only"])
def test_a_raise_that_is_the_spotters_has_no_loss_and_no_difference(line: str) -> None:
    spotted = compared(FIRST, LAST, line=line)

    assert spotted.speed_loss is None
    assert spotted.prescribed(Phase.RAISE) is None
    assert spotted.difference_ms(FIRST, Phase.LOWER) == 120


def test_one_rep_has_no_speed_loss() -> None:
    assert loss_words(compared(FIRST)) is None


def test_stops_on_the_way_down_are_pauses() -> None:
    stopped = compared(FIRST, line="squat 1x1 4-1-X-1 stop 2 s at 1/3 2/3")

    assert stopped.prescribed(Phase.PAUSE) == 5_000
    assert stopped.prescribed(Phase.RAISE) is Speed.FAST


def test_reps_that_are_not_there_are_said_and_never_made_up() -> None:
    found = compared(FIRST, line="front squat 1x3 4-1-X-1")

    assert found.remarks() == ("1 rep found, 3 prescribed.", "A gap.")
    assert compared(FIRST, line="front squat 1xmax 4-1-X-1").remarks() == ("A gap.",)


def test_json_holds_every_figure() -> None:
    data = compared_data(compared(FIRST, LAST))

    assert json.loads(json.dumps(data, allow_nan=False)) == data
    assert data["prescribed_s"] == {"lower": 4.0, "pause": 1.0, "raise": "X", "top": 1.0}
    first, last = data["reps"]
    assert first["seconds"] == {"lower": 4.12, "pause": 0.95, "raise": 0.6, "top": 1.0}
    assert first["difference_s"] == {"lower": 0.12, "pause": -0.05, "raise": None, "top": 0.0}
    assert first["range_m"] == 0.5
    assert last["seconds"]["top"] is None
    assert data["speed_loss"]["share"] == 0.2161
    assert data["trace"] == {"quantity": "height", "rate_hz": 100.0, "noise": 0.001}


def test_a_set_without_speeds_has_none_in_json() -> None:
    data = compared_data(compared(replace(FIRST, motion=None)))

    assert data["speed_loss"] is None
    assert data["reps"][0]["range_m"] is None
