"""What goes on the bar for the next set: in words, and drawn where there is room."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.bar_picture import BLOCK_INKS, BarPicture, bar_picture
from tempo_coach.core.bar_words import set_words
from tempo_coach.core.discs import DiscColour
from tempo_coach.core.load import Load
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.set_bar import BarBefore, SetBar, set_bar
from tempo_coach.ui.underway import Underway

_STYLES = {colour: f"$disc-{colour}" for colour in DiscColour}


class BarLine(Widget):
    """Says what goes on the bar and what changes; takes no room where that can't be said.

    Parameters
    ----------
    underway
        What is on the bar, and the settings.
    """

    def __init__(self, underway: Underway) -> None:
        super().__init__()
        self._underway = underway
        self._words = Static(classes="bar-words", markup=False)
        self._picture = Static(classes="bar-picture", markup=False)
        self._shown: tuple[str, Load | None, BarBefore | None] | None = None
        self._found: SetBar | None = None
        self.display = False

    def compose(self) -> ComposeResult:
        """Put the picture beneath the words."""
        yield self._words
        yield self._picture

    def show(self, ahead: NextSet | None) -> None:
        """Show the bar of a set; None is no set."""
        if ahead is None:
            self._shown = self._found = None
            self.display = False
            return
        # Asked many times a second, and a new text lays the screen out anew.
        asked = (ahead.prescription.exercise, ahead.prescription.load, self._underway.bar_before)
        if asked != self._shown:
            self._shown = asked
            self._found = self._find(*asked)
            self.display = self._found is not None
            self._draw()

    def _find(self, exercise: str, load: Load | None, before: BarBefore | None) -> SetBar | None:
        settings = self._underway.coach.settings
        if not settings.show_discs:
            return None
        return set_bar(settings.rack, exercise=exercise, load=load, before=before)

    def _draw(self) -> None:
        found = self._found
        if found is None:
            return
        self._words.update(f"On the bar: {set_words(found)}.")
        self._picture.set_class(found.bar is not None, "drawn")
        if found.bar is not None:
            self._picture.update(_painted(bar_picture(found.bar, inks=BLOCK_INKS)))


def _painted(drawn: BarPicture) -> Content:
    rows = (
        Content.assemble(
            *((part.text, "" if part.colour is None else _STYLES[part.colour]) for part in row)
        )
        for row in drawn
    )
    return Content("\n").join(rows)
