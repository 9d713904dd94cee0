"""Who is lifting."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Input, Static

from tempo_coach.core.prescription import check_name, clean_name
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.line_input import LineInput
from tempo_coach.ui.page import Page
from tempo_coach.ui.sentences import fault_sentence


class NameInput(LineInput):
    """The field for the name."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter",
            "submit",
            "Take this name",
            key_display="Enter",
            id="name.take",
            tooltip="Sets are logged under this name from now on",
        ),
    ]


class NameScreen(Frame[str | None]):
    """Asks for the lifter's name; goes away with it, or with None where it stays as it was.

    Parameters
    ----------
    lifter
        Who lifts so far; None where a name is needed.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "escape",
            "leave",
            "Leave it as it was",
            key_display="Esc",
            id="name.leave",
            tooltip="Go back without changing who lifts",
        ),
    ]

    def __init__(self, lifter: str | None) -> None:
        super().__init__()
        self._lifter = lifter

    def content(self) -> Iterable[Widget]:
        """Return the question and its field."""
        with Page(classes="question"):
            yield Static("Who is lifting?", classes="title")
            yield NameInput(self._lifter or "")
            yield Static(
                "Sets are logged under this name, on this machine alone.",
                id="name-answer",
                markup=False,
            )

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the name, or say what is wrong with it."""
        try:
            name = check_name(clean_name(event.value), what="lifter")
        except OutOfRange as fault:
            answer = self.query_one("#name-answer", Static)
            answer.update(fault_sentence(fault))
            answer.add_class("fault")
        else:
            self.dismiss(name)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Allow leaving only where somebody lifts already."""
        if action == "leave":
            return self._lifter is not None
        return super().check_action(action, parameters)

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(None)
