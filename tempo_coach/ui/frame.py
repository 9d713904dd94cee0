"""What all screens share: the keys below, a place for notices, and a word for tiny windows."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial

from textual.app import ComposeResult
from textual.dom import DOMNode
from textual.events import Resize
from textual.screen import Screen, ScreenResultType
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.legible import legible
from tempo_coach.ui.choice_list import ChoiceList
from tempo_coach.ui.key_line import KeyLine
from tempo_coach.ui.page import Page

LEAST_COLUMNS = 40
LEAST_ROWS = 12
_WIDTHS = [(0, "-slim"), (56, "-narrow"), (74, "-broad")]
"""From so many columns on a screen has this class."""
_HEIGHTS = [(0, "-flat"), (16, "-short"), (24, "-high")]
"""From so many rows on it has this one."""


class TooSmall(Static):
    """Covers a window in which nothing can be read."""

    def __init__(self) -> None:
        super().__init__(markup=False)

    def on_resize(self) -> None:
        """Say how small it is."""
        columns, rows = self.app.size
        self.update(
            f"The window is too small: {columns} × {rows}, at least {LEAST_COLUMNS} × {LEAST_ROWS}."
        )


class Notice(Static):
    """Sentences that must be seen, above the keys; takes no room when there are none."""

    def __init__(self) -> None:
        super().__init__(markup=False)
        self.display = False
        self._sentences: tuple[str, ...] = ()

    def tell(self, sentences: Iterable[str]) -> None:
        """Show these sentences, each on a line of its own, instead of what was there."""
        self._sentences = tuple(sentences)
        text = "\n".join(legible(sentence) for sentence in self._sentences)
        self.display = bool(text)
        self.update(text)

    def tell_also(self, sentence: str) -> None:
        """Show one sentence more."""
        self.tell((*self._sentences, sentence))


class Frame(Screen[ScreenResultType]):
    """A screen between its content and its keys.

    A text that is longer than its room is read by keys of the app's, which are named as long as
    there is one.
    """

    HORIZONTAL_BREAKPOINTS = _WIDTHS
    VERTICAL_BREAKPOINTS = _HEIGHTS

    def compose(self) -> ComposeResult:
        """Put the content above notice and keys."""
        yield from self.content()
        yield Notice()
        yield KeyLine()
        yield TooSmall()

    def on_resize(self, event: Resize) -> None:
        """Cover a window that is too small."""
        is_too_small = event.size.width < LEAST_COLUMNS or event.size.height < LEAST_ROWS
        self.set_class(is_too_small, "too-small")

    def content(self) -> Iterable[Widget]:
        """Return what the screen is for."""
        return ()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Read on only where a text is longer than its room."""
        if action == "read_lines" and isinstance(self.focused, ChoiceList):
            return False
        if action in ("read_lines", "read_page"):
            return self._long_page is not None
        return super().check_action(action, parameters)

    def action_read_lines(self, count: int) -> None:
        """Scroll the text that is longer than its room."""
        if self._long_page is not None:
            self._long_page.scroll_lines(count)

    def action_read_page(self) -> None:
        """Show its next page, and behind the end the first."""
        if self._long_page is not None:
            self._long_page.read_on()

    def after_typing(self, step: Callable[[], None]) -> None:
        """Do something once the keys before have done what they do, which keys with priority pass.

        A key without goes from the widget that has the focus up to the app, which then acts on it.
        Nothing is done where the screen has gone meanwhile.
        """
        _follow(tuple((self.focused or self).ancestors_with_self), partial(self._do_here, step))

    def tell(self, *sentences: str) -> None:
        """Show a notice, or none."""
        self.query_one(Notice).tell(sentences)

    def tell_also(self, sentence: str) -> None:
        """Show one sentence more in the notice."""
        self.query_one(Notice).tell_also(sentence)

    def _do_here(self, step: Callable[[], None]) -> None:
        if self.is_current:
            step()

    @property
    def _long_page(self) -> Page | None:
        return next((page for page in self.query(Page) if page.is_long and page.display), None)


def _follow(way: tuple[DOMNode, ...], step: Callable[[], None]) -> None:
    if way:
        way[0].call_later(_follow, way[1:], step)
    else:
        step()
