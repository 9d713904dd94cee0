"""What is asked for before a lifter does more, and what there is of it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Criterion:
    """One thing that is asked for."""

    name: str
    """The same under any rules."""
    asked: str
    is_met: bool | None
    """None where nothing can be said."""
    evidence: str
    missing: str = ""
    """What to do about it; empty where it is met."""

    @property
    def state(self) -> str:
        """Whether it is met, in a few words."""
        return "can't be told" if self.is_met is None else "met" if self.is_met else "not met"

    @property
    def words(self) -> str:
        """What there is of it, and what is missing."""
        return f"{self.evidence}; missing: {self.missing}" if self.missing else self.evidence
