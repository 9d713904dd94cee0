"""The discs that a rack has."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from types import MappingProxyType

from tempo_coach.core.disc_piles import Pile, Stock, has_more_sums
from tempo_coach.core.legible import quoted
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.mass import Mass
from tempo_coach.core.nearest import nearest
from tempo_coach.errors import OutOfRange

MOST_SIZES = 16
MOST_OF_A_SIZE = 40
HEAVIEST_DISC_KG = 50
MOST_ON_A_SIDE_KG = Decimal(500)
"""Half of the heaviest load there is."""
MOST_SUMS = 50_000
"""Of different masses a side, so that the search for a load stays below a second or two."""


class DiscColour(StrEnum):
    """The colours of the federation's discs."""

    RED = "red"
    BLUE = "blue"
    YELLOW = "yellow"
    GREEN = "green"
    WHITE = "white"


@dataclass(frozen=True, slots=True)
class DiscSet:
    """Discs of several sizes, with how many there are of each.

    Raises
    ------
    OutOfRange
        There are too many, or none that makes a pair.
    """

    counts: tuple[tuple[Mass, int], ...]
    """Single discs of each size, the heaviest first."""
    name: str = ""
    """Of a set that is known by name; else empty."""

    def __post_init__(self) -> None:
        if len(self.counts) > MOST_SIZES:
            raise OutOfRange(
                f"discs of {len(self.counts)} sizes are too many", hint=f"at most {MOST_SIZES}"
            )
        if not self.pairs:
            raise OutOfRange("no two discs are alike", hint="a bar is loaded in pairs")
        if not self.name and has_more_sums(self.pairs, than=MOST_SUMS, most_kg=MOST_ON_A_SIDE_KG):
            raise OutOfRange(
                f"these discs make more than {MOST_SUMS} different sums a side",
                hint="give fewer sizes, or fewer of each",
            )

    @property
    def pairs(self) -> Stock:
        """The sizes of which there is a pair, with how many of them there are for one side."""
        return tuple((disc, count // 2) for disc, count in self.counts if count >= 2)

    def colour(self, disc: Mass) -> DiscColour | None:
        """Return the colour that a federation's rules give a disc of this set, if any do."""
        return IWF_COLOURS.get(disc.amount) if self.name == IWF.name else None

    def without(self, pile: Pile) -> Stock:
        """Return what each side has left when a pile is taken from either."""
        return tuple((disc, many - pile.count(disc)) for disc, many in self.pairs)

    def __str__(self) -> str:
        return self.name or " ".join(_size_text(disc, count) for disc, count in self.counts)


def _size_text(disc: Mass, count: int) -> str:
    return f"{disc.number}{'lb' if disc.unit is LoadUnit.LB else ''}x{count}"


def _named(name: str, unit: LoadUnit, *sizes: str) -> DiscSet:
    """Return a set with ten pairs of its heaviest disc and four of each other."""
    masses = [Mass(Decimal(size), unit) for size in sizes]
    counts = [20, *[8] * (len(masses) - 1)]
    return DiscSet(tuple(zip(masses, counts, strict=True)), name)


IWF = _named("iwf", LoadUnit.KG, "25", "20", "15", "10", "5", "2.5", "2", "1.5", "1", "0.5")
"""The sizes of the International Weightlifting Federation's rules."""
POWERLIFTING = _named("powerlifting", LoadUnit.KG, "25", "20", "15", "10", "5", "2.5", "1.25")
"""As in powerlifting, down to 1.25 kg; its colours are given by no source at hand."""
POUNDS = _named("pounds", LoadUnit.LB, "45", "35", "25", "10", "5", "2.5")
"""Common practice, no source."""
DISC_SETS: Mapping[str, DiscSet] = MappingProxyType(
    {one.name: one for one in (IWF, POWERLIFTING, POUNDS)}
)

IWF_COLOURS: Mapping[Decimal, DiscColour] = MappingProxyType(
    {
        Decimal("25"): DiscColour.RED,
        Decimal("20"): DiscColour.BLUE,
        Decimal("15"): DiscColour.YELLOW,
        Decimal("10"): DiscColour.GREEN,
        Decimal("5"): DiscColour.WHITE,
        Decimal("2.5"): DiscColour.RED,
        Decimal("2"): DiscColour.BLUE,
        Decimal("1.5"): DiscColour.YELLOW,
        Decimal("1"): DiscColour.GREEN,
        Decimal("0.5"): DiscColour.WHITE,
    }
)
"""By the International Weightlifting Federation's rules, in kilograms."""

DISC_FORMS = (
    f"{', '.join(DISC_SETS)}, or how many there are of each size, such as 20x4 10x4 or 45lbx8"
)
_SIZE = re.compile(
    r"(?P<amount>[0-9]{1,3}(?:\.[0-9]{1,3})?)\s*(?P<unit>kg|lb)?\s*[x×]\s*(?P<count>[0-9]{1,4})",
    re.IGNORECASE | re.ASCII,
)
_GAP = re.compile(r"[\s,]+")


def parse_discs(text: str) -> DiscSet:
    """Read the name of a set, or a list such as ``20x4 10x4 45lbx2``.

    A count is of single discs, of which pairs are loaded; a size without a unit is in kg.

    Raises
    ------
    OutOfRange
        The text is neither, or there are too many discs.
    """
    text = text.strip()
    if (known := DISC_SETS.get(text.lower())) is not None:
        return known
    counts: dict[Mass, int] = {}
    at = 0
    while at < len(text):
        found = _SIZE.match(text, at)
        behind = None if found is None else _GAP.match(text, found.end())
        if found is None or not (behind or found.end() == len(text)):
            raise _no_discs(text, text[at:].split()[0])
        disc, count = _size(found)
        if disc in counts:
            raise OutOfRange(f"discs of {disc} stand there twice", hint="give them once")
        counts[disc] = count
        at = found.end() if behind is None else behind.end()
    if not counts:
        raise OutOfRange("no discs are given", hint=DISC_FORMS)
    return DiscSet(_heaviest_first(counts.items()))


def _size(found: re.Match[str]) -> tuple[Mass, int]:
    disc = Mass(Decimal(found["amount"]), LoadUnit((found["unit"] or "kg").lower()))
    count = int(found["count"])
    if not 0 < disc.kg <= HEAVIEST_DISC_KG:
        raise OutOfRange(
            f"a disc of {disc} is not possible", hint=f"above 0 and at most {HEAVIEST_DISC_KG} kg"
        )
    if not 1 <= count <= MOST_OF_A_SIZE:
        raise OutOfRange(
            f"{count} discs of {disc} are not possible",
            hint=f"1 to {MOST_OF_A_SIZE}, counting single discs",
        )
    return disc, count


def _no_discs(text: str, word: str) -> OutOfRange:
    if (near := nearest(text, DISC_SETS)) is not None:
        return OutOfRange(f"{quoted(text)} is no set of discs", hint=f"the nearest is '{near}'")
    return OutOfRange(f"{quoted(word)} is no size with its count", hint=DISC_FORMS)


def _heaviest_first(counts: Iterable[tuple[Mass, int]]) -> tuple[tuple[Mass, int], ...]:
    return tuple(sorted(counts, key=lambda size: size[0].kg, reverse=True))
