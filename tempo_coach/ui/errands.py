"""What blocks: each errand runs in a thread and is answered by a message."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import TypeAlias

from textual.message import Message
from textual.widget import Widget

from tempo_coach.core.facts import Changes, SetDone
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.running_set import RunningRest, RunningSet
from tempo_coach.errors import LogUnwritable, SoundUnavailable
from tempo_coach.ui.underway import Measured, Underway

Correction: TypeAlias = tuple[SetDone, Changes]


@dataclass
class SetStarted(Message):
    """A set runs; with the reason if it is without sound."""

    running: RunningSet
    fault: SoundUnavailable | None


@dataclass
class SetSaved(Message):
    """A set has ended; with the reason if it is not on the disk yet."""

    done: SetDone | None
    fault: LogUnwritable | None


@dataclass
class SetMeasured(Message):
    """The taps of a set were read; None where there were none."""

    measured: Measured | None


@dataclass
class RestStarted(Message):
    """A rest runs."""

    rest: RunningRest


@dataclass
class SetCorrected(Message):
    """A set was corrected; with the reason if that is not on the disk yet."""

    done: SetDone
    fault: LogUnwritable | None


@dataclass
class SetStruck(Message):
    """A set was struck; with the reason if that is not on the disk yet."""

    fault: LogUnwritable | None


class Errands:
    """Runs the steps of a set in threads.

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

    def start(self, at_hand: NextSet, *, lifter: str, correction: Correction | None) -> None:
        """Start a set, and then save what was corrected of the one before."""
        self._run(partial(self._start, at_hand, lifter, correction))

    def end(self, rest_ms: int | None) -> None:
        """End the set that runs and save it, and then start a rest if one is given."""
        self._run(partial(self._end, rest_ms))

    def read_taps(self) -> None:
        """Let the set that has ended count as it was tapped."""
        self._run(self._read_taps)

    def correct(self, correction: Correction) -> None:
        """Save a correction."""
        self._run(partial(self._correct, correction))

    def strike(self, done: SetDone) -> None:
        """Strike a set."""
        self._run(partial(self._strike, done))

    def _run(self, step: Callable[[], None]) -> None:
        self._asker.run_worker(step, thread=True, group="errands")

    def _start(self, at_hand: NextSet, lifter: str, correction: Correction | None) -> None:
        if self._underway.tapping is not None:
            self._read_taps()
        self._asker.post_message(SetStarted(*self._underway.start(at_hand, lifter=lifter)))
        if correction is not None:
            self._correct(correction)

    def _end(self, rest_ms: int | None) -> None:
        ended = self._underway.end()
        if ended is None:
            return
        self._asker.post_message(SetSaved(ended.done, ended.fault))
        if ended.done is not None and rest_ms is not None:
            rest = self._underway.rest(rest_ms)
            if rest is not None:
                self._asker.post_message(RestStarted(rest))

    def _read_taps(self) -> None:
        self._asker.post_message(SetMeasured(self._underway.read_taps()))

    def _correct(self, correction: Correction) -> None:
        self._asker.post_message(SetCorrected(*self._underway.correct(*correction)))

    def _strike(self, done: SetDone) -> None:
        self._asker.post_message(SetStruck(self._underway.strike(done)))
