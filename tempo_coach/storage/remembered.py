"""What the program remembers between two starts, and nobody edits."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ConfigDict, ValidationError
from pydantic_core import PydanticSerializationError

from tempo_coach.storage.settings_file import replace_file


class Remembered(BaseModel):
    """What was shown or done once."""

    model_config = ConfigDict(frozen=True, extra="ignore")

    cautions_shown: bool = False
    sound_checked_on: date | None = None
    """The day on which the sound was last heard to be there."""
    plan: str | None = None
    """The path of the plan that was opened last."""


class Memory:
    """Keeps `Remembered` as a JSON file.

    Parameters
    ----------
    path
        The file; without a readable one nothing is remembered.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    def recall(self) -> Remembered:
        """Return what is remembered."""
        try:
            return Remembered.model_validate_json(self._path.read_bytes())
        except (OSError, ValidationError):
            return Remembered()

    def keep(self, **news: Any) -> None:
        """Remember some fields of `Remembered`, and go on remembering the others.

        A disk that does not take it, or a path that is no text, means being told the same once
        more.
        """
        remembered = self.recall().model_copy(update=news)
        try:
            replace_file(self._path, remembered.model_dump_json() + "\n")
        except (OSError, PydanticSerializationError):
            return
