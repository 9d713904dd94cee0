"""Rows of which one is chosen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList
from textual.widgets.option_list import Option

MARK_WIDTH = 2
"""Cells before each row, for the mark of the chosen one."""
_MARKS = {True: "▸ ", False: "  "}


class ChoiceList(OptionList, inherit_bindings=False):
    """Shows rows literally; the chosen one has a mark, so that colour only helps."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "up",
            "cursor_up",
            "Up",
            show=False,
            id="choice.up",
            tooltip="Choose the row above, and above the first the last",
        ),
        Binding(
            "down",
            "cursor_down",
            "Down",
            show=False,
            id="choice.down",
            tooltip="Choose the row below, and below the last the first",
        ),
        Binding(
            "home",
            "first",
            "First",
            show=False,
            id="choice.first",
            tooltip="Choose the first row",
        ),
        Binding(
            "end",
            "last",
            "Last",
            show=False,
            id="choice.last",
            tooltip="Choose the last row",
        ),
    ]

    @dataclass
    class Chosen(Message):
        """Another row was chosen."""

        index: int

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id, markup=False)
        self._rows: tuple[Content, ...] = ()
        self._marked: int | None = None

    @property
    def chosen(self) -> int:
        """Which row is chosen; 0 where there are none."""
        return self.highlighted or 0

    def show(self, rows: Sequence[str | Content], chosen: int) -> None:
        """Show these rows with one of them chosen."""
        count = len(self._rows)
        self._rows = tuple(Content(row) if isinstance(row, str) else row for row in rows)
        with self.prevent(OptionList.OptionHighlighted):
            if len(rows) != count:
                self.set_options(Option(row) for row in self._rows)
            for index in range(len(rows)):
                self._write(index, is_chosen=index == chosen)
            self._marked = chosen
            self.highlighted = chosen if rows else None
        # Before it is laid out, there is nothing to scroll yet.
        self.call_after_refresh(self.scroll_to_highlight)

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Move the mark, and tell."""
        event.stop()
        if self._marked is not None and self._marked < len(self._rows):
            self._write(self._marked, is_chosen=False)
        self._marked = event.option_index
        self._write(event.option_index, is_chosen=True)
        self.post_message(self.Chosen(event.option_index))

    def _write(self, index: int, *, is_chosen: bool) -> None:
        self.replace_option_prompt_at_index(index, Content(_MARKS[is_chosen]) + self._rows[index])
