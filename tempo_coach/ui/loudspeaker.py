"""Sounds that are no set: played in a thread and answered by a message."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from threading import Lock

from textual.message import Message
from textual.widget import Widget

from sounds_gen.samples import Samples
from tempo_coach.errors import SoundUnavailable
from tempo_coach.ui.underway import Underway


@dataclass
class SoundBegun(Message):
    """A sound is being heard."""

    name: str
    heard_ms: int
    """The monotonic moment at which its first sample is heard."""


@dataclass
class SoundRefused(Message):
    """A sound can't be heard."""

    fault: SoundUnavailable


class Loudspeaker:
    """Plays one sound at a time; the last one that was asked for is heard.

    Parameters
    ----------
    asker
        The widget that the answers go to.
    underway
        What plays, as long as no set runs.
    """

    def __init__(self, asker: Widget, underway: Underway) -> None:
        self._asker = asker
        self._underway = underway
        self._lock = Lock()
        self._asked = 0

    def play(self, name: str, make: Callable[[], Samples]) -> None:
        """Make a sound and play it in place of what is heard now."""
        self._asked += 1
        step = partial(self._play, self._asked, name, make)
        self._asker.run_worker(step, thread=True, group="loudspeaker")

    def stop(self) -> None:
        """Make all silent, and what is not heard yet too."""
        self._asked += 1
        # By the app, since the asker may be leaving.
        self._asker.app.run_worker(self._silence, thread=True, group="loudspeaker")

    def _play(self, number: int, name: str, make: Callable[[], Samples]) -> None:
        track = make()
        with self._lock:
            if number != self._asked:
                return
            try:
                heard_ms = self._underway.play(track)
            except SoundUnavailable as fault:
                self._asker.post_message(SoundRefused(fault))
            else:
                if heard_ms is not None:
                    self._asker.post_message(SoundBegun(name, heard_ms))

    def _silence(self) -> None:
        # Behind a sound that is just being given to the device.
        with self._lock:
            self._underway.hush()
