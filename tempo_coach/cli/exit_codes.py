"""What the command returns, after BSD's sysexits."""

from __future__ import annotations

from tempo_coach.errors import (
    ExtraMissing,
    FileProblem,
    FileUnreadable,
    LogUnwritable,
    SettingsProblem,
    SoundUnavailable,
    TempoCoachError,
)

OK = 0
USAGE = 64
"""The command was called wrongly."""
DATA = 65
"""A line, a value or a log that can't be used."""
NO_INPUT = 66
"""A file that can't be read."""
UNAVAILABLE = 69
"""No sound device, no terminal, or something that a part of the program needs."""
CANT_CREATE = 73
"""A file that can't be made."""
IO = 74
"""The log can't be written."""
CONFIG = 78
"""The settings can't be used."""
INTERRUPTED = 130
"""Ctrl-C; 129 and 143 after a hang-up and a termination."""

_BY_ERROR: tuple[tuple[type[TempoCoachError], int], ...] = (
    (SoundUnavailable, UNAVAILABLE),
    (ExtraMissing, UNAVAILABLE),
    (FileUnreadable, NO_INPUT),
    (LogUnwritable, IO),
    (SettingsProblem, CONFIG),
    (FileProblem, CANT_CREATE),
    (TempoCoachError, DATA),
)


def exit_code(fault: TempoCoachError) -> int:
    """Return the exit code of a refusal."""
    return next(code for kind, code in _BY_ERROR if isinstance(fault, kind))
