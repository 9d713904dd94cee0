"""Which phase a rep of an exercise begins with."""

from __future__ import annotations

from tempo_coach.core.legible import name_key
from tempo_coach.core.tempo import Phase

# A rep of these starts from the floor, the hang or the shoulders, so it begins with the raise.
# Common practice, no source.
_RAISE_FIRST = """
    back raise, block pull, calf raise, chin up, chin-up, chinup, clean, clean pull, curl, deadlift,
    face pull, front raise, glute bridge, high pull, hip thrust, jerk, knee raise, landmine press,
    lateral raise, leg extension, leg raise, military press, muscle-up, overhead press, pull up,
    pull-down, pull-up, pulldown, pullup, push press, pushdown, rack pull, row, shoulder press,
    shrug, sit-up, snatch, snatch pull, step-up, strict press, triceps extension
"""
# These end like one of the above, but start at the top.
_LOWER_FIRST = """
    nordic curl, nordic hamstring curl, romanian deadlift, stiff-leg deadlift,
    stiff-legged deadlift
"""


def _names(listing: str) -> list[str]:
    return [name.strip() for name in " ".join(listing.split()).split(",")]


_LEADS: dict[str, Phase] = {
    **dict.fromkeys(_names(_RAISE_FIRST), Phase.RAISE),
    **dict.fromkeys(_names(_LOWER_FIRST), Phase.LOWER),
}


def usual_lead(exercise: str) -> Phase:
    """Return the phase a rep begins with, `Phase.LOWER` where the table knows nothing.

    The longest ending in the table decides: a barbell row is a row.
    """
    words = name_key(exercise).split()
    for first in range(len(words)):
        ending = " ".join(words[first:])
        for form in (ending, ending.removesuffix("s"), ending.removesuffix("es")):
            if form in _LEADS:
                return _LEADS[form]
    return Phase.LOWER
