"""The line at the bottom that names the keys, each a button too."""

from __future__ import annotations

from typing import ClassVar

from textual.content import Content
from textual.events import Click, Leave, MouseMove
from textual.screen import Screen
from textual.widget import Widget

from tempo_coach.ui.key_names import KeyName, in_rows, key_names, name_at


class KeyLine(Widget):
    """Shows which keys do something now, on a second line where one does not hold them.

    All are one widget: with one for each key, as Textual's own footer has them, a change of keys
    costs four times as much, and keys change with every field that takes the focus.
    """

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {"key-line--key"}

    def __init__(self) -> None:
        super().__init__()
        self._names: tuple[KeyName, ...] = ()

    def on_mount(self) -> None:
        """Follow the keys of the screen."""
        self.screen.bindings_updated_signal.subscribe(self, self._take_names)

    def on_resize(self) -> None:
        """Take as many rows as the keys need in another width."""
        self._take_rows()

    def render(self) -> Content:
        """Return the keys with their names."""
        style = self.get_visual_style("key-line--key")
        rows = in_rows(self._names, width=self.size.width)
        return Content("\n").join(
            Content.assemble(
                *(part for name in row for part in ((f" {name.key} ", style), f"{name.label} "))
            )
            for row in rows
        )

    def on_click(self, event: Click) -> None:
        """Press the key that was clicked."""
        name = self._name_at(event)
        if name is not None and name.press:
            self.app.simulate_key(name.press)

    def on_mouse_move(self, event: MouseMove) -> None:
        """Explain the key under the pointer."""
        name = self._name_at(event)
        self.tooltip = None if name is None else name.tooltip

    def on_leave(self, _: Leave) -> None:
        """Explain nothing any more."""
        self.tooltip = None

    def _take_names(self, screen: Screen[object]) -> None:
        names = key_names(screen)
        if names != self._names:
            self._names = names
            self._take_rows()
            self.refresh()

    def _take_rows(self) -> None:
        # As a style: while a layout is already asked for, Textual keeps an automatic height that it
        # worked out before the names changed.
        self.styles.height = len(in_rows(self._names, width=self.app.size.width))

    def _name_at(self, event: Click | MouseMove) -> KeyName | None:
        return name_at(in_rows(self._names, width=self.size.width), column=event.x, row=event.y)
