"""Numbers with their words and the marks of what they rest on, and what the marks mean."""

from __future__ import annotations

from collections.abc import Iterable

ALLOWED = "≈ rests in part on what planning counts for X, V and A."
OPEN_SETS = "+ leaves out sets that run until they are stopped."
NO_LOAD = "+ leaves out sets whose load in kg is not known."


def marked_seconds(length_ms: int, *, allowed_ms: int = 0, is_open: bool = False) -> str:
    """Return seconds to a tenth, such as ``≈76.5`` or ``80+``.

    Parameters
    ----------
    length_ms
        The length.
    allowed_ms
        The part of it that rests on an allowance.
    is_open
        There is more to it that nobody can know beforehand.
    """
    seconds = f"{length_ms / 1000:,.1f}".removesuffix(".0")
    return f"{'≈' if allowed_ms else ''}{seconds}{'+' if is_open else ''}"


def counted(count: int, what: str) -> str:
    """Return a number of things, such as ``1 set`` or ``2 sets``."""
    return f"{count} {what}{'' if count == 1 else 's'}"


def listed(things: Iterable[str]) -> str:
    """Return things as a sentence names them, such as ``1, 2 and 5``."""
    *most, last = things
    return f"{', '.join(most)} and {last}" if most else last
