from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.signal.windows import hann

from sounds_gen import named
from sounds_gen.glide import glide
from sounds_gen.mixing import PEAK, lay_out, mix
from sounds_gen.samples import Samples, sample_at
from sounds_gen.voice.words import Spoken, number, word
from sounds_gen.weighting import a_level_db

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


WORDS = st.sampled_from([number(1), number(7), number(25), number(88), word("lower")])
TONE = glide([(0.5, 0.5, 1000)], repeats=4)


def held(level: float, *, length_ms: int) -> Samples:
    """Return a constant, on which every gain can be read."""
    return np.full(sample_at(length_ms), level, dtype=np.float32)


@st.composite
def mixtures(
    draw: st.DrawFn,
) -> tuple[Placed, Placed, list[tuple[int, Spoken]], int]:
    length_ms = draw(st.integers(1, 3000))
    moments = st.sets(st.integers(0, length_ms - 1), max_size=6).map(sorted)
    return (
        [(at_ms, draw(SOUNDS)) for at_ms in draw(moments)],
        [(at_ms, TONE) for at_ms in draw(moments)],
        [(at_ms, draw(WORDS)) for at_ms in draw(moments)],
        length_ms,
    )


@given(mixture=mixtures(), volume=st.floats(0, 1))
def test_no_mixture_is_ever_above_1_db_below_full_scale(
    mixture: tuple[Placed, Placed, list[tuple[int, Spoken]], int], volume: float
) -> None:
    marks, glides, speech, length_ms = mixture

    track = mix(marks, glides=glides, speech=speech, length_ms=length_ms, volume=volume)

    # -1 dBFS by definition: 10 ** (-1 / 20).
    highest = np.abs(track).max()
    assert track.dtype == np.float32
    assert track.shape == (sample_at(length_ms),)
    assert highest <= 0.891251 * volume + 1e-6
    assert highest == pytest.approx(PEAK * volume, abs=1e-6) or not track.any()


@pytest.mark.parametrize("volume", [1.0, 0.5, 0.1, 0.0])
def test_the_volume_is_the_amplitude_of_the_track(volume: float) -> None:
    marks = [(0, named.fall()), (1000, named.rise())]

    track = mix(marks, length_ms=2000, volume=volume)

    np.testing.assert_allclose(track, mix(marks, length_ms=2000) * volume, atol=1e-6)


def test_marks_alone_are_what_is_laid_out_at_full_level() -> None:
    marks = [(0, named.fall()), (300, named.level(0.0)), (900, named.close())]

    track = mix(marks, length_ms=1500)

    laid = lay_out(marks, length_ms=1500)
    np.testing.assert_allclose(track, laid * PEAK / np.abs(laid).max(), atol=1e-6)


def test_cues_keep_their_relation_in_a_mixture() -> None:
    track = mix([(0, named.fall())], speech=[(1000, number(3))], length_ms=2000)

    spoken = number(3)
    onset = sample_at(1000) - spoken.beat
    fall_db = a_level_db(track[: named.fall().size])
    assert a_level_db(track[onset : onset + spoken.clip.size]) == pytest.approx(fall_db, abs=0.2)


def test_the_beat_of_a_word_falls_on_its_moment() -> None:
    spoken = Spoken(held(0.5, length_ms=100), beat=1000)

    track = mix([], speech=[(50, spoken)], length_ms=300)

    [sounding] = np.nonzero(track)
    assert sounding[0] == 50 * 48 - 1000
    assert sounding.size == 100 * 48


def test_a_word_that_would_begin_before_the_track_swells_with_it() -> None:
    spoken = Spoken(held(0.5, length_ms=100), beat=1000)

    track = mix([], speech=[(0, spoken)], length_ms=300)

    [sounding] = np.nonzero(track)
    assert track[0] == 0
    assert sounding[-1] == 100 * 48 - 1000 - 1
    assert (np.diff(track[:384]) >= 0).all()


