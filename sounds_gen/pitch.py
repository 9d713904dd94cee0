"""Pitches of notes, tuned to ISO 16, and of heights within an octave."""

from __future__ import annotations

TUNING_NOTE = 69
TUNING_HZ = 440.0
NOTES_AN_OCTAVE = 12
HIGHEST_NOTE = 127
BOTTOM_NOTE = 64
"""E4, 329.63 Hz; the top is E5, an octave above."""


def pitch_hz(midi_note: float) -> float:
    """Return the frequency of a note in equal temperament.

    Parameters
    ----------
    midi_note
        Note number, 0 to 127; 69 is A4, and a fraction lies between two keys.

    Returns
    -------
    float
        Hz; ``440 * 2 ** ((midi_note - 69) / 12)``, A4 being 440 Hz by ISO 16.

    Raises
    ------
    ValueError
        The number is below 0, above 127, or not a number.
    """
    if not 0 <= midi_note <= HIGHEST_NOTE:
        raise ValueError(f"a note is numbered from 0 to {HIGHEST_NOTE}, not {midi_note}")
    return float(TUNING_HZ * 2.0 ** ((midi_note - TUNING_NOTE) / NOTES_AN_OCTAVE))


def height_hz(height: float) -> float:
    """Return the pitch of a height.

    Parameters
    ----------
    height
        From 0 (bottom, E4) to 1 (top, E5), by equal intervals.

    Returns
    -------
    float
        Hz, 329.63 to 659.26.

    Raises
    ------
    ValueError
        The height is not from 0 to 1.
    """
    if not 0 <= height <= 1:
        raise ValueError(f"a height lies from 0 (bottom) to 1 (top), not at {height}")
    return pitch_hz(BOTTOM_NOTE + NOTES_AN_OCTAVE * height)
