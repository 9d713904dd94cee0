from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.taper import LONGEST_DAYS, Taper, TaperShape
from tempo_coach.errors import OutOfRange


@pytest.mark.parametrize(
    ("tau_days", "percent"),
    [
        # Computed from V(t) = V0·e^(-t/τ), at t = 0, 1, 2, 3, 5, 7, 10, 14 d; τ 4 d and 8 d are
        # those of Banister et al. 1999, 10.1007/s004210050493.
        (4, [100, 77.88, 60.65, 47.24, 28.65, 17.38, 8.21, 3.02]),
        (5, [100, 81.87, 67.03, 54.88, 36.79, 24.66, 13.53, 6.08]),
        (8, [100, 88.25, 77.88, 68.73, 53.53, 41.69, 28.65, 17.38]),
    ],
)
def test_an_exponential_taper_leaves_the_tabled_shares(
    tau_days: float, percent: list[float]
) -> None:
    taper = Taper(tau_days=tau_days)

    left = [100 * taper.course(day) for day in (0, 1, 2, 3, 5, 7, 10, 14)]

    assert left == pytest.approx(percent, abs=0.005)


@pytest.mark.parametrize(("tau_days", "mean"), [(4, 31.32), (5, 37.01), (8, 50.23)])
def test_only_tau_8_leaves_out_41_to_60_percent_of_two_weeks(tau_days: float, mean: float) -> None:
    # The means over days 0 to 13, computed from the same formula; the band is that of Bosquet et
    # al. 2007, MSSE 39:1358, 10.1249/mss.0b013e31806010e0.
    taper = Taper(tau_days=tau_days, last_days=1)

    assert 100 * taper.mean == pytest.approx(mean, abs=0.005)
    assert (0.41 <= 1 - taper.mean <= 0.60) == (tau_days == 8)


def test_a_taper_by_default_lies_in_the_published_bands() -> None:
    taper = Taper()

    # Bosquet et al. 2007: two weeks, volume down 41 to 60 %, exponential.
    assert (taper.shape, taper.days) == (TaperShape.EXPONENTIAL, 14)
    assert 0.41 <= 1 - taper.mean <= 0.60
    # Grgic & Mikulic 2017, JSCR 31:2371, 10.1519/JSC.0000000000001699: -50.5 ± 11.7 %.
    assert 0.505 - 0.117 <= 1 - taper.mean <= 0.505 + 0.117
    # Pritchard et al. 2016, JSCR 30:1796, 10.1519/jsc.0000000000001292: last session 3.7 ± 1.6 d.
    assert 3.7 - 1.6 <= taper.last_days <= 3.7 + 1.6


def test_a_step_taper_of_nine_days_is_that_of_most_lifters() -> None:
    # Travis et al. 2021, 10.1519/jsc.0000000000004177: step, 7 to 10 d, -41 to -50 %.
    taper = Taper(shape=TaperShape.STEP, days=9, cut=0.45, last_days=1)

    assert [taper.course(day) for day in (-1, 0, 8)] == pytest.approx([1.0, 0.55, 0.55])
    assert 1 - taper.mean == pytest.approx(0.45)


@given(st.sampled_from(TaperShape), st.integers(1, LONGEST_DAYS), st.integers(0, LONGEST_DAYS))
def test_the_last_days_take_more_out_of_the_sum(
    shape: TaperShape, days: int, last_days: int
) -> None:
    taper = Taper(shape=shape, days=days, last_days=last_days)

    shares = [taper.share(before) for before in range(days, 0, -1)]

    assert taper.mean == pytest.approx(sum(shares) / days)
    assert taper.mean <= Taper(shape=shape, days=days, last_days=1).mean


@pytest.mark.parametrize("shape", [TaperShape.STEP, TaperShape.LINEAR])
def test_a_taper_of_one_day_leaves_out_what_it_says(shape: TaperShape) -> None:
    assert Taper(shape=shape, days=1, cut=0.3, last_days=0).mean == pytest.approx(0.7)


@given(st.integers(2, LONGEST_DAYS), st.floats(0, 0.5))
def test_a_linear_taper_leaves_out_what_it_says_by_even_steps(days: int, cut: float) -> None:
    taper = Taper(shape=TaperShape.LINEAR, days=days, cut=cut, last_days=1)

    left = [taper.course(day) for day in range(days)]

    assert left[0] == 1.0
    assert 1 - taper.mean == pytest.approx(cut)
    steps = [before - after for before, after in pairwise(left)]
    assert steps == pytest.approx([steps[0]] * len(steps))


@given(st.sampled_from(TaperShape), st.integers(0, LONGEST_DAYS), st.integers(0, LONGEST_DAYS))
def test_no_taper_ever_goes_up_and_the_last_days_are_free(
    shape: TaperShape, days: int, last_days: int
) -> None:
    taper = Taper(shape=shape, days=days, last_days=last_days)

    left = [taper.share(before) for before in range(LONGEST_DAYS + 2, -1, -1)]

    assert all(0 <= share <= 1 for share in left)
    assert left == sorted(left, reverse=True)
    assert taper.share(0) == 0
    assert taper.share(max(last_days - 1, 0)) == 0


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"days": -1}, "a taper of -1 days"),
        ({"days": 43}, "a taper of 43 days"),
        ({"tau_days": 0}, "a τ of 0 days"),
        ({"cut": 1.1}, "can't leave out 110%"),
        ({"shape": TaperShape.LINEAR, "cut": 0.6}, "a linear taper can't leave out 60%"),
        ({"last_days": 50}, "the last lowering 50 days before"),
    ],
)
def test_a_taper_that_can_t_be_is_refused(given: dict[str, float], said: str) -> None:
    with pytest.raises(OutOfRange, match=said) as caught:
        Taper(**given)  # type: ignore[arg-type] # each case has the type of its field

    assert caught.value.hint
