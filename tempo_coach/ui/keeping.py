"""What is written for the next start, one thing after another."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from threading import Lock
from typing import Any

from textual.app import App

from tempo_coach.errors import TempoCoachError
from tempo_coach.ui.sentences import fault_sentence


class Keeping:
    """Writes in threads, but in order, since all goes into the same few files.

    Parameters
    ----------
    app
        Whose threads are used.
    tell
        Takes a sentence about what can't be kept.
    """

    def __init__(self, app: App[Any], tell: Callable[[str], None]) -> None:
        self._app = app
        self._tell = tell
        self._writes: deque[Callable[[], None]] = deque()
        self._lock = Lock()

    def keep(self, write: Callable[[], None]) -> None:
        """Write; what raises `TempoCoachError` is told and forgotten."""
        self._writes.append(write)
        self._app.run_worker(self._write_next, thread=True, group="keep")

    def _write_next(self) -> None:
        # Whichever thread comes first takes what was given first.
        with self._lock:
            try:
                self._writes.popleft()()
            except TempoCoachError as fault:
                self._app.call_from_thread(
                    self._tell, f"This will not be remembered. {fault_sentence(fault)}"
                )
