"""The words of a line, and how one of them is refused."""

from __future__ import annotations

import re
from typing import NoReturn

from tempo_coach.errors import NotationError

_WORD = re.compile(r"\S+")


def next_word(line: str, at: int) -> re.Match[str] | None:
    """Return the first word that begins at an index of the line or behind it."""
    return _WORD.search(line, at)


def skip_space(line: str, at: int) -> int:
    """Return where the next word begins; the line's end where there is none."""
    word = next_word(line, at)
    return len(line) if word is None else word.start()


def refuse(line: str, index: int, message: str, *, hint: str) -> NoReturn:
    """Refuse a line for what stands at an index of it."""
    raise NotationError(message, text=line, column=index + 1, hint=hint)
