"""A max from the reps of one set: published equations side by side, and where they don't hold.

All but the last are quoted as pages about them give them; their first publications were not read.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from statistics import median
from typing import Final

from tempo_coach.core.fact_values import HEAVIEST_KG
from tempo_coach.core.legible import name_key
from tempo_coach.errors import OutOfRange

HOLDS_TO_REPS: Final = 10
"""Beyond it the equations part; said of all of them where they are quoted."""
MOST_REPS: Final = 36
"""At 37 Brzycki's divides by zero; by then none of them says anything."""
ORDINARY_LOWER_S: Final = 2.0
"""A max falls as the lower gets slower: 2 s > 5 s > 8 s, about as 10 s, and the lifter's own speed
is about 2 s (90 men: Wilk et al. 2020, J Hum Kinet 72:151, 10.2478/hukin-2020-0001); 2 s > 4 s and
6 s (21 women: Wilk et al. 2020). So whatever is slower than 2 s is no ordinary tempo."""


class Caveat(StrEnum):
    """Why an estimate may be wrong."""

    MANY_REPS = "many_reps"
    SLOW_LOWER = "slow_lower"
    ONE_REP = "one_rep"

    @property
    def mark(self) -> str:
        """The reason in two words."""
        return self.value.replace("_", " ")

    @property
    def words(self) -> str:
        """The reason in one sentence."""
        return {
            Caveat.MANY_REPS: (
                f"Over {HOLDS_TO_REPS} reps to failure the equations part; a heavier set says more."
            ),
            Caveat.SLOW_LOWER: (
                "The equations all assume the ordinary tempo: where the lower is slower than about "
                f"{ORDINARY_LOWER_S:g} s they are rough, and say nothing of other tempos."
            ),
            Caveat.ONE_REP: (
                "At full effort that is the max itself, as Brzycki and Lombardi say; the others "
                "add to it."
            ),
        }[self]


@dataclass(frozen=True, slots=True)
class RepEquation:
    """What one author makes of a load and the reps to failure."""

    name: str
    formula: str
    """With w the load and r the reps."""
    source: str
    says: Callable[[float, float], float]
    """The max of a load and reps, without looking at either."""
    fewest_reps: int = 1
    holds_to_reps: int = HOLDS_TO_REPS
    most_reps: int = MOST_REPS
    exercise: str = ""
    """The one exercise it was made from; empty where it is used for any."""

    @property
    def at_one_rep(self) -> float | None:
        """What it makes of one rep, as a multiple of the load; None where it takes none."""
        return self.says(1.0, 1) if self.fewest_reps == 1 else None

    def takes(self, reps: float) -> bool:
        """Tell whether it says anything of so many reps."""
        return self.fewest_reps <= reps <= self.most_reps

    def is_for(self, exercise: str) -> bool:
        """Tell whether it may be used for an exercise: the one it was made from, or any."""
        return name_key(exercise).endswith(self.exercise)

    def max_kg(self, load_kg: float, *, reps: float) -> float:
        """Return the max, in kg.

        Raises
        ------
        OutOfRange
            The load is not above 0 and at most 600 kg, or it says nothing of so many reps.
        """
        _check_load(load_kg)
        if not self.takes(reps):
            allowed = (
                f"{self.fewest_reps} to {self.most_reps}"
                if self.fewest_reps < self.most_reps
                else f"{self.fewest_reps} alone"
            )
            raise OutOfRange(
                f"{self.name} says nothing of {_reps_text(reps)}", hint=f"it takes {allowed}"
            )
        return self.says(load_kg, reps)


_SECOND_HAND = "read second-hand"

EQUATIONS: Final = (
    RepEquation("Epley", "w(1 + r/30)", _SECOND_HAND, lambda w, r: w * (1 + r / 30)),
    RepEquation("Brzycki", "36w/(37 − r)", _SECOND_HAND, lambda w, r: 36 * w / (37 - r)),
    RepEquation("Lombardi", "w·r^0.10", _SECOND_HAND, lambda w, r: w * math.pow(r, 0.10)),
    RepEquation("O'Conner", "w(1 + 0.025r)", _SECOND_HAND, lambda w, r: w * (1 + 0.025 * r)),
    RepEquation(
        "Mayhew",
        "100w/(52.2 + 41.9e^(−0.055r))",
        _SECOND_HAND,
        lambda w, r: 100 * w / (52.2 + 41.9 * math.exp(-0.055 * r)),
    ),
    RepEquation(
        "Wathan",
        "100w/(48.8 + 53.8e^(−0.075r))",
        _SECOND_HAND,
        lambda w, r: 100 * w / (48.8 + 53.8 * math.exp(-0.075 * r)),
    ),
    RepEquation(
        "Reynolds et al.",
        "1.1307w + 0.6999",
        "2006, JSCR 20:584",
        lambda w, _: 1.1307 * w + 0.6999,
        fewest_reps=5,
        holds_to_reps=5,
        most_reps=5,
        exercise="chest press",
    ),
)
"""The last is for the chest press and five reps alone; w is its 5RM."""


@dataclass(frozen=True, slots=True)
class Band:
    """What the equations say together, in kg."""

    low_kg: float
    middle_kg: float
    """The median."""
    high_kg: float
    caveats: tuple[Caveat, ...]


def band(load_kg: float, *, reps: float, lower_s: float | None = None, exercise: str = "") -> Band:
    """Return the spread of the equations that say anything of so many reps to failure.

    Parameters
    ----------
    load_kg
        Above 0 and at most 600 kg.
    reps
        To failure, 1 to 36; halves come of an effort by halves.
    lower_s
        Seconds of a rep's lower; None leaves the tempo out.
    exercise
        Lets the equations that were made from one exercise speak of it.

    Raises
    ------
    OutOfRange
        The load or the reps are outside.
    """
    _check_load(load_kg)
    if not 1 <= reps <= MOST_REPS:
        raise OutOfRange(
            f"the equations say nothing of {_reps_text(reps)}",
            hint=f"1 to {MOST_REPS}, and at most {HOLDS_TO_REPS} to trust them",
        )
    values = [
        one.max_kg(load_kg, reps=reps)
        for one in EQUATIONS
        if one.takes(reps) and one.is_for(exercise)
    ]
    return Band(min(values), median(values), max(values), _caveats(reps, lower_s))


def is_slow(lower_s: float | None) -> bool:
    """Tell whether a lower is slower than the ordinary one that the equations assume."""
    return lower_s is not None and lower_s > ORDINARY_LOWER_S


def _caveats(reps: float, lower_s: float | None) -> tuple[Caveat, ...]:
    applies = {
        Caveat.MANY_REPS: reps > HOLDS_TO_REPS,
        Caveat.SLOW_LOWER: is_slow(lower_s),
        Caveat.ONE_REP: reps == 1,
    }
    return tuple(caveat for caveat, does in applies.items() if does)


def _check_load(load_kg: float) -> None:
    if not 0 < load_kg <= HEAVIEST_KG:
        raise OutOfRange(
            f"a load of {load_kg:g} kg is not possible here",
            hint=f"above 0 and at most {HEAVIEST_KG} kg",
        )


def _reps_text(reps: float) -> str:
    return f"{reps:g} rep{'' if reps == 1 else 's'}"
