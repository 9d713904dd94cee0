"""What the set screen is doing."""

from __future__ import annotations

from enum import Enum, auto


class Stage(Enum):
    """From waiting for a set to having saved it."""

    WAITING = auto()
    STARTING = auto()
    PACING = auto()
    ENDING = auto()
    SAVED = auto()
