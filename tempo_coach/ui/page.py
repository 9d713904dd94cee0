"""Text that may be longer than its room."""

from __future__ import annotations

from textual.containers import VerticalScroll


class Page(VerticalScroll, can_focus=False, inherit_bindings=False):
    """Scrolls, and takes no key from the screen.

    A `Frame` scrolls what is longer than its room, by keys that are named as long as that is so.
    """

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
