"""The one error tree: every refusal is a sentence, a hint, and the data it speaks of."""

from __future__ import annotations

from pathlib import Path


class TempoCoachError(Exception):
    """A refusal in one sentence: what was wrong, where, and what is allowed.

    Parameters
    ----------
    message
        What was wrong and where.
    hint
        What is allowed, or the nearest good answer.
    """

    def __init__(self, message: str, *, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint

    def __str__(self) -> str:
        return f"{self.message}; {self.hint}" if self.hint else self.message


class NotationError(TempoCoachError):
    """A text that is no tempo or no prescription.

    Parameters
    ----------
    text
        The whole text as it was given.
    column
        Where the fault begins in `text`, counted from 1.
    """

    def __init__(self, message: str, *, text: str, column: int, hint: str = "") -> None:
        super().__init__(message, hint=hint)
        self.text = text
        self.column = column

    def within(self, text: str, *, offset: int) -> NotationError:
        """Return the same fault as part of a longer text that it begins `offset` into."""
        return NotationError(self.message, text=text, column=self.column + offset, hint=self.hint)

    def __str__(self) -> str:
        return f"column {self.column}: {super().__str__()}"


class OutOfRange(TempoCoachError):
    """A value outside what is allowed."""


class SoundUnavailable(TempoCoachError):
    """No sound device, or one that refused the track."""


class ExtraMissing(TempoCoachError):
    """Something that only a part of the program needs is not installed."""


class FileProblem(TempoCoachError):
    """A file that can't be read or written.

    Parameters
    ----------
    path
        The file or folder.
    """

    def __init__(self, message: str, *, path: Path, hint: str = "") -> None:
        super().__init__(message, hint=hint)
        self.path = path


class FileUnreadable(FileProblem):
    """A file that can't be read as a whole: missing, a folder, or forbidden."""


class LogUnreadable(FileUnreadable):
    """A log that can't be read as a whole."""


class LogUnwritable(FileProblem):
    """A fact that could not be put on the disk."""


class UnknownSet(TempoCoachError):
    """An id that names no set in the log, or more than one.

    Parameters
    ----------
    set_id
        The id, or the beginning of one, as it was given.
    """

    def __init__(self, message: str, *, set_id: str, hint: str = "") -> None:
        super().__init__(message, hint=hint)
        self.set_id = set_id


class UnknownMax(TempoCoachError):
    """An id that names no tested max in the log, or more than one.

    Parameters
    ----------
    max_id
        The id, or the beginning of one, as it was given.
    """

    def __init__(self, message: str, *, max_id: str, hint: str = "") -> None:
        super().__init__(message, hint=hint)
        self.max_id = max_id


class SettingsProblem(FileProblem):
    """A settings file with a value that can't be used."""


class PlanRefused(TempoCoachError):
    """A plan that can't be used.

    Parameters
    ----------
    faults
        Everything that is wrong in it, a sentence each.
    """

    def __init__(self, message: str, *, faults: tuple[str, ...], hint: str = "") -> None:
        super().__init__(message, hint=hint)
        self.faults = faults


class TableRefused(TempoCoachError):
    """A table of which nothing could be read as a plan."""


class TraceRefused(TempoCoachError):
    """A recording of the bar in which no reps can be found, and why."""
