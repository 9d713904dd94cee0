"""The logs in a folder."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from tempo_coach.core.legible import legible
from tempo_coach.errors import LogUnreadable
from tempo_coach.storage.reasons import reason

_ENDING = ".jsonl"


def log_paths(given: Iterable[Path]) -> tuple[Path, ...]:
    """Return the logs that are meant by files and folders, each once, in the order given.

    A folder stands for every ``.jsonl`` file in it and below. One file by two names is one log.

    Raises
    ------
    LogUnreadable
        A folder can't be read, or has no log.
    """
    found: dict[object, Path] = {}
    for path in given:
        for log in _below(path) if path.is_dir() else [path]:
            found.setdefault(_identity(log), log)
    return tuple(found.values())


def _identity(path: Path) -> object:
    try:
        status = path.stat()
    except OSError:
        return path  # whoever reads it says why it can't be
    return status.st_dev, status.st_ino


def _below(folder: Path) -> list[Path]:
    def refuse(fault: OSError) -> None:
        raise LogUnreadable(
            f"the folder {legible(str(fault.filename))} can't be read: {reason(fault)}",
            path=folder,
            hint="give its logs one by one, or the right to read it",
        ) from fault

    logs = sorted(
        Path(place) / name
        for place, _, names in os.walk(folder, onerror=refuse)
        for name in names
        if name.endswith(_ENDING)
    )
    if not logs:
        raise LogUnreadable(
            f"the folder {legible(str(folder))} has no log in it or below",
            path=folder,
            hint=f"the name of a log ends in {_ENDING}",
        )
    return logs
