"""How the set screen was left."""

from __future__ import annotations

from dataclasses import dataclass

from tempo_coach.core.facts import SetDone


@dataclass(frozen=True, slots=True)
class Departure:
    """What leaving leaves open."""

    said: tuple[str, ...]
    """What is still to be said, a sentence each."""
    goes_on: bool
    """What comes after is to be started now."""
    done: tuple[SetDone, ...] = ()
    """The sets done there that count."""
