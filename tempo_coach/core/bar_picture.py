"""A loaded bar in characters: discs by size, each with its mass, so that colour only helps."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby
from typing import TypeAlias

from tempo_coach.core.discs import DiscColour
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.loading import LoadedBar
from tempo_coach.core.mass import Mass

WIDEST_PICTURE = 80
NARROWEST_PICTURE = 40
_GRIP = 10
"""Columns of the shaft between the sides, or what is shown of it."""
_SLEEVE = 3
_TALLER_FROM_KG = (Decimal("2.2"), Decimal(9), Decimal(18))
"""From each of these on a disc is one row taller, both above and below the shaft."""


@dataclass(frozen=True, slots=True)
class Inks:
    """What things are drawn with."""

    shaft: str
    disc: str
    collars: str
    """On the left and on the right."""


ASCII_INKS = Inks("=", "#", "[]")
BLOCK_INKS = Inks("━", "█", "▐▌")


@dataclass(frozen=True, slots=True)
class Part:
    """Characters of one colour."""

    text: str
    colour: DiscColour | None


BarPicture: TypeAlias = tuple[tuple[Part, ...], ...]


@dataclass(frozen=True, slots=True)
class _Block:
    """Discs that stand over one label."""

    label: str
    width: int
    tall: int
    """Rows above the shaft."""
    colour: DiscColour | None

    @property
    def room(self) -> int:
        """Columns, with one between this block and the next."""
        return max(len(self.label), self.width) + 1


class _Sheet:
    """Rows of characters with their colours; row `tall` is the shaft's, the last the labels'."""

    def __init__(self, width: int, tall: int) -> None:
        self.tall = tall
        self._cells: list[list[tuple[str, DiscColour | None]]] = [
            [(" ", None)] * width for _ in range(2 * tall + 2)
        ]

    def write(self, text: str, *, left: int, row: int, colour: DiscColour | None = None) -> None:
        self._cells[row][left : left + len(text)] = [(one, colour) for one in text]

    def rows(self) -> BarPicture:
        return tuple(tuple(_parts(row)) for row in self._cells)


def _parts(cells: Iterable[tuple[str, DiscColour | None]]) -> Iterable[Part]:
    for colour, several in groupby(cells, key=lambda cell: cell[1]):
        yield Part("".join(text for text, _ in several), colour)


def bar_picture(bar: LoadedBar, *, width: int = WIDEST_PICTURE, inks: Inks) -> BarPicture:
    """Draw a bar from the front: both sides, or the right one where there is less room.

    Discs of a side that is still too long are drawn once for all that are alike, and what even so
    has no room is counted.

    Parameters
    ----------
    bar
        What is drawn.
    width
        Columns at most; at least `NARROWEST_PICTURE`.
    inks
        What it is drawn with.
    """
    ends = _GRIP + _SLEEVE + (1 if bar.rack.collars.amount else 0)
    blocks = _blocks(bar, room=width - ends)
    side = sum(block.room for block in blocks) + ends - _GRIP
    is_whole = 2 * side + _GRIP <= width
    middle = side + _GRIP if is_whole else _GRIP
    sheet = _Sheet(middle + side, max((block.tall for block in blocks), default=0))
    sheet.write(inks.shaft * (middle + side), left=0, row=sheet.tall)
    at = 0
    for block in blocks:
        _draw(sheet, block, left=middle + at, inks=inks)
        if is_whole:
            _draw(sheet, block, left=side - at - block.room + 1, inks=inks)
        at += block.room
    if bar.rack.collars.amount:
        sheet.write(inks.collars[1], left=middle + at, row=sheet.tall)
        if is_whole:
            sheet.write(inks.collars[0], left=side - at - 1, row=sheet.tall)
    return sheet.rows()


def picture_text(drawn: BarPicture) -> str:
    """Return the characters of a picture alone, a line a row."""
    return "\n".join("".join(part.text for part in row).rstrip() for row in drawn)


def _draw(sheet: _Sheet, block: _Block, *, left: int, inks: Inks) -> None:
    shift = (block.room - 1 - block.width) // 2
    for row in range(sheet.tall - block.tall, sheet.tall + block.tall + 1):
        if block.width:
            sheet.write(inks.disc * block.width, left=left + shift, row=row, colour=block.colour)
    sheet.write(block.label, left=left + (block.room - 1 - len(block.label)) // 2, row=-1)


def _blocks(bar: LoadedBar, *, room: int) -> list[_Block]:
    has_one_unit = len({disc.unit for disc in bar.side}) <= 1
    alone = [_block(bar, disc, 1, has_one_unit=has_one_unit) for disc in bar.side]
    if _room(alone) <= room:
        return alone
    runs = [(disc, len(list(several))) for disc, several in groupby(bar.side)]
    counts = [count for _, count in runs]
    alike = [_block(bar, disc, count, has_one_unit=has_one_unit) for disc, count in runs]
    shown, kept = alike, len(alike) - 1
    while _room(shown) > room:
        kept -= 1
        hidden = len(bar.side) - sum(counts[:kept])
        shown = [*alike[:kept], _Block(f"+{hidden} more", 0, 0, None)]
    return shown


def _room(blocks: Iterable[_Block]) -> int:
    return sum(block.room for block in blocks)


def _block(bar: LoadedBar, disc: Mass, count: int, *, has_one_unit: bool) -> _Block:
    label = disc.number if has_one_unit else _with_unit(disc)
    tall = sum(disc.kg >= bound for bound in _TALLER_FROM_KG)
    width = 2 if tall >= 2 else 1
    if count > 1:
        label, width = f"{count}x{label}", width + 1
    return _Block(label, width, tall, bar.rack.discs.colour(disc))


def _with_unit(disc: Mass) -> str:
    return f"{disc.number}{'lb' if disc.unit is LoadUnit.LB else 'kg'}"
