"""What to put on the bar for a load, and the least change from what is on it."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from tempo_coach.core.disc_piles import Pile, mass_kg, nearest_piles
from tempo_coach.core.discs import DiscSet
from tempo_coach.core.mass import Mass


@dataclass(frozen=True, slots=True)
class Rack:
    """A bar, its collars, and the discs beside it."""

    bar: Mass
    collars: Mass
    """Both together; 0 without any, or where they weigh next to nothing."""
    discs: DiscSet

    @property
    def empty_kg(self) -> Decimal:
        """What bar and collars weigh without discs."""
        return self.bar.kg + self.collars.kg


@dataclass(frozen=True, slots=True)
class LoadedBar:
    """A bar with the same discs on either side."""

    rack: Rack
    side: Pile
    """Of one side, from the inside out."""

    @property
    def kg(self) -> Decimal:
        """What all of it weighs, exactly."""
        return self.rack.empty_kg + 2 * mass_kg(self.side)


@dataclass(frozen=True, slots=True)
class Loading:
    """The loaded bars nearest to a load."""

    kg: Decimal
    """The load."""
    below: LoadedBar | None
    """The heaviest of at most the load; None where the empty bar is heavier."""
    above: LoadedBar | None
    """The lightest of at least the load; None where all discs together are lighter."""

    @property
    def exact(self) -> LoadedBar | None:
        """The bar of just this load; None where it can't be had."""
        return self.below if self.below == self.above else None


def loading(rack: Rack, kg: Decimal) -> Loading:
    """Return what to put on for a load, or what is nearest to it below and above.

    Of the ways to load one mass it is the one of fewest discs, and of these the one that begins
    with the heaviest.
    """
    below, above = nearest_piles(rack.discs.pairs, (kg - rack.empty_kg) / 2)
    return Loading(
        kg,
        None if below is None else LoadedBar(rack, below),
        None if above is None else LoadedBar(rack, above),
    )


def nearest_loadable(rack: Rack, kg: Decimal) -> tuple[Decimal | None, Decimal | None]:
    """Return the nearest masses that the rack can load, at most and at least the given one.

    Both are the same where it can be had; one is None below the empty bar or above all discs.
    """
    found = loading(rack, kg)
    return (
        None if found.below is None else found.below.kg,
        None if found.above is None else found.above.kg,
    )


@dataclass(frozen=True, slots=True)
class BarChange:
    """What comes off each side of a bar, and what goes on."""

    off: Pile
    """In the order in which they come off: the outermost first."""
    on: Pile
    """In the order in which they go on."""
    after: LoadedBar

    @property
    def moves(self) -> int:
        """How many discs are moved, a side."""
        return len(self.off) + len(self.on)

    @property
    def cost(self) -> tuple[int, int]:
        """Moves, and of as many the discs that are on each side afterwards."""
        return self.moves, len(self.after.side)


def least_change(before: LoadedBar, kg: Decimal) -> BarChange | None:
    """Return the change to a load that moves the fewest discs; None where it can't be had.

    A disc comes off only when those outside of it have come off. Of changes with as many moves it
    is the one that leaves the fewest discs on the bar; what goes on goes on heaviest first.
    """
    rack, side = before.rack, before.side
    side_kg = (kg - rack.empty_kg) / 2
    best: BarChange | None = None
    for kept in reversed(range(len(side) + 1)):
        if best is not None and len(side) - kept > best.moves:
            break
        inner = side[:kept]
        missing_kg = side_kg - mass_kg(inner)
        added, _ = nearest_piles(rack.discs.without(inner), missing_kg)
        if added is None or mass_kg(added) != missing_kg:
            continue
        off = tuple(reversed(side[kept:]))
        change = BarChange(off, added, LoadedBar(rack, inner + added))
        if best is None or change.cost < best.cost:
            best = change
    return best


@dataclass(frozen=True, slots=True)
class LoweredBar:
    """A bar to raise, and what makes it heavier while it is lowered."""

    raised: LoadedBar
    releaser: Mass
    """One of the two; 0 where the discs hang on nothing and are taken off by hand."""
    hung: Pile
    """Discs on each releaser, or taken off each side at the bottom."""

    @property
    def kg(self) -> Decimal:
        """What is lowered, exactly."""
        return self.raised.kg + 2 * (self.releaser.kg + mass_kg(self.hung))


@dataclass(frozen=True, slots=True)
class Lowering:
    """The lowered bars nearest to a load, over one that is raised."""

    kg: Decimal
    """The load to lower."""
    below: LoweredBar | None
    """None where the releasers alone are heavier."""
    above: LoweredBar | None
    """None where the discs left over are lighter."""

    @property
    def exact(self) -> LoweredBar | None:
        """The one of just this load; None where it can't be had."""
        return self.below if self.below == self.above else None


def lowering(raised: LoadedBar, kg: Decimal, *, releaser: Mass) -> Lowering:
    """Return what to hang on two releasers, of the discs that the loaded bar leaves over."""
    stock = raised.rack.discs.without(raised.side)
    below, above = nearest_piles(stock, (kg - raised.kg) / 2 - releaser.kg)
    return Lowering(
        kg,
        None if below is None else LoweredBar(raised, releaser, below),
        None if above is None else LoweredBar(raised, releaser, above),
    )
