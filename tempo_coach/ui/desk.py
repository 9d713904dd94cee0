"""What the app is given to work with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tempo_coach.coach import Coach


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """The coach, and what was remembered from last time."""

    coach: Coach
    lifter: str | None
    """None where nobody has said yet who lifts; the app then asks."""
    line: str
    """The prescription to begin with, or empty."""
    notices: tuple[str, ...]
    """Problems to show at the start, a sentence each."""
    show_cautions: bool
    """The cautions have not been shown yet."""
    keep_lifter: Callable[[str], None]
    """Remembers who lifts; may block, and may raise `TempoCoachError`."""
    keep_cautions_shown: Callable[[], None]
    """Remembers that the cautions were shown; may block, and may raise `TempoCoachError`."""
