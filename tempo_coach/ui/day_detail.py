"""What there is to know of one row of a planned day."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.widgets import Static

from tempo_coach.core.session import Session, SessionItem
from tempo_coach.core.settings import Settings
from tempo_coach.ui.day_sums import sum_notes, sum_rows
from tempo_coach.ui.day_words import DAY_ROW, LABELS, heading_words, item_words
from tempo_coach.ui.page import Page

DONE = "All is done."


class DayDetail(Page):
    """Shows load, last time and the coach's note of an item, or what the day comes to.

    Parameters
    ----------
    settings
        What planning counts for X, V and A, and what loads are loaded with.
    """

    def __init__(self, settings: Settings) -> None:
        super().__init__()
        self._settings = settings
        self._heading = Static(classes="detail-heading", markup=False)
        self._words = {label: Static(classes="fact-words", markup=False) for label in LABELS}
        self._facts = {
            label: Horizontal(
                Static(label, classes="fact-label", markup=False), words, classes="fact"
            )
            for label, words in self._words.items()
        }
        self._sums = Static(classes="sums", markup=False)
        self._session: Session | None = None
        self._item: SessionItem | None = None

    def compose(self) -> ComposeResult:
        """Stack heading, facts and sums."""
        yield self._heading
        yield from self._facts.values()
        yield self._sums

    def show(self, session: Session, item: SessionItem | None) -> None:
        """Show an item of a session, or without one the session as a whole."""
        self._session, self._item = session, item
        self.scroll_home(animate=False)
        self._draw()

    def on_resize(self) -> None:
        """Lay the sums out for the new room."""
        self._draw()

    def _draw(self) -> None:
        session, item = self._session, self._item
        if session is None:
            return
        rack = self._settings.rack if self._settings.show_discs else None
        facts = {} if item is None else dict(item_words(session, item, rack=rack))
        for label, words in self._words.items():
            self._facts[label].display = label in facts
            words.update(facts.get(label, ""))
        self._sums.display = item is None
        if item is not None:
            self._heading.update(heading_words(item))
            return
        self._heading.update(DONE if session.next_item is None else DAY_ROW.capitalize())
        width = max(min(self.content_size.width - 1, 72), 1)
        rows = sum_rows(session, self._settings.allowances, width=width)
        self._sums.update("\n".join([*rows, "", *sum_notes(session)]))
