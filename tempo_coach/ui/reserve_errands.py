"""What blocks in a reserve test: each step runs in a thread and is answered by a message."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import TypeAlias

from textual.message import Message
from textual.widget import Widget

from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.errors import LogUnwritable
from tempo_coach.ui.errands import RestStarted
from tempo_coach.ui.underway import Underway

Step: TypeAlias = Callable[[], tuple[ReserveTest, LogUnwritable | None]]


@dataclass
class StepTaken(Message):
    """A test was begun or an answer taken; with the reason if that is not on the disk yet."""

    test: ReserveTest
    fault: LogUnwritable | None


class ReserveErrands:
    """Runs the steps of a test in threads.

    Parameters
    ----------
    asker
        The widget that the answers go to.
    underway
        What does the steps.
    """

    def __init__(self, asker: Widget, underway: Underway) -> None:
        self._asker = asker
        self._underway = underway

    def take(self, step: Step) -> None:
        """Begin a test, or log an answer."""
        self._run(lambda: self._asker.post_message(StepTaken(*step())))

    def rest(self, rest_ms: int) -> None:
        """Start a rest."""
        self._run(partial(self._rest, rest_ms))

    def hush(self) -> None:
        """Make the rest silent."""
        self._run(self._underway.hush)

    def _rest(self, rest_ms: int) -> None:
        rest = self._underway.rest(rest_ms)
        if rest is not None:
            self._asker.post_message(RestStarted(rest))

    def _run(self, step: Callable[[], object]) -> None:
        self._asker.run_worker(step, thread=True, group="reserve")
