"""What one log says, or several together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tempo_coach.core.facts import Fact
from tempo_coach.core.history import History, fold
from tempo_coach.core.log_lines import Skipped
from tempo_coach.core.ports import Log


@dataclass(frozen=True, slots=True)
class LogReading:
    """What one log or several say."""

    history: History
    skipped: tuple[Skipped, ...]


def read_logs(logs: Iterable[Log]) -> LogReading:
    """Read several logs as one, merged by id.

    Raises
    ------
    LogUnreadable
        One of them can't be read as a whole.
    """
    facts: list[Fact] = []
    skipped: list[Skipped] = []
    for log in logs:
        for line in log.read():
            if isinstance(line, Skipped):
                skipped.append(line)
            else:
                facts.append(line)
    return LogReading(fold(facts), tuple(skipped))
