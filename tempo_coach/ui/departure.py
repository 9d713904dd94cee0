"""How the set screen was left."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Departure:
    """What leaving leaves open."""

    said: tuple[str, ...]
    """What is still to be said, a sentence each."""
    goes_on: bool
    """The other work that comes after is to be started now."""
