from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sounds_gen import named
from sounds_gen.mixing import lay_out
from sounds_gen.samples import Samples, sample_at

Placed = list[tuple[int, Samples]]
SOUNDS = st.sampled_from(
    [named.fall(), named.rise(), named.snap(), named.level(0.5), named.step(1.0), named.close()]
)


@st.composite
def layouts(draw: st.DrawFn) -> tuple[Placed, int]:
    length_ms = draw(st.integers(1, 4000))
    moments_ms = draw(st.sets(st.integers(0, length_ms - 1), max_size=12))
    return [(at_ms, draw(SOUNDS)) for at_ms in sorted(moments_ms)], length_ms


@given(layout=layouts())
def test_every_clip_begins_at_its_sample_and_ends_before_the_next(
    layout: tuple[Placed, int],
) -> None:
    placed, length_ms = layout

    track = lay_out(placed, length_ms=length_ms)

    assert track.dtype == np.float32
    assert track.shape == (sample_at(length_ms),)
    onsets = [sample_at(at_ms) for at_ms, _ in placed]
    for (_, clip), (onset, end) in zip(placed, pairwise([*onsets, track.size]), strict=True):
        room = end - onset
        whole = clip.size if clip.size <= room else max(0, room - sample_at(8))
        np.testing.assert_array_equal(track[onset : onset + whole], clip[:whole])
        assert not track[onset + clip.size : end].any()
        assert track[end - 1] == 0


@given(layout=layouts())
def test_a_track_is_nowhere_louder_than_its_clips(layout: tuple[Placed, int]) -> None:
    placed, length_ms = layout

    track = lay_out(placed, length_ms=length_ms)

    loudest = max((np.abs(clip).max() for _, clip in placed), default=0)
    assert np.abs(track).max() <= loudest


@given(layout=layouts())
def test_no_joint_clicks(layout: tuple[Placed, int]) -> None:
    placed, length_ms = layout

    track = lay_out(placed, length_ms=length_ms)

    # A cut of 1 ms, the least there is, falls from what the fade-in has reached by then; any step
    # at a joint would be as high as the clip itself.
    steepest = max((np.abs(np.diff(clip)).max() for _, clip in placed), default=0)
    assert np.abs(np.diff(track)).max(initial=0) <= 1.1 * steepest


def test_without_clips_a_track_is_silence() -> None:
    track = lay_out([], length_ms=250)

    assert track.size == 12_000
    assert not track.any()


def test_a_track_may_have_no_length() -> None:
    assert lay_out([], length_ms=0).size == 0


def test_a_clip_that_just_fits_is_whole() -> None:
    clip = named.snap()

    track = lay_out([(0, clip), (100, clip)], length_ms=200)

    np.testing.assert_array_equal(track, np.concatenate([clip, clip]))


@pytest.mark.parametrize("at_ms", [-1, 100, 101])
def test_a_moment_outside_the_track_is_refused(at_ms: int) -> None:
    with pytest.raises(ValueError, match=f"at {at_ms} ms on a track of 100 ms"):
        lay_out([(at_ms, named.snap())], length_ms=100)


@pytest.mark.parametrize("second_ms", [50, 49])
def test_clips_out_of_order_are_refused(second_ms: int) -> None:
    with pytest.raises(ValueError, match=f"at {second_ms} ms can't follow one at 50 ms"):
        lay_out([(50, named.snap()), (second_ms, named.snap())], length_ms=100)


def test_a_length_below_zero_is_refused() -> None:
    with pytest.raises(ValueError, match="0 ms or more"):
        lay_out([], length_ms=-1)
