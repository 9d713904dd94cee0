"""What a printed page is made of: tables of text, and charts of numbers."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table."""

    heading: str
    is_text: bool = False
    """To the left, and may hold what people wrote; numbers stand to the right."""
    width_mm: int | None = None
    """In print; None shares what is left."""
    most_lines: int = 2
    """In print; longer text is cut."""
    is_of_lines: bool = False
    """Holds lines of work: they are broken between words, and not within a tempo."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table."""

    heading: str
    cells: tuple[str, ...]
    """As the columns behind the first."""
    is_strong: bool = False
    """What the eye should find first."""
    anchor: str = ""
    """The page that the heading leads to."""


@dataclass(frozen=True, slots=True)
class Table:
    """Text in rows and columns."""

    caption: str
    columns: tuple[Column, ...]
    """The first is that of the rows' headings."""
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar of a chart."""

    name: str
    value: float
    by_allowance: float
    """The part of the value that rests on what planning counts for X or V."""
    text: str
    """The value, as it is written."""


@dataclass(frozen=True, slots=True)
class Panel:
    """One small chart."""

    name: str
    bars: tuple[Bar, ...]
    """The last is what the page is about."""
    said: str
    """What the bars show, for whoever does not see them."""


@dataclass(frozen=True, slots=True)
class Chart:
    """Small charts side by side, all on one scale."""

    heading: str
    panels: tuple[Panel, ...]
    figures: Table
    """The same numbers."""

    @property
    def highest(self) -> float:
        """The greatest value of all bars."""
        return max((bar.value for panel in self.panels for bar in panel.bars), default=0.0)
