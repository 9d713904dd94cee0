"""The fields in which a set just done can be corrected."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from tempo_coach.core.facts import Changes, SetDone
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.corrections import Field, changes_from, read_field, texts
from tempo_coach.ui.line_input import LineInput
from tempo_coach.ui.sentences import fault_sentence

_LABELS = {
    Field.REPS: "reps",
    Field.LOAD: "load",
    Field.EFFORT: "effort 1-10",
    Field.NOTE: "note",
}


class ReportInput(LineInput):
    """One of the fields."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter",
            "submit",
            "Field",
            key_display="Enter",
            id="report.next",
            tooltip="On to the next field; behind the note, save what was changed",
        ),
    ]

    def __init__(self, field: Field) -> None:
        super().__init__(id=field.value)
        self.field = field

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Take spaces in the note alone; elsewhere Space starts the next set."""
        is_elsewhere = character == " " and self.field is not Field.NOTE
        return not is_elsewhere and super().check_consume_key(key, character)


class SetReport(Widget):
    """Holds reps, load, effort and note of one set.

    Parameters
    ----------
    prescribed
        The load of the line; a bare number is counted as it is.
    unit
        What a bare number is counted in where the line has no load.
    """

    class Filled(Message):
        """The last field was left by Enter."""

    def __init__(self, prescribed: Load | None, unit: LoadUnit) -> None:
        super().__init__()
        self._prescribed = prescribed
        self._unit = unit
        self._fields = {field: ReportInput(field) for field in Field}
        self._answer = Static(id="answer", markup=False)

    def compose(self) -> ComposeResult:
        """Put the fields in one row, each under its name."""
        with Horizontal():
            for field, entry in self._fields.items():
                with Vertical(classes=f"field {field}"):
                    yield Static(_LABELS[field])
                    yield entry
        yield self._answer

    def ask(self, done: SetDone, *, waits: bool = False) -> None:
        """Fill the fields with a set, and put the cursor into the first unless it is to wait."""
        for field, text in texts(done).items():
            self._fields[field].value = text
        self._say("")
        if not waits:
            self._fields[Field.REPS].focus()

    def changes(self, done: SetDone) -> tuple[Changes | None, tuple[OutOfRange, ...]]:
        """Return what was changed, and why some fields can't be read."""
        typed = {field: entry.value for field, entry in self._fields.items()}
        return changes_from(done, typed, prescribed=self._prescribed, unit=self._unit)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Go on to the next field, or stay and say what is wrong."""
        event.stop()
        field = Field(str(event.input.id))
        try:
            read_field(field, event.value, prescribed=self._prescribed, unit=self._unit)
        except OutOfRange as fault:
            self._say(fault_sentence(fault))
            return
        self._say("")
        order = list(Field)
        if field is order[-1]:
            self.post_message(self.Filled())
        else:
            self._fields[order[order.index(field) + 1]].focus()

    def _say(self, sentence: str) -> None:
        self._answer.update(sentence)
        self._answer.set_class(bool(sentence), "fault")
