"""Text that may be longer than its room."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll


class Page(VerticalScroll, inherit_bindings=False):
    """Scrolls, and takes no key from the screen that the screen has a use for.

    A `Frame` scrolls what is longer than its room, by keys that it names as long as that is so.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
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

    @property
    def is_long(self) -> bool:
        """There is more than its room shows."""
        return self.show_vertical_scrollbar

    def on_mount(self) -> None:
        """Have the keys named anew whenever the text comes to need them, or no longer does."""
        self.watch(self, "show_vertical_scrollbar", self.screen.refresh_bindings, init=False)

    def read_on(self) -> None:
        """Show the next page, and behind the end the first."""
        if self.scroll_y < self.max_scroll_y:
            self.scroll_page_down(animate=False)
        else:
            self.scroll_home(animate=False)

    def scroll_lines(self, count: int) -> None:
        """Scroll by lines, up where there are fewer than none."""
        self.scroll_relative(y=count, animate=False)

    def action_begin(self) -> None:
        """Scroll to the first line."""
        self.scroll_home(animate=False)

    def action_finish(self) -> None:
        """Scroll to the last line."""
        self.scroll_end(animate=False)
