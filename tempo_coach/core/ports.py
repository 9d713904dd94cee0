"""What the use cases ask of the world: a player, a clock, a log, a plan."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, datetime
from typing import Protocol

from sounds_gen.samples import Samples
from tempo_coach.core.facts import Fact
from tempo_coach.core.log_lines import Skipped
from tempo_coach.core.plan_reading import PlanReading


class Playback(Protocol):
    """One track that is being played."""

    @property
    def lag_ms(self) -> int:
        """Time from the return of `Player.play` until the track's first sample is heard."""
        ...

    def is_sounding(self) -> bool:
        """Tell whether the device is still taking samples."""
        ...

    def silence(self) -> None:
        """Make the rest of the track silent at once; harmless when it has ended."""
        ...


class Player(Protocol):
    """Plays a whole track by one call."""

    def play(self, track: Samples) -> Playback:
        """Start the track; blocks until the device has taken it, so call it from a worker.

        Raises
        ------
        SoundUnavailable
            There is no device, or it refused the track.
        """
        ...


class Clock(Protocol):
    """Tells a monotonic moment for pacing and the wall clock's time for the log."""

    def now_ms(self) -> int:
        """Return the monotonic moment, in whole milliseconds from an unknown origin."""
        ...

    def wall(self) -> datetime:
        """Return the local time, with its offset from UTC."""
        ...

    def sleep_until_ms(self, moment_ms: int) -> None:
        """Return once `now_ms` has reached the moment."""
        ...


class Log(Protocol):
    """Holds facts, append only."""

    @property
    def name(self) -> str:
        """Where it is, as a person would look for it."""
        ...

    def append(self, fact: Fact) -> None:
        """Put one fact on the disk.

        Raises
        ------
        LogUnwritable
            It could not be put there whole.
        """
        ...

    def read(self) -> Iterator[Fact | Skipped]:
        """Yield every line in order, as a fact or as the reason why it is skipped.

        Raises
        ------
        LogUnreadable
            The log can't be read as a whole. A log that does not exist yet is empty.
        """
        ...


class LogLines(Protocol):
    """The lines of a log as they stand there."""

    @property
    def name(self) -> str:
        """Where it is, as a person would look for it."""
        ...

    def size(self) -> int:
        """Return its bytes; 0 where that can't be told."""
        ...

    def lines(self) -> Iterator[bytes]:
        """Yield every line with its line feed.

        Raises
        ------
        LogUnreadable
            As for `Log.read`.
        """
        ...

    def lines_at(self, offsets: Iterable[int]) -> Iterator[bytes]:
        """Yield the lines that begin so many bytes into the log.

        Raises
        ------
        LogUnreadable
            The log is no longer there, or can't be read twice, as a pipe can't.
        """
        ...


class PlanSource(Protocol):
    """Holds a plan, which may change while it is in use."""

    @property
    def name(self) -> str:
        """Where it is, as a person would look for it."""
        ...

    def read(self, *, today: date) -> PlanReading:
        """Read the plan, or everything that is wrong in it.

        Parameters
        ----------
        today
            As for `read_plan`.

        Raises
        ------
        FileUnreadable
            It can't be read as a whole.
        """
        ...
