"""What is known of a lifter's maxes, from the log and the plan, and which one holds for a tempo."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from tempo_coach.core.facts import MaxTested, What
from tempo_coach.core.legible import name_key
from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.core.plan import Max
from tempo_coach.core.rep_equations import ORDINARY_LOWER_S
from tempo_coach.core.tempo import seconds_text
from tempo_coach.errors import OutOfRange

_SAME_KG = 0.01


@dataclass(frozen=True, slots=True)
class KnownMax:
    """A max that was tested."""

    what: What
    load: Load
    """In kg or lb."""
    load_kg: float
    lower_s: float | None
    """Seconds of the lower in the test; None where nobody took them."""
    on: date
    """The local date of the test."""
    id: str | None = None
    """Its id in the log; None where it stands in the plan."""
    note: str = ""

    @property
    def source(self) -> str:
        """Where it stands: ``log`` or ``plan``."""
        return "plan" if self.id is None else "log"

    @property
    def words(self) -> str:
        """Which max it is, such as ``the log's max, lowered in 2 s, tested 2026-11-12``."""
        lowered = (
            ""
            if self.lower_s is None
            else f"lowered in {seconds_text(round(self.lower_s * 1000))} s, "
        )
        return f"the {self.source}'s max, {lowered}tested {self.on.isoformat()}"


def known_maxes(
    tested: Iterable[MaxTested], *, planned: Iterable[Max] = (), exercise: str
) -> tuple[KnownMax, ...]:
    """Put the maxes of the log and the plan into one list, in order of their dates.

    Parameters
    ----------
    tested
        One lifter's of the exercise, in the order they were tested.
    planned
        The same lifter's in the plan, of any exercise; a plan's maxes were lifted.
    exercise
        The spelling's case does not matter.
    """
    known = [
        KnownMax("lifted", one.load, one.load.kg() or 0.0, one.lower_s, one.on)
        for one in planned
        if name_key(one.exercise) == name_key(exercise)
    ]
    known += [
        KnownMax(
            one.what,
            _written_load(one),
            one.load_kg,
            one.lower_s,
            one.at.date(),
            id=one.id,
            note=one.note,
        )
        for one in tested
    ]
    # The log's stand behind the plan's of the same day, and so count where they differ.
    return tuple(sorted(known, key=lambda one: one.on))


def latest_maxes(known: Iterable[KnownMax]) -> tuple[KnownMax, ...]:
    """Return the latest max of each sort and lower, of maxes in order of their dates."""
    latest = {(one.what, one.lower_s): one for one in known}
    return tuple(sorted(latest.values(), key=lambda one: one.on))


def max_for(known: Iterable[KnownMax], *, lower_s: float, what: What = "lifted") -> KnownMax | None:
    """Return the max that holds for a lower of so many seconds; None where none is known.

    It is the one whose tested lower is nearest, of equals the latest. But the slower the lower,
    the smaller the max (Wilk et al. 2020, J Hum Kinet 72:151, 10.2478/hukin-2020-0001), so that
    none holds here that is larger than one that was tested as fast or faster: then that one does.

    Parameters
    ----------
    known
        Maxes in any order; older ones of the same lower are left out.
    lower_s
        Seconds of the lower that a load is asked for.
    what
        Of which work; the other sort is left out.
    """
    tested = [one for one in latest_maxes(_by_date(known)) if one.what == what]
    if not tested:
        return None
    far = float("inf")
    nearest = min(
        tested,
        key=lambda one: (
            far if one.lower_s is None else abs(one.lower_s - lower_s),
            -one.on.toordinal(),
        ),
    )
    faster = (one for one in tested if one.lower_s is not None and one.lower_s <= lower_s)
    return min([nearest, *faster], key=lambda one: one.load_kg)


def reserve_maxes(known: Iterable[KnownMax]) -> tuple[KnownMax, KnownMax] | None:
    """Return what a reserve rests on: the latest max lowered, and the 1RM; None without both.

    The 1RM is the one for the ordinary tempo: at a slower one it is smaller, and would make the
    reserve look larger than it is.
    """
    known = _by_date(known)
    lowered = [one for one in known if one.what == "lowered"]
    lifted = max_for(known, lower_s=ORDINARY_LOWER_S)
    return None if not lowered or lifted is None else (lowered[-1], lifted)


def _by_date(known: Iterable[KnownMax]) -> list[KnownMax]:
    return sorted(known, key=lambda one: one.on)


def _written_load(tested: MaxTested) -> Load:
    """Return the load as it was written, or in kg where that alone does not say it."""
    with suppress(OutOfRange):
        written = parse_load(tested.load_as_written)
        kg = None if written.unit is LoadUnit.PERCENT else written.kg()
        if kg is not None and abs(kg - tested.load_kg) < _SAME_KG:
            return written
    return Load(Decimal(f"{tested.load_kg:.6g}"), LoadUnit.KG)
