"""What the screen of a reserve test is doing, and what it asks."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import Enum, auto

from tempo_coach.core.facts import SetDone
from tempo_coach.core.reserve_test import counts_as_held


class ReserveStage(Enum):
    """From an attempt ahead to the result."""

    AHEAD = auto()
    ASKED = auto()
    SAVING = auto()
    OVER = auto()


@dataclass(frozen=True, slots=True)
class Question:
    """An attempt of which the partner says whether it was held."""

    load_kg: Decimal
    done: SetDone | None
    """Its set; None where the load could not be lifted out."""
    said_held: bool | None = None
    """What was said so far."""
    is_asked_again: bool = False
    """It was answered before, and that answer holds until another is confirmed."""

    def counts(self, *, lowered_s: float | None, lower_s: float) -> bool | None:
        """Tell whether it counts as held, with what was measured; None before anything is said."""
        if self.said_held is None:
            return None
        return counts_as_held(said=self.said_held, lowered_s=lowered_s, lower_s=lower_s)


def has_use(action: str, stage: ReserveStage, question: Question | None) -> bool:
    """Tell whether an action of `RESERVE_KEYS` has a use at a stage."""
    match action:
        case "start" | "choose_load" | "lose":
            return stage is ReserveStage.AHEAD
        case "say_held" | "say_lost":
            is_asked = stage is ReserveStage.ASKED
            return is_asked and question is not None and question.done is not None
        case "confirm":
            return stage is ReserveStage.ASKED
        case "finish" | "read_on" | "read_back":
            return stage is ReserveStage.OVER
        case "take_back":
            return stage in (ReserveStage.AHEAD, ReserveStage.OVER)
        case "leave":
            return stage in (ReserveStage.AHEAD, ReserveStage.ASKED)
    return True
