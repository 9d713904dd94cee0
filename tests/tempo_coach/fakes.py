"""Small real classes that stand for clock, device and disk."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from threading import Event

from sounds_gen.samples import Samples
from tempo_coach.core.facts import Fact
from tempo_coach.core.log_lines import Skipped
from tempo_coach.errors import LogUnreadable, LogUnwritable, SoundUnavailable

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)


class HandClock:
    """A clock that moves only by hand; its wall shows noon at moment 0, where nothing is said."""

    def __init__(self, now_ms: int = 0, *, begins: datetime = NOON) -> None:
        self._now_ms = now_ms
        self._begins = begins

    def advance(self, ms: int) -> None:
        self._now_ms += ms

    def now_ms(self) -> int:
        return self._now_ms

    def wall(self) -> datetime:
        return self._begins + timedelta(milliseconds=self._now_ms)

    def sleep_until_ms(self, moment_ms: int) -> None:
        self._now_ms = max(self._now_ms, moment_ms)


class RecordingPlayback:
    """A track that sounds until it is silenced or lost."""

    def __init__(self, lag_ms: int) -> None:
        self._lag_ms = lag_ms
        self.was_silenced = False
        self.was_lost = False

    @property
    def lag_ms(self) -> int:
        return self._lag_ms

    def is_sounding(self) -> bool:
        return not (self.was_silenced or self.was_lost)

    def silence(self) -> None:
        self.was_silenced = True


class RecordingPlayer:
    """A player that keeps what it is given; refuses with `fault` while it has one."""

    def __init__(self, *, lag_ms: int = 0, fault: SoundUnavailable | None = None) -> None:
        self.lag_ms = lag_ms
        self.fault = fault
        self.tracks: list[Samples] = []
        self.playbacks: list[RecordingPlayback] = []
        self.is_free = Event()
        """Cleared, the device takes no track until it is set again."""
        self.is_free.set()

    def play(self, track: Samples) -> RecordingPlayback:
        self.is_free.wait()
        if self.fault is not None:
            raise self.fault
        playback = RecordingPlayback(self.lag_ms)
        self.tracks.append(track)
        self.playbacks.append(playback)
        return playback


class MemoryLog:
    """A log that holds facts as long as the test lasts; refuses while it has a fault."""

    def __init__(self, name: str = "memory", *, fault: LogUnwritable | None = None) -> None:
        self._name = name
        self.fault = fault
        self.read_fault: LogUnreadable | None = None
        self.facts: list[Fact] = []

    @property
    def name(self) -> str:
        return self._name

    def append(self, fact: Fact) -> None:
        if self.fault is not None:
            raise self.fault
        self.facts.append(fact)

    def read(self) -> Iterator[Fact | Skipped]:
        if self.read_fault is not None:
            raise self.read_fault
        yield from self.facts


def no_device() -> SoundUnavailable:
    """A refusal as a machine without a sound card gives it."""
    return SoundUnavailable("there is no sound device", hint="plug in headphones")


def disk_full() -> LogUnwritable:
    """A refusal as a full disk gives it."""
    return LogUnwritable("the disk is full", path=Path("sets.jsonl"), hint="make room")
