"""The onset finder, on recordings made up here."""

from __future__ import annotations

import numpy as np
import pytest

from sounds_gen import named
from sounds_gen.pcm import Pcm, to_pcm
from sounds_gen.samples import Samples
from tests.audio.recording import onsets

pytestmark = pytest.mark.audio


def heard(*placed: tuple[int, Samples]) -> Pcm:
    pcm = np.zeros(200_000, dtype=np.int16)
    for onset, clip in placed:
        pcm[onset : onset + clip.size] = to_pcm(clip)
    return pcm


def test_clips_are_found_at_their_first_samples() -> None:
    recording = heard((1_001, named.fall()), (60_000, named.fall()), (123_457, named.fall()))

    assert onsets(recording, of=named.fall()) == [1_001, 60_000, 123_457]


def test_a_softer_copy_is_found_too() -> None:
    recording = heard((5_000, (named.rise() * np.float32(0.25)).astype(np.float32)))

    assert onsets(recording, of=named.rise()) == [5_000]


def test_a_clip_is_not_taken_for_another() -> None:
    recording = heard(
        (0, named.fall()),
        (40_000, named.level(0.5)),
        (80_000, named.snap()),
        (120_000, named.call()),
    )

    for other in (named.rise(), named.step(0.5), named.step(1.0), named.fall(twice=True)):
        assert onsets(recording, of=other) == []


def test_a_clip_that_was_cut_is_not_found() -> None:
    cut = named.fall().copy()
    cut[9_600:] = 0

    assert onsets(heard((5_000, cut)), of=named.fall()) == []
