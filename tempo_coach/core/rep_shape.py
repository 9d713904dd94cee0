"""What a rep is beyond its four phases: whose work it is, where it stops, which side, what load."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from tempo_coach.core.load import Load
from tempo_coach.core.tempo import LONGEST_PHASE_MS, Phase, seconds_text
from tempo_coach.errors import OutOfRange

MOST_STOPS = 5
FINEST_PART = 12
"""The smallest part of the way down at which a stop can stand: a twelfth."""


class Sides(StrEnum):
    """How the limbs take turns; the first rep is the left one's."""

    ALTERNATING = "sides alternating"
    """A whole rep with one side, the next with the other."""
    ONE_DOWN = "two up one down"
    """Raised with both, lowered with one, the next rep with the other."""


@dataclass(frozen=True, slots=True)
class Stops:
    """Holds on the way down.

    Raises
    ------
    OutOfRange
        There are none or too many, they are not in the order of the way down, or too long.
    """

    each_ms: int
    at: tuple[Fraction, ...]
    """Parts of the way down, between 0 at the top and 1 at the bottom, in order."""

    def __post_init__(self) -> None:
        if not 0 < self.each_ms <= LONGEST_PHASE_MS:
            raise OutOfRange(
                f"a stop of {seconds_text(self.each_ms)} s is not possible",
                hint="above 0 and at most 60 s",
            )
        if not 1 <= len(self.at) <= MOST_STOPS:
            raise OutOfRange(
                f"{len(self.at)} stops in one lower are not possible", hint=f"1 to {MOST_STOPS}"
            )
        for part in self.at:
            if not 0 < part < 1 or part.denominator > FINEST_PART:
                raise OutOfRange(
                    f"a stop at {part} of the way down is not possible",
                    hint=f"between 0 and 1, in parts down to 1/{FINEST_PART}, such as 1/2",
                )
        if list(self.at) != sorted(set(self.at)):
            raise OutOfRange("the stops are not in order", hint="from the top down, as in 1/3 2/3")

    def __str__(self) -> str:
        return f"stop {seconds_text(self.each_ms)} s at {' '.join(map(str, self.at))}"


@dataclass(frozen=True, slots=True)
class LowerLoad:
    """What is lowered, where it is more than what is raised."""

    load: Load
    first_rep_only: bool = False
    """The other reps are lowered with what is raised."""

    def __str__(self) -> str:
        return f"{'first ' if self.first_rep_only else ''}lower @ {self.load}"


@dataclass(frozen=True, slots=True)
class RepShape:
    """What a rep is beyond its four phases; as it stands behind the tempo on a line.

    Raises
    ------
    OutOfRange
        Its parts can't go together.
    """

    only: Phase | None = None
    """`Phase.LOWER` or `Phase.RAISE`: the lifter's work; the way back is that of spotters or pins,
    and no tension of the lifter's."""
    stops: Stops | None = None
    sides: Sides | None = None
    lower_load: LowerLoad | None = None

    def __post_init__(self) -> None:
        if self.only is Phase.RAISE:
            for part in (self.stops, self.lower_load):
                if part is not None:
                    raise OutOfRange(
                        f"'raise only' and '{part}' can't go together",
                        hint="the lower is then no work of the lifter's",
                    )
        if self.only is not None and self.sides is Sides.ONE_DOWN:
            raise OutOfRange(
                f"'{self.only_words}' and '{self.sides}' can't go together", hint="leave one out"
            )
        if self.only is Phase.LOWER and self.lower_load is not None:
            raise OutOfRange(
                f"'lowering only' and '{self.lower_load}' can't go together",
                hint="write what is lowered as the load",
            )

    @property
    def only_words(self) -> str:
        """``lowering only``, ``raise only`` or nothing."""
        if self.only is None:
            return ""
        return "lowering only" if self.only is Phase.LOWER else "raise only"

    @property
    def lowers_on_one_side(self) -> bool:
        """One side lowers what both have raised."""
        return self.sides is Sides.ONE_DOWN

    def counts(self, phase: Phase) -> bool:
        """Tell whether a phase is the lifter's work."""
        other = {Phase.LOWER: Phase.RAISE, Phase.RAISE: Phase.LOWER}
        return self.only is None or phase is not other[self.only]

    def __bool__(self) -> bool:
        return self != PLAIN

    def __str__(self) -> str:
        parts = (self.only_words, self.stops, self.sides, self.lower_load)
        return " ".join(str(part) for part in parts if part)


PLAIN = RepShape()
"""Four phases and nothing else."""
