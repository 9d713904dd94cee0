"""Whether a set is heard, told once and not with every set."""

from __future__ import annotations

from tempo_coach.coach import Coach
from tempo_coach.core.running_set import RunningSet
from tempo_coach.errors import SoundUnavailable
from tempo_coach.ui.sentences import LOST_SOUND, without_sound_sentence

_CHECK_MS = 1_000


class SoundWatch:
    """Says when sets go without sound; silent until sound has been there again.

    Parameters
    ----------
    coach
        Who plays the tracks.
    """

    def __init__(self, coach: Coach) -> None:
        self._coach = coach
        self._has_told = False
        self._checked_ms = 0

    def start(self, fault: SoundUnavailable | None, now_ms: int) -> str | None:
        """Take in how a set has started; returns what is to be said of it."""
        self._checked_ms = now_ms
        if fault is None:
            self._has_told = False
            return None
        return self._once(without_sound_sentence(fault))

    def check(self, running: RunningSet, now_ms: int) -> str | None:
        """Look once a second whether the set still sounds; returns what is to be said of it."""
        if now_ms - self._checked_ms < _CHECK_MS:
            return None
        self._checked_ms = now_ms
        return self._once(LOST_SOUND) if self._coach.has_lost_sound(running) else None

    def _once(self, sentence: str) -> str | None:
        if self._has_told:
            return None
        self._has_told = True
        return sentence
