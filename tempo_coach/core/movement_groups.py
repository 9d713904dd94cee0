"""Which exercises load the same muscles, roughly: a small table that a plan may extend."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from tempo_coach.core.legible import name_key

# Common practice, no source: by what the lower stretches under load.
_GROUPS = {
    "knee extensors": "squat, front squat, split squat, lunge, step-up, leg press, leg extension",
    "knee flexors": """nordic curl, nordic hamstring curl, leg curl, hamstring curl,
        glute-ham raise""",
    "hip extensors": """deadlift, romanian deadlift, stiff-leg deadlift, stiff-legged deadlift,
        good morning, hip thrust, back raise, clean, snatch, clean pull, snatch pull""",
    "pressing": """bench press, press, dip, push-up, overhead press, military press, push press,
        jerk, triceps extension, pushdown""",
    "pulling": """chin-up, pull-up, chin up, pull up, row, bench pull, pulldown, curl, face pull,
        shrug""",
    "calves": "calf raise",
}


def _names(listing: str) -> list[str]:
    return [name.strip() for name in " ".join(listing.split()).split(",")]


TABLE: Mapping[str, str] = MappingProxyType(
    {name: group for group, listing in _GROUPS.items() for name in _names(listing)}
)
"""Ending of an exercise's name, and its group."""


def movement_group(exercise: str, *, more: Mapping[str, str] = MappingProxyType({})) -> str | None:
    """Return the group of an exercise, or None where no table has it.

    Parameters
    ----------
    exercise
        The longest ending in the table decides: a box squat is a squat, a leg curl no curl.
    more
        Exercises with their groups, which go before the table's.
    """
    table = dict(TABLE) | {name_key(name): group for name, group in more.items()}
    words = name_key(exercise).split()
    for first in range(len(words)):
        ending = " ".join(words[first:])
        for form in (ending, ending.removesuffix("s"), ending.removesuffix("es")):
            if form in table:
                return table[form]
    return None
