"""The settings as a TOML file, edited by hand or by the program."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from tempo_coach.core.legible import legible
from tempo_coach.errors import SettingsProblem
from tempo_coach.storage.whole_file import whole_file


class SettingsFile:
    """Where the settings are kept.

    Parameters
    ----------
    path
        The file; a missing one means that nothing is set.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    @property
    def name(self) -> str:
        """The path, as a source of settings."""
        return f"the settings file {legible(str(self._path))}"

    def read(self) -> tuple[dict[str, Any], SettingsProblem | None]:
        """Return what the file sets, unchecked, and why it can't be read, if it can't."""
        try:
            return tomllib.loads(self._path.read_text(encoding="utf-8")), None
        except FileNotFoundError:
            return {}, None
        except (OSError, ValueError, RecursionError) as fault:
            reason = fault.strerror if isinstance(fault, OSError) else fault
            return {}, self._problem(f"can't be read: {reason}", hint="it is left out")

    def keep(self, key: str, value: str | float | bool) -> None:
        """Set one key, leaving the rest of the file as it was written.

        Raises
        ------
        SettingsProblem
            The file can't be read or written.
        """
        # A fifth of the start-up time, and only needed the day a setting changes.
        import tomlkit

        try:
            # Bytes, since reading as text would change the line ends.
            text = self._path.read_bytes().decode() if self._path.exists() else ""
            document = tomlkit.parse(text)
            document[key] = value
            replace_file(self._path, tomlkit.dumps(document))
        except (OSError, ValueError) as fault:
            raise self._problem(f"can't be changed: {fault}", hint="set it by hand") from fault

    def _problem(self, what: str, *, hint: str) -> SettingsProblem:
        return SettingsProblem(f"{self.name} {what}", path=self._path, hint=hint)


def replace_file(path: Path, text: str) -> None:
    """Put a text in place of a file, whole or not at all, private to the user."""
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    with whole_file(path) as file:
        file.write(text.encode())