def test_a_word_gives_way_to_the_next_even_if_that_begins_first() -> None:
    early = Spoken(held(0.5, length_ms=100), beat=4000)
    late = Spoken(held(0.5, length_ms=100), beat=0)

    track = mix([], speech=[(90, late), (100, early)], length_ms=300)

    [sounding] = np.nonzero(track)
    assert sounding[0] == 100 * 48 - 4000
    assert sounding.size == 100 * 48


def test_tones_are_12_db_softer_under_a_word_and_on_both_sides_whole() -> None:
    # A word of silence leaves the gain to be seen.
    silent = Spoken(held(0.0, length_ms=200), beat=0)

    track = mix(
        [(0, held(0.5, length_ms=1000))], speech=[(400, silent)], length_ms=1000
    ) / np.float32(PEAK)

    gain_db = 20 * np.log10(track)
    onset, end, ramp = sample_at(400), sample_at(600), sample_at(15)
    np.testing.assert_allclose(gain_db[onset:end], -12, atol=0.01)
    np.testing.assert_allclose(gain_db[: onset - ramp], 0, atol=0.01)
    np.testing.assert_allclose(gain_db[end + ramp :], 0, atol=0.01)
    # scipy.signal.windows.hann, the outside form of the raised cosine.
    down = hann(2 * ramp - 1)[ramp - 1 :]
    depth = 1 - 10 ** (-12 / 20)
    np.testing.assert_allclose(track[onset - ramp : onset], 1 - depth + depth * down, atol=1e-5)
    np.testing.assert_allclose(track[end : end + ramp], 1 - depth * down, atol=1e-5)


def test_a_glide_gives_way_to_marks_and_words() -> None:
    silent = held(0.0, length_ms=100)

    track = mix(
        [(200, silent)],
        glides=[(0, held(0.5, length_ms=1000))],
        speech=[(600, Spoken(silent, beat=0))],
        length_ms=1000,
    )

    ducked = track < 0.9 * PEAK
    assert ducked[sample_at(250)]
    assert ducked[sample_at(650)]
    assert not ducked[sample_at(450)]


def test_between_words_close_together_the_tones_stay_down() -> None:
    silent = Spoken(held(0.0, length_ms=100), beat=0)

    track = mix(
        [(0, held(0.5, length_ms=1000))],
        speech=[(300, silent), (425, silent), (800, silent)],
        length_ms=1000,
    )

    between = track[sample_at(300) : sample_at(525)]
    np.testing.assert_allclose(between, PEAK * 10 ** (-12 / 20), rtol=1e-5)
    assert track[sample_at(650)] == pytest.approx(PEAK)


@pytest.mark.parametrize("at_ms", [0, 995])
def test_a_word_at_an_edge_of_the_track_ducks_what_there_is(at_ms: int) -> None:
    silent = Spoken(held(0.0, length_ms=100), beat=sample_at(5))

    track = mix([(0, held(0.5, length_ms=1000))], speech=[(at_ms, silent)], length_ms=1000)

    # The end of the track cuts the tone too, so it is not looked at.
    assert track[min(sample_at(at_ms), sample_at(991))] < 0.3 * PEAK
    assert track[sample_at(500)] == pytest.approx(PEAK)


def test_nothing_mixed_is_silence() -> None:
    assert not mix([], length_ms=2500).any()
    assert mix([], length_ms=0).size == 0


@pytest.mark.parametrize("volume", [-0.1, 1.1, float("nan")])
def test_a_volume_outside_0_to_1_is_refused(volume: float) -> None:
    with pytest.raises(ValueError, match="from 0 to 1"):
        mix([], length_ms=100, volume=volume)


def test_moments_of_words_are_held_to_the_same_rules() -> None:
    with pytest.raises(ValueError, match="at 100 ms on a track of 100 ms"):
        mix([], speech=[(100, number(1))], length_ms=100)
    with pytest.raises(ValueError, match="can't follow"):
        mix([], speech=[(50, number(1)), (50, number(2))], length_ms=100)
