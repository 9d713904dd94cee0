"""Whether a set is heard, told once and not with every set."""

from __future__ import annotations

from collections.abc import Callable

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
    tell
        Takes what is to be said.
    """

    def __init__(self, coach: Coach, tell: Callable[[str], None]) -> None:
        self._coach = coach
        self._tell = tell
        self._has_told = False
        self._checked_ms = 0

    def start(self, fault: SoundUnavailable | None, now_ms: int) -> None:
        """Take in how a set has started."""
        self._checked_ms = now_ms
        if fault is None:
            self._has_told = False
        else:
            self._tell_once(without_sound_sentence(fault))

    def check(self, running: RunningSet, now_ms: int) -> None:
        """Look once a second whether the set still sounds."""
        if now_ms - self._checked_ms >= _CHECK_MS:
            self._checked_ms = now_ms
            if self._coach.has_lost_sound(running):
                self._tell_once(LOST_SOUND)

    def _tell_once(self, sentence: str) -> None:
        if not self._has_told:
            self._has_told = True
            self._tell(sentence)
