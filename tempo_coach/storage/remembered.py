"""What the program remembers between two starts, and nobody edits."""

from __future__ import annotations

from pathlib import Path

from pydantic import BaseModel, ConfigDict, ValidationError

from tempo_coach.storage.settings_file import replace_file


class Remembered(BaseModel):
    """What was shown or done once."""

    model_config = ConfigDict(frozen=True, extra="ignore")

    cautions_shown: bool = False


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

    def keep(self, remembered: Remembered) -> None:
        """Remember; a disk that does not take it means being told the same once more."""
        try:
            replace_file(self._path, remembered.model_dump_json() + "\n")
        except OSError:
            return
