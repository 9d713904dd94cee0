"""The answer to what goes on the bar for a load, with all that was asked beside it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from tempo_coach.core.bar_words import kg_words
from tempo_coach.core.disc_piles import mass_kg
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.loading import (
    BarChange,
    LoadedBar,
    LoweredBar,
    Lowering,
    Rack,
    least_change,
    loading,
    lowering,
)
from tempo_coach.core.mass import Mass
from tempo_coach.errors import OutOfRange

_IN_KG_OR_LB = "give it in kg or lb, such as 80 kg"


@dataclass(frozen=True, slots=True)
class WayToLoad:
    """A loaded bar, and how it comes about."""

    bar: LoadedBar
    change: BarChange | None
    """From what is on the bar; None where that was not said."""


@dataclass(frozen=True, slots=True)
class BarAnswer:
    """What goes on the bar for a load."""

    load: Load
    kg: Decimal
    """The load, exactly."""
    rack: Rack
    ways: tuple[WayToLoad, ...]
    """One where the load can be had, else the nearest below and above."""
    before: LoadedBar | None
    lowering: Lowering | None
    """What is lowered with the first of the ways; None where that is the same."""
    by_hand: Lowering | None
    """The same without releasers, for discs that are taken off at the bottom."""

    @property
    def is_exact(self) -> bool:
        """The load can be had."""
        return len(self.ways) == 1


def bar_answer(
    rack: Rack,
    load: Load,
    *,
    before: Load | None = None,
    lower: Load | None = None,
    releaser: Mass,
) -> BarAnswer:
    """Work out what goes on the bar.

    Parameters
    ----------
    rack
        What there is to load.
    load
        What is raised.
    before
        What is on the bar now.
    lower
        What is lowered; None where it is what is raised.
    releaser
        The mass of one of two releasers.

    Raises
    ------
    OutOfRange
        A load is none of a bar's, or can't be reached.
    """
    kg = _kg(load)
    found = loading(rack, kg)
    if found.below is None:
        raise OutOfRange(
            f"{load} is less than the empty bar{_with_collars(rack)}",
            hint=f"the nearest is {kg_words(rack.empty_kg, load.unit)}",
        )
    if found.above is None:
        raise OutOfRange(
            f"{load} is more than these discs reach",
            hint=f"the most is {kg_words(found.below.kg, load.unit)}",
        )
    on_bar = None if before is None else _on_bar(rack, before)
    bars = (found.below,) if found.exact is not None else (found.below, found.above)
    ways = tuple(_way(bar, on_bar) for bar in bars)
    lowered = by_hand = None
    if lower is not None:
        lowered = _lowering(ways[0].bar, load, lower, releaser)
        by_hand = lowering(ways[0].bar, lowered.kg, releaser=Mass(Decimal(0), releaser.unit))
    return BarAnswer(load, kg, rack, ways, on_bar, lowered, by_hand)


def _way(bar: LoadedBar, on_bar: LoadedBar | None) -> WayToLoad:
    change = None if on_bar is None else least_change(on_bar, bar.kg)
    return WayToLoad(bar if change is None else change.after, change)


def _kg(load: Load) -> Decimal:
    if load.on_body:
        raise OutOfRange(f"{load} hangs on the body and not on a bar", hint=_IN_KG_OR_LB)
    if load.unit is LoadUnit.PERCENT:
        raise OutOfRange(f"{load} is a share of a max that is not known here", hint=_IN_KG_OR_LB)
    return Mass(load.amount, load.unit).kg


def _with_collars(rack: Rack) -> str:
    return " with its collars" if rack.collars.amount else ""


def _on_bar(rack: Rack, before: Load) -> LoadedBar:
    found = loading(rack, _kg(before))
    if found.exact is None:
        near = " and ".join(
            kg_words(bar.kg, before.unit) for bar in (found.below, found.above) if bar is not None
        )
        raise OutOfRange(f"{before} can't be on the bar now", hint=f"the nearest: {near}")
    return found.exact


def _lowering(raised: LoadedBar, load: Load, lower: Load, releaser: Mass) -> Lowering:
    kg = _kg(lower)
    if kg <= raised.kg:
        raise OutOfRange(
            f"{lower} to lower is not more than {load} to raise",
            hint="leave --lower out where both are the same",
        )
    found = lowering(raised, kg, releaser=releaser)
    if found.above is None and found.below is not None:
        raise OutOfRange(
            f"{lower} to lower is more than the discs left over reach",
            hint=f"the most is {kg_words(found.below.kg, lower.unit)}",
        )
    return found


def answer_data(answer: BarAnswer) -> dict[str, Any]:
    """Return an answer as plain data, with the units in the keys."""
    return {
        "load": str(answer.load),
        "load_kg": float(answer.kg),
        "is_exact": answer.is_exact,
        "bar_kg": float(answer.rack.bar.kg),
        "collars_kg": float(answer.rack.collars.kg),
        "discs": str(answer.rack.discs),
        "from_kg": None if answer.before is None else float(answer.before.kg),
        "ways": [_way_data(way, answer.kg) for way in answer.ways],
        "lowering": None if answer.lowering is None else _lowering_data(answer.lowering),
        "by_hand": None if answer.by_hand is None else _lowering_data(answer.by_hand),
    }


def _way_data(way: WayToLoad, asked_kg: Decimal) -> dict[str, Any]:
    change = way.change
    return {
        "kg": float(way.bar.kg),
        "difference_kg": float(way.bar.kg - asked_kg),
        "side": _texts(way.bar.side),
        "side_kg": float(mass_kg(way.bar.side)),
        "change": None
        if change is None
        else {"off": _texts(change.off), "on": _texts(change.on), "moves_a_side": change.moves},
    }


def _lowering_data(found: Lowering) -> dict[str, Any]:
    return {
        "asked_kg": float(found.kg),
        "is_exact": found.exact is not None,
        "ways": [_lowered_data(bar, found.kg) for bar in lowered_bars(found)],
    }


def _lowered_data(bar: LoweredBar, asked_kg: Decimal) -> dict[str, Any]:
    return {
        "kg": float(bar.kg),
        "difference_kg": float(bar.kg - asked_kg),
        "releaser_kg": float(bar.releaser.kg),
        "a_side": _texts(bar.hung),
    }


def lowered_bars(found: Lowering) -> tuple[LoweredBar, ...]:
    """Return the lowered bar where it can be had, else those below and above that there are."""
    bars = (found.exact,) if found.exact is not None else (found.below, found.above)
    return tuple(bar for bar in bars if bar is not None)


def _texts(discs: Iterable[Mass]) -> list[str]:
    return [str(disc) for disc in discs]
