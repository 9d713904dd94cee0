"""A bar on standard error for what takes longer than a moment."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, TextIO

from tempo_coach import bootstrap
from tempo_coach.core.ports import Clock

if TYPE_CHECKING:
    from rich.progress import Progress as Bar

_PATIENCE_MS = 1_000
"""How long nothing is shown."""


class Progress:
    """What was done of some work, and the time left; shown on a terminal only.

    Parameters
    ----------
    doing
        What is done, in a word.
    total
        How much there is to do.
    stream
        Where the bar is drawn.
    clock
        What tells the time.
    """

    def __init__(self, doing: str, total: int, *, stream: TextIO, clock: Clock) -> None:
        self._doing = doing
        self._total = total
        self._stream = stream
        self._clock = clock
        self._began_ms = clock.now_ms()
        self._done = 0
        self._bar: Bar | None = None

    def advance(self, more: int) -> None:
        """Say that so much more was done."""
        self._done += more
        if self._bar is not None:
            self._bar.update(self._bar.task_ids[0], completed=self._done)
        elif self._is_due():
            self._bar = self._shown()

    def end(self) -> None:
        """Take the bar away."""
        if self._bar is not None:
            self._bar.stop()
            self._bar = None

    def _is_due(self) -> bool:
        return self._clock.now_ms() - self._began_ms > _PATIENCE_MS and self._stream.isatty()

    def _shown(self) -> Bar:
        # A twentieth of a second, and only needed for long work.
        from rich.console import Console
        from rich.progress import BarColumn, TaskProgressColumn, TextColumn, TimeRemainingColumn
        from rich.progress import Progress as Bar

        bar = Bar(
            TextColumn("{task.description}"),
            BarColumn(),
            TaskProgressColumn(),
            TimeRemainingColumn(),
            TextColumn("left"),
            console=Console(file=self._stream),
            transient=True,
        )
        bar.add_task(self._doing, total=self._total, completed=self._done)
        bar.start()
        return bar


@contextmanager
def progress(doing: str, total: int) -> Iterator[Progress]:
    """Yield what to tell of some work; whatever ends it, the bar is taken away."""
    shown = Progress(doing, total, stream=sys.stderr, clock=bootstrap.clock())
    try:
        yield shown
    finally:
        shown.end()
