"""The work of a planned day in rows, of which one is chosen."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.session import Session, SessionItem
from tempo_coach.ui.choice_list import MARK_WIDTH, ChoiceList
from tempo_coach.ui.day_words import item_rows


class DayTable(Widget):
    """Shows each item, and beneath them the day as a whole."""

    def __init__(self) -> None:
        super().__init__()
        self._headings = Static(classes="headings", markup=False)
        self._list = ChoiceList()
        self._session: Session | None = None
        self._chosen = 0

    def compose(self) -> ComposeResult:
        """Put the rows under their headings."""
        yield self._headings
        yield self._list

    def show(self, session: Session, chosen: SessionItem | None) -> None:
        """Show a session with an item chosen, or without one the day as a whole."""
        items = session.items
        self._session = session
        self._chosen = len(items) if chosen is None else items.index(chosen)
        self._draw()

    @property
    def chosen(self) -> SessionItem | None:
        """The item that is chosen; None where it is the day as a whole, or nothing is shown yet."""
        items = () if self._session is None else self._session.items
        index = self._list.highlighted
        return None if index is None or index >= len(items) else items[index]

    def choose_before(self) -> None:
        """Choose the row above, and above the first the last."""
        self._list.action_cursor_up()

    def on_choice_list_chosen(self, event: ChoiceList.Chosen) -> None:
        """Take in which row is chosen; the screen hears of it too."""
        self._chosen = event.index

    def on_resize(self) -> None:
        """Lay the columns out for the new room."""
        self._draw()

    def _draw(self) -> None:
        # One cell is the scroll bar's.
        width = self.content_size.width - MARK_WIDTH - 1
        if self._session is None or width < 1:
            return
        headings, *rows = item_rows(self._session, width=width)
        self._headings.update(" " * MARK_WIDTH + headings)
        self._list.show(rows, self._chosen)
