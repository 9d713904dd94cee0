"""Where the rest stands between two sets."""

from __future__ import annotations

from tempo_coach.core.running_set import RunningRest
from tempo_coach.ui.sign import Sign, rest_sign, since_sign


class RestWatch:
    """Counts a rest down, or up where nothing says when it ends."""

    def __init__(self) -> None:
        self._begun_ms = 0
        self._rest: RunningRest | None = None

    def begin(self, now_ms: int, rest_ms: int | None) -> None:
        """Begin a rest, whether or not it sounds."""
        self._begun_ms = now_ms
        self._rest = None if rest_ms is None else RunningRest(now_ms, rest_ms)

    def take(self, rest: RunningRest) -> None:
        """Count the rest that sounds."""
        self._rest = rest

    def is_over(self, now_ms: int) -> bool:
        """Tell whether a rest that has an end is over."""
        return self._rest is not None and self._rest.left_ms(now_ms) == 0

    def sign(self, now_ms: int) -> Sign:
        """Return what is left of it, or how long it has lasted."""
        if self._rest is None:
            return since_sign(self._begun_ms, now_ms)
        return rest_sign(self._rest, now_ms)
