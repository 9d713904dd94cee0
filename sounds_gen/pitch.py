"""Pitches of notes, tuned to ISO 16."""

from __future__ import annotations

TUNING_NOTE = 69
TUNING_HZ = 440.0
NOTES_AN_OCTAVE = 12
HIGHEST_NOTE = 127


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
