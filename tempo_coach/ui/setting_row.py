"""One setting on a line: its name, its value, and where that comes from."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.ui.line_input import LineInput
from tempo_coach.ui.option_line import OptionLine
from tempo_coach.ui.setting_entries import Entry

_MARKS = {True: "▸ ", False: "  "}


class NumberInput(LineInput):
    """The field for a number or a text."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter",
            "submit",
            "Take it",
            key_display="Enter",
            id="setting.take",
            tooltip="Take what is typed and go on to the next setting",
        ),
    ]


class SettingRow(Horizontal):
    """Shows one setting.

    Parameters
    ----------
    entry
        Which one.
    """

    def __init__(self, entry: Entry) -> None:
        super().__init__(classes="setting")
        self.entry = entry
        self._label = Static(classes="setting-label", markup=False)
        self._tag = Static(classes="setting-source", markup=False)
        self.control = OptionLine(entry.options) if entry.options else NumberInput()
        self.control.set_class(entry.is_long, "long")
        self.mark(is_chosen=False)

    def compose(self) -> ComposeResult:
        """Put name, value and source side by side."""
        yield self._label
        yield self.control
        if not self.entry.options:
            yield Static(self.entry.range_words(), classes="setting-range", markup=False)
        yield self._tag

    def mark(self, *, is_chosen: bool) -> None:
        """Mark the row that the keys go to, so that colour only helps."""
        self._label.update(_MARKS[is_chosen] + self.entry.label)

    def show(self, text: str, source_tag: str) -> None:
        """Show what holds."""
        if isinstance(self.control, OptionLine):
            self.control.show(text)
        else:
            self.control.value = text
        self._tag.update(source_tag)

    def holds(self, widget: Widget | None) -> bool:
        """Tell whether a widget is where this setting is given."""
        return widget is self.control
