"""A question with one line for the answer."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import ClassVar, Generic, TypeVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Input, Static

from tempo_coach.core.legible import legible
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.line_input import LineInput
from tempo_coach.ui.page import Page
from tempo_coach.ui.sentences import fault_sentence

AnswerType = TypeVar("AnswerType")


class AnswerInput(LineInput):
    """The field for the answer."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter",
            "submit",
            "Take it",
            key_display="Enter",
            id="answer.take",
            tooltip="Take the answer, once it can be read",
        ),
    ]


class AnswerScreen(Frame[AnswerType | None], Generic[AnswerType]):
    """Asks; goes away with what was read, or with None where all stays as it was.

    Parameters
    ----------
    question
        What is asked.
    help_text
        What may be answered.
    text
        What the field holds at first.
    read
        Reads the answer; raises `OutOfRange` for one that is none.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "escape",
            "leave",
            "Leave it",
            key_display="Esc",
            id="answer.leave",
            tooltip="Go back without an answer",
        ),
    ]

    def __init__(
        self, question: str, help_text: str, *, text: str, read: Callable[[str], AnswerType]
    ) -> None:
        super().__init__()
        self._question = question
        self._help_text = help_text
        self._text = text
        self.read = read

    def content(self) -> Iterable[Widget]:
        """Return the question and its field."""
        with Page(classes="question"):
            yield Static(legible(self._question), classes="title", markup=False)
            yield AnswerInput(self._text)
            yield Static(legible(self._help_text), id="name-answer", markup=False)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the answer, or say what is wrong with it."""
        try:
            answer = self.read(event.value)
        except OutOfRange as fault:
            said = self.query_one("#name-answer", Static)
            said.update(fault_sentence(fault))
            said.add_class("fault")
        else:
            self.dismiss(answer)

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(None)
