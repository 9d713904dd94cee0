"""What a lifter's maxes come to, in a sentence for each exercise."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from tempo_coach.core.facts import MaxTested
from tempo_coach.core.legible import legible, name_key
from tempo_coach.core.maxes import KnownMax, known_maxes, latest_maxes, reserve_maxes
from tempo_coach.core.plan import Max
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.reserve import Reserve
from tempo_coach.core.tempo import seconds_text


def strength_words(
    recorded: RecordedMaxes, *, lifter: str, planned: Sequence[Max] = (), until: date = date.max
) -> tuple[str, ...]:
    """Return a sentence for each exercise with maxes, the one tested last first.

    Parameters
    ----------
    recorded
        The maxes of the log, of all lifters.
    lifter
        Whose; the spelling's case does not matter.
    planned
        The same lifter's in the plan.
    until
        Tests after this day are left out.
    """
    own = [one for one in recorded.tested if name_key(one.lifter) == name_key(lifter)]
    said = []
    for exercise, name in _exercises(own, planned).items():
        tested = [one for one in own if name_key(one.exercise) == exercise]
        known = [
            one
            for one in known_maxes(tested, planned=planned, exercise=exercise)
            if one.on <= until
        ]
        if known:
            said.append((known[-1].on, f"{legible(name)}: {', '.join(_words(known))}."))
    return tuple(words for _, words in sorted(said, key=lambda one: one[0], reverse=True))


def _exercises(tested: Sequence[MaxTested], planned: Sequence[Max]) -> dict[str, str]:
    names = [*(one.exercise for one in planned), *(one.exercise for one in tested)]
    return {name_key(name): name for name in names}


def _words(known: Sequence[KnownMax]) -> Iterator[str]:
    for one in latest_maxes(known):
        lower = "" if one.lower_s is None else f" in {seconds_text(round(one.lower_s * 1000))} s"
        how = f"lowered{lower}" if one.what == "lowered" else "lifted"
        if one.what == "lifted" and lower:
            how += f" after a lower{lower}"
        yield f"{one.load} {how} ({one.on.isoformat()})"
    if (pair := reserve_maxes(known)) is not None:
        yield f"reserve {Reserve(pair[0].load_kg, pair[1].load_kg).ratio:.0%} of the 1RM"
