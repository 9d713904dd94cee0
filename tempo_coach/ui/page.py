"""Text that may be longer than its room."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll


class Page(VerticalScroll, inherit_bindings=False):
    """Scrolls by up and down alone, so that it takes no other key from the screen."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "up",
            "line(-1)",
            "Up",
            show=False,
            id="page.up",
            tooltip="Show the line above",
        ),
        Binding(
            "down",
            "line(1)",
            "Down",
            show=False,
            id="page.down",
            tooltip="Show the line below",
        ),
        Binding(
            "home",
            "begin",
            "Begin",
            show=False,
            id="page.begin",
            tooltip="Show the first line",
        ),
        Binding(
            "end",
            "finish",
            "End",
            show=False,
            id="page.end",
            tooltip="Show the last line",
        ),
    ]

    def read_on(self) -> None:
        """Show the next page, and behind the end the first."""
        if self.scroll_y < self.max_scroll_y:
            self.scroll_page_down(animate=False)
        else:
            self.scroll_home(animate=False)

    def action_line(self, by: int) -> None:
        """Scroll by lines."""
        self.scroll_relative(y=by, animate=False)

    def action_begin(self) -> None:
        """Scroll to the first line."""
        self.scroll_home(animate=False)

    def action_finish(self) -> None:
        """Scroll to the last line."""
        self.scroll_end(animate=False)
