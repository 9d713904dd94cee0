"""Which of a plan's lifters it is."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.legible import legible, name_key
from tempo_coach.ui.choice_list import ChoiceList
from tempo_coach.ui.frame import Frame


class LiftersScreen(Frame[str | None]):
    """Asks who lifts; goes away with the name, or with None where it stays as it was.

    Parameters
    ----------
    names
        The plan's lifters.
    chosen
        Who lifts so far, chosen at first if the plan has that name.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter,space,pagedown",
            "take",
            "Take this name",
            key_display="Enter",
            priority=True,
            id="lifters.take",
            tooltip="Show the days of this lifter, and log sets under the name from now on",
        ),
        Binding(
            "pageup",
            "choose_before",
            "Name",
            key_display="↑↓",
            priority=True,
            id="lifters.choose_before",
            tooltip="Choose the name above, and above the first the last",
        ),
        Binding(
            "escape",
            "leave",
            "Leave it as it was",
            key_display="Esc",
            id="lifters.leave",
            tooltip="Go back without changing who lifts",
        ),
    ]

    def __init__(self, names: tuple[str, ...], chosen: str | None) -> None:
        super().__init__()
        self._names = names
        keys = [name_key(name) for name in names]
        key = name_key(chosen or "")
        self._at_first = keys.index(key) if key in keys else 0
        self._list = ChoiceList()

    def content(self) -> Iterable[Widget]:
        """Return the question and the names."""
        with Vertical(classes="question"):
            yield Static("Who is lifting?", classes="title")
            yield self._list

    def on_mount(self) -> None:
        """Show the names."""
        self._list.show([legible(name) for name in self._names], self._at_first)

    def on_option_list_option_selected(self) -> None:
        """Take the name that was clicked."""
        self.action_take()

    def action_take(self) -> None:
        """Go back with the chosen name."""
        self.after_typing(self._take)

    def action_choose_before(self) -> None:
        """Choose the name above."""
        self._list.action_cursor_up()

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(None)

    def _take(self) -> None:
        self.dismiss(self._names[self._list.chosen])
