from __future__ import annotations

import pytest

from sounds_gen.pitch import height_hz, pitch_hz


@pytest.mark.parametrize(
    ("midi_note", "hz"),
    [(60, 261.6256), (69, 440.0), (76, 659.2551), (81, 880.0), (84, 1046.5023), (93, 1760.0)],
    ids=["C4", "A4", "E5", "A5", "C6", "A6"],
)
def test_notes_are_tuned_to_iso_16(midi_note: int, hz: float) -> None:
    # ISO 16:1975, A4 = 440 Hz; the others in equal temperament, to 4 decimals.
    assert pitch_hz(midi_note) == pytest.approx(hz, abs=5e-5)


def test_a_note_between_two_keys_is_as_far_from_one_as_from_the_other() -> None:
    between_hz = pitch_hz(64.5)

    assert between_hz / pitch_hz(64) == pytest.approx(pitch_hz(65) / between_hz)


@pytest.mark.parametrize("midi_note", [-1, 127.5, float("nan"), float("inf")])
def test_a_note_outside_the_numbering_is_refused(midi_note: float) -> None:
    with pytest.raises(ValueError, match="from 0 to 127"):
        pitch_hz(midi_note)


@pytest.mark.parametrize(("height", "hz"), [(0.0, 329.6276), (5 / 12, 440.0), (1.0, 659.2551)])
def test_heights_lie_in_the_octave_of_e4(height: float, hz: float) -> None:
    # ISO 16:1975: E4, A4 and E5.
    assert height_hz(height) == pytest.approx(hz, abs=5e-5)


@pytest.mark.parametrize("height", [-0.01, 1.01, float("nan")])
def test_a_height_outside_the_octave_is_refused(height: float) -> None:
    with pytest.raises(ValueError, match=r"from 0 \(bottom\) to 1 \(top\)"):
        height_hz(height)
