"""One field of a form on a line: its name, what is typed, and what may be."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widgets import Static

from tempo_coach.ui.line_input import LineInput

_MARKS = {True: "▸ ", False: "  "}


class FormInput(LineInput):
    """The field itself."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter",
            "submit",
            "Next",
            key_display="Enter",
            id="form.next",
            tooltip="On to the next field; behind the last one, on to what it is for",
        ),
    ]


class FormRow(Horizontal):
    """Shows one field.

    Parameters
    ----------
    name
        Which one, as its id.
    label
        What it is called.
    allowed
        What may be typed.
    """

    def __init__(self, name: str, *, label: str, allowed: str) -> None:
        super().__init__(classes="setting")
        self.field = FormInput(id=name)
        self._text = label
        self._label = Static(classes="setting-label", markup=False)
        self._allowed = Static(allowed, classes="setting-range", markup=False)
        self.mark(is_chosen=False)

    def compose(self) -> ComposeResult:
        """Put all side by side."""
        yield self._label
        yield self.field
        yield self._allowed

    def mark(self, *, is_chosen: bool) -> None:
        """Mark the row that is typed into, so that colour only helps."""
        self._label.update(_MARKS[is_chosen] + self._text)

    def explain(self, words: str) -> None:
        """Say something else of what is typed."""
        self._allowed.update(words)
