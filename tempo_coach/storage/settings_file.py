"""The settings as a TOML file, edited by hand or by the program."""

from __future__ import annotations

import os
import tempfile
import tomllib
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from tempo_coach.core.legible import legible, quoted
from tempo_coach.core.settings import Settings
from tempo_coach.errors import SettingsProblem


class SettingsFile:
    """Where the settings are kept.

    Parameters
    ----------
    path
        The file; a missing one means that nothing is set.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    def read(self) -> tuple[Settings, tuple[SettingsProblem, ...]]:
        """Return the settings, and what is wrong with the file; the rest of it applies."""
        try:
            given = tomllib.loads(self._path.read_text(encoding="utf-8"))
        except FileNotFoundError:
            return Settings(), ()
        except (OSError, ValueError, RecursionError) as fault:
            reason = fault.strerror if isinstance(fault, OSError) else fault
            return Settings(), (self._problem(f"can't be read: {reason}", hint="it is left out"),)
        try:
            return Settings.model_validate(given), ()
        except ValidationError as fault:
            wrong = {str(one["loc"][0]): one["msg"] for one in fault.errors()}
        usable = {key: value for key, value in given.items() if key not in wrong}
        problems = (self._problem_with(key, given[key], said) for key, said in wrong.items())
        return Settings.model_validate(usable), tuple(problems)

    def keep(self, key: str, value: str | float) -> None:
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

    def _problem_with(self, key: str, value: Any, said: str) -> SettingsProblem:
        if key not in Settings.model_fields:
            return self._problem(
                f"has the key {quoted(key)}, which is no setting",
                hint=f"the settings are {', '.join(Settings.model_fields)}",
            )
        return self._problem(
            f"has {key} = {quoted(str(value))}: {said[0].lower()}{said[1:]}",
            hint=f"{Settings.model_fields[key].default!r} is used instead",
        )

    def _problem(self, what: str, *, hint: str) -> SettingsProblem:
        name = legible(str(self._path))
        return SettingsProblem(f"the settings file {name} {what}", path=self._path, hint=hint)


def replace_file(path: Path, text: str) -> None:
    """Put a text in place of a file, whole or not at all, private to the user."""
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    descriptor, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(descriptor, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        Path(temporary).replace(path)
    except OSError:
        Path(temporary).unlink(missing_ok=True)
        raise
