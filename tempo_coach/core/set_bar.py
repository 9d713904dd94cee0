"""What goes on the bar for a set, and what that changes from the set before."""

from __future__ import annotations

from dataclasses import dataclass

from tempo_coach.core.legible import name_key
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.loading import BarChange, LoadedBar, Loading, Rack, least_change, loading
from tempo_coach.core.mass import Mass


@dataclass(frozen=True, slots=True)
class BarBefore:
    """The bar as the set before left it."""

    exercise: str
    bar: LoadedBar


@dataclass(frozen=True, slots=True)
class SetBar:
    """The bar for a set."""

    load: Load
    loading: Loading
    change: BarChange | None
    """From the set before; None where that is not known, or the load can't be had."""

    @property
    def bar(self) -> LoadedBar | None:
        """The bar of just this load; None where it can't be had."""
        return self.loading.exact if self.change is None else self.change.after


def set_bar(
    rack: Rack, *, exercise: str, load: Load | None, before: BarBefore | None = None
) -> SetBar | None:
    """Return what goes on the bar; None where the load is not one of a bar with discs.

    Nothing says which exercises are done with a barbell: a load in kg or lb, and at least the
    empty bar's, is taken for one. Another exercise has another bar, so that only a set before of
    the same one leads to a change.
    """
    if load is None or load.on_body or load.unit is LoadUnit.PERCENT:
        return None
    kg = Mass(load.amount, load.unit).kg
    if kg < rack.empty_kg:
        return None
    change = None
    if (
        before is not None
        and before.bar.rack == rack
        and name_key(before.exercise) == name_key(exercise)
    ):
        change = least_change(before.bar, kg)
    return SetBar(load, loading(rack, kg), change)


def bar_after(
    rack: Rack, *, exercise: str, load: Load | None, before: BarBefore | None
) -> BarBefore | None:
    """Return the bar as a set leaves it; None where what is on it can't be known."""
    found = set_bar(rack, exercise=exercise, load=load, before=before)
    return None if found is None or found.bar is None else BarBefore(exercise, found.bar)
