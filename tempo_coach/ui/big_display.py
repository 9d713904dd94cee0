"""The display that is read from the rack."""

from __future__ import annotations

from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from tempo_coach.ui.canvas import Ink, Picture
from tempo_coach.ui.picture import picture
from tempo_coach.ui.sign import Sign


class BigDisplay(Widget):
    """Shows one sign as large as its room allows, and repaints only the rows that have changed."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        f"big-display--{ink.name.lower()}" for ink in Ink if ink is not Ink.NONE
    }

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._sign = Sign()
        self._picture: Picture = ()

    @property
    def sign(self) -> Sign:
        """What is shown."""
        return self._sign

    @property
    def picture(self) -> Picture:
        """How it is drawn."""
        return self._picture

    def show(self, sign: Sign) -> None:
        """Show another sign."""
        if sign != self._sign:
            self._sign = sign
            self._redraw()

    def on_resize(self) -> None:
        """Draw again for the new room."""
        self._redraw()

    def render_line(self, y: int) -> Strip:
        """Return one row."""
        # Asked once a row: Textual works it out anew from all ancestors each time.
        blank = self.rich_style
        row = self._picture[y] if y < len(self._picture) else ()
        segments = [Segment(text, self._style(ink) or blank) for text, ink in row]
        return Strip(segments).adjust_cell_length(self.size.width, blank)

    def _style(self, ink: Ink) -> Style | None:
        if ink is Ink.NONE:
            return None
        return self.get_component_rich_style(f"big-display--{ink.name.lower()}")

    def _redraw(self) -> None:
        columns, rows = self.size
        drawn = picture(self._sign, columns=columns, rows=rows) if columns and rows else ()
        changed = [
            Region(0, row, columns, 1)
            for row, content in enumerate(drawn)
            if row >= len(self._picture) or content != self._picture[row]
        ]
        self._picture = drawn
        if changed:
            self.refresh(*changed)
