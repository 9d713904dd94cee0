from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.adherence import Adherence, Band, adherence
from tempo_coach.core.clauses import parse_shape
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.rep_shape import PLAIN
from tempo_coach.core.tempo import Phase, parse_tempo


def kept(
    *lowers_ms: int | None, tempo: str = "4-1-X-1", shape: str = "", band: Band | None = None
) -> Adherence:
    reps = [MeasuredRep(lower_ms, 1000, 800, None) for lower_ms in lowers_ms]
    return adherence(
        reps,
        tempo=parse_tempo(tempo),
        shape=parse_shape(shape) if shape else PLAIN,
        band=band or Band(),
    )


def test_only_phases_of_prescribed_length_are_held_against_it() -> None:
    assert [one.phase for one in kept(4000).phases] == [Phase.LOWER, Phase.PAUSE, Phase.TOP]


def test_what_others_do_of_a_rep_is_not_asked_of_the_lifter() -> None:
    phases = [one.phase for one in kept(4000, tempo="4-0-2-0", shape="lowering only").phases]

    assert Phase.LOWER in phases
    assert Phase.RAISE not in phases


def test_stops_on_the_way_down_are_asked_for_as_pauses() -> None:
    found = kept(4000, tempo="4-1-1-0", shape="stop 2 s at 1/3 2/3")

    pause = next(one for one in found.phases if one.phase is Phase.PAUSE)
    assert pause.prescribed_ms == 5000


def test_measured_less_prescribed_is_given_in_seconds_and_as_a_share() -> None:
    lower = kept(3600, 4200, None).lower

    assert lower is not None
    assert lower.off_ms == (-400, 200, None)
    assert lower.measured == 2
    assert lower.mean_off_ms == -100
    assert lower.mean_off_share == -0.025


def test_a_lower_at_an_own_speed_is_held_against_nothing() -> None:
    found = kept(3600, tempo="V-1-1-1")

    assert found.lower is None
    assert found.sentences() == ()
    assert not found.is_lower_short


@pytest.mark.parametrize(
    ("prescribed_ms", "band_ms"), [(2000, 500), (4000, 500), (8_000, 500), (10_000, 600)]
)
def test_the_band_is_six_percent_or_half_a_second_whichever_is_more(
    prescribed_ms: int, band_ms: int
) -> None:
    assert Band().of(prescribed_ms) == band_ms


def test_reps_within_a_band_are_counted() -> None:
    lower = kept(3500, 3499, 4500, 4501, None).lower

    assert lower is not None
    assert lower.within(500) == 2


@pytest.mark.parametrize(
    ("lowers_ms", "said"),
    [
        ((4100, 3900, 4000), ("All 3 lowers were within 0.5 s of 4 s.",)),
        ((4100,), ("The lower was within 0.5 s of 4 s.",)),
        (
            (4000, 4000, 4000, 3200, 3200),
            (
                "Reps 4 and 5 were about 0.8 s short on the way down.",
                "The lower got 0.2 s shorter from rep to rep.",
            ),
        ),
        ((4000, 3200), ("Rep 2 was 0.8 s short on the way down.",)),
        ((4000, 4900), ("Rep 2 was 0.9 s long on the way down.",)),
        ((3000, 5000, 3000), (
            "Reps 1 and 3 were about 1 s short on the way down.",
            "Rep 2 was 1 s long on the way down.",
            "The load is too heavy for this tempo: more than half fell short.",
        )),
        ((4100, None, 4000), ("2 measured lowers of 3 reps: within 0.5 s of 4 s.",)),
        ((None, None), ()),
    ],
)  # fmt: skip
def test_the_lifter_is_told_in_a_sentence_or_two(
    lowers_ms: tuple[int | None, ...], said: tuple[str, ...]
) -> None:
    assert kept(*lowers_ms).sentences() == said


@pytest.mark.parametrize(
    ("lowers_ms", "is_short"),
    [
        ((3000, 3000, 4000), True),
        ((3000, 4000), False),
        ((3000, 4000, None, None), False),
        ((5000, 5000), False),
        ((None,), False),
    ],
)
def test_a_load_is_too_heavy_where_more_than_half_of_the_measured_lowers_are_short(
    lowers_ms: tuple[int | None, ...], is_short: bool
) -> None:
    # Heavier meant a faster descent and less time under tension: Harden et al. 2018,
    # JSCR 32:2708.
    assert kept(*lowers_ms).is_lower_short is is_short


@given(st.lists(st.integers(0, 20_000), min_size=3, max_size=12))
def test_the_drift_is_the_slope_that_numpy_fits(lowers_ms: list[int]) -> None:
    lower = kept(*lowers_ms).lower
    slope = float(np.polyfit(range(len(lowers_ms)), lowers_ms, 1)[0])

    assert lower is not None
    assert lower.drift_ms == pytest.approx(slope, abs=1e-6 * max(lowers_ms, default=1) + 1e-6)


@given(st.lists(st.none() | st.integers(0, 20_000), min_size=1, max_size=12))
def test_every_measured_rep_is_short_or_long_or_within(lowers_ms: list[int | None]) -> None:
    found = kept(*lowers_ms)
    kept_lower = next(one for one in found.phases if one.phase is Phase.LOWER)
    short, long = kept_lower.short_by(500), kept_lower.long_by(500)

    assert len(short) + len(long) + kept_lower.within(500) == kept_lower.measured
    assert all(a < b for a, b in pairwise(short))
    assert not set(short) & set(long)
