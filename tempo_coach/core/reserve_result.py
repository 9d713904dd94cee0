"""What a reserve test says, and what the next weeks could do, in words and as plain data."""

from __future__ import annotations

from typing import Any

from tempo_coach.core.max_overview import reserve_data
from tempo_coach.core.method_catalogue import METHODS
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.method_sources import PRACTICE
from tempo_coach.core.methods import Aspect
from tempo_coach.core.reserve import TARGET, Standing
from tempo_coach.core.reserve_facts import AttemptMade
from tempo_coach.core.reserve_test import Ended, ReserveTest

_ENDED = {
    Ended.LOST: "a load was lost",
    Ended.CEILING: "the ceiling was held, so the reserve may be larger still",
    None: "it was left before a load was lost",
}


def result_rows(test: ReserveTest) -> tuple[tuple[str, str], ...]:
    """Return a test as labels with their words."""
    begun = test.begun
    rows = [
        ("test", f"{begun.exercise}, {begun.lifter}, {begun.at.date().isoformat()}"),
        ("1RM", f"{begun.max_kg:g} kg"),
        (
            "lowered",
            f"in {begun.lower_s:g} s, by steps of {begun.step_kg:g} kg, "
            f"up to {begun.ceiling_kg:g} kg",
        ),
        *(("attempts", attempt_words(one)) for one in test.attempts),
        ("ended", _ENDED[test.ended]),
    ]
    return (*rows, *_reserve_rows(test), *(("next weeks", one) for one in next_weeks(test)))


def attempt_words(made: AttemptMade) -> str:
    """Return such as ``105 kg held, lowered in 4.8 s``."""
    if made.set is None:
        how = ", nothing was lifted"
    elif made.lowered_s is not None:
        how = f", lowered in {made.lowered_s:g} s"
    else:
        how = "" if made.held else ", its seconds as paced"
    return f"{made.load_kg:g} kg {'held' if made.held else 'lost'}{how}"


def _reserve_rows(test: ReserveTest) -> tuple[tuple[str, str], ...]:
    reserve, max_kg = test.reserve, test.begun.max_kg
    target = f"{TARGET[0]:.2f} to {TARGET[1]:.2f}"
    if reserve is None:
        if test.lost_kg is None:
            return (("reserve", "not known: no attempt was made"),)
        share = test.lost_kg / max_kg * 100
        return (
            ("reserve", f"none at this lower: below {share:.1f} % of the 1RM, {test.lost_kg:g} kg"),
        )
    fewest, most = reserve.target_kg
    against = {
        Standing.BELOW: f"{reserve.gap_kg:.1f} kg below it",
        Standing.WITHIN: "within it",
        Standing.ABOVE: f"{-reserve.gap_kg:.1f} kg above it",
    }[reserve.standing]
    rows = [
        (
            "reserve",
            f"{reserve.lowered_kg:g} ÷ {reserve.lifted_kg:g} kg = {reserve.ratio:.3f}: "
            f"{reserve.percent:+.1f} % of the 1RM, {reserve.kg:+.1f} kg",
        ),
        ("target", f"{target}, {fewest:.1f} to {most:.1f} kg ({PRACTICE}): {against}"),
    ]
    if test.lost_kg is not None and test.lost_kg > reserve.lowered_kg:
        rows.append(("between", f"{reserve.lowered_kg:g} kg held and {test.lost_kg:g} kg lost"))
    if reserve.is_questionable:
        rows.append(("look again", "more than most have been measured to have; is the 1RM right?"))
    return tuple(rows)


def next_weeks(test: ReserveTest) -> tuple[str, ...]:
    """Return what the next weeks could do; the coach decides."""
    if test.ended is None:
        return ()
    reserve = test.reserve
    if reserve is None or reserve.ratio < 1:
        return (
            f"Slow lowering first, for weeks, and no overload: {_dose(MethodName.SLOW_LOWERING)}.",
        )
    if reserve.standing is Standing.ABOVE:
        return (
            "The reserve is there: the lift itself has more to gain, so fewer lowers above the "
            f"1RM, and heavy raises ({PRACTICE}).",
        )
    keep = reserve.standing is Standing.WITHIN
    return (
        f"Slow lowering {'keeps it' if keep else 'goes on'}: {_dose(MethodName.SLOW_LOWERING)}.",
        "If the coach clears it, out of season, overloaded lowering "
        f"{'adds to it' if keep else 'closes the gap'}: {_dose(MethodName.OVERLOADED_LOWERING)}.",
    )


def _dose(name: MethodName) -> str:
    """Return a method's figures of common practice, such as ``60 to 85% of the 1RM, 3 to 8 s``."""
    method = METHODS[name]
    words = []
    for aspect, label in _LABELS.items():
        for one in method.of(aspect):
            if one.source == PRACTICE and one.is_number:
                is_one = one.low == one.high == 1
                words.append(f"{one}{label.replace('sessions', 'session') if is_one else label}")
                break
    return f"{', '.join(words)} ({PRACTICE})"


_LABELS = {
    Aspect.LOAD: "",
    Aspect.LOWER: " a lower",
    Aspect.REPS: " reps a set",
    Aspect.SESSION_REPS: " reps a session",
    Aspect.SESSIONS: " sessions a week",
    Aspect.WEEKS: " weeks at a time",
}


def result_data(test: ReserveTest) -> dict[str, Any]:
    """Return a test as plain data, with the units in the keys."""
    begun = test.begun
    return {
        "id": begun.id,
        "lifter": begun.lifter,
        "exercise": begun.exercise,
        "at": begun.at.isoformat(),
        "max_kg": begun.max_kg,
        "step_kg": begun.step_kg,
        "lower_s": begun.lower_s,
        "ceiling_kg": begun.ceiling_kg,
        "attempts": [
            {
                "load_kg": one.load_kg,
                "held": one.held,
                "lowered_s": one.lowered_s,
                "set": one.set,
            }
            for one in test.attempts
        ],
        "ended": None if test.ended is None else test.ended.value,
        "held_kg": test.held_kg,
        "lost_kg": test.lost_kg,
        "reserve": None if test.reserve is None else reserve_data(test.reserve),
        "next_weeks": list(next_weeks(test)),
    }
