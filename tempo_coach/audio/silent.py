"""The player that makes no sound."""

from __future__ import annotations

from sounds_gen.samples import Samples


class SilentPlayback:
    """A track that nobody hears, "sounding" until it is silenced."""

    lag_ms = 0

    def __init__(self) -> None:
        self._silenced = False

    def is_sounding(self) -> bool:
        """Tell whether it has not been silenced yet; without a device nothing else ends it."""
        return not self._silenced

    def silence(self) -> None:
        """End it."""
        self._silenced = True


class SilentPlayer:
    """Plays nothing, for a set that is paced by the screen alone."""

    def play(self, track: Samples) -> SilentPlayback:  # noqa: ARG002 - a player is given the track
        """Return at once."""
        return SilentPlayback()
