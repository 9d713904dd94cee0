"""The line a prescription is typed into, with its reading beneath."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from tempo_coach.coach import Coach
from tempo_coach.core.method_flags import flags
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.overload import overload_question
from tempo_coach.core.prescription import EXAMPLE, Prescription, parse_prescription
from tempo_coach.core.reading import spell_out
from tempo_coach.core.tempo import EXAMPLE as TEMPO
from tempo_coach.errors import NotationError, OutOfRange
from tempo_coach.ui.known_lifter import KnownLifter
from tempo_coach.ui.line_input import LineInput
from tempo_coach.ui.page import Page
from tempo_coach.ui.sentences import fault_sentences

_PLACES = (
    "lower: 4 s on the way down",
    "pause: 1 s at the bottom",
    "raise: X, as fast as possible",
    "top: 1 s at the top",
)
_MORE = (
    "V is at your own speed, A with the spotters' help, 0 leaves a phase out.",
    "4xmax runs until you stop.",
    "The load may be 80 kg, 175 lb, 72%, bw, bw+10 kg or none.",
    "'lead raise' at the end begins each rep with the raise.",
)


def example_text(*, width: int) -> str:
    """Return an example of a line, with what the four places of its tempo mean.

    Parameters
    ----------
    width
        Cells there are; where they are too few to draw from each place to its meaning, the meanings
        stand in the order of the places.
    """
    drawn = tuple(map(_drawn_place, reversed(range(len(_PLACES)))))
    places = _PLACES if max(map(len, drawn)) > width else drawn
    return "\n".join([EXAMPLE, *places, "", *_MORE])


def _drawn_place(place: int) -> str:
    waiting = " ".join("│" * place)
    joint = " " if waiting else ""
    reach = "─" * (2 * (len(_PLACES) - 1 - place) + 1)
    return f"{' ' * EXAMPLE.index(TEMPO)}{waiting}{joint}└{reach} {_PLACES[place]}"


def caret_line(text: str, *, column: int, scrolled: int, width: int) -> str:
    """Return the line that puts ``^`` under a column of a text in a field.

    Parameters
    ----------
    text
        What the field holds.
    column
        Where, counted from 1 in characters.
    scrolled
        Cells of the text that are out of sight at the left.
    width
        Cells of the text that the field shows.

    Returns
    -------
    str
        Spaces and ``^``; ``<`` or ``>`` at the edge where the column is out of sight.
    """
    cell = cell_len(text[: column - 1]) - scrolled
    if cell < 0:
        return "<"
    if cell >= width:
        return " " * (width - 1) + ">"
    return " " * cell + "^"


class PrescriptionInput(LineInput):
    """The line itself."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter",
            "submit",
            "To the rack",
            key_display="Enter",
            id="board.give",
            tooltip="Go on to the first set, once the line can be read",
        ),
    ]


class PrescriptionField(Widget):
    """Reads a prescription while it is typed.

    Parameters
    ----------
    coach
        Lays the set out in time, for its reading.
    line
        What it holds at first.
    lifter
        What is known of who lifts.
    """

    @dataclass
    class Given(Message):
        """A line that can be read was given."""

        first: NextSet

    def __init__(self, coach: Coach, line: str, lifter: KnownLifter) -> None:
        super().__init__()
        self._coach = coach
        self._line = line
        self._lifter = lifter
        self._first: NextSet | None = None
        self._fault_column: int | None = None

    def compose(self) -> ComposeResult:
        """Put the reading under the line, and between them the place of a fault."""
        yield PrescriptionInput(self._line, select_on_focus=False)
        yield Static(id="caret", markup=False)
        with Page():
            yield Static(id="reading", markup=False)
            yield Static(id="remarks", markup=False)

    def on_mount(self) -> None:
        """Read what it holds at first, and follow the field as it scrolls."""
        self.watch(self.query_one(Input), "scroll_x", self._place_caret)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Read again."""
        event.stop()
        self._read(event.value)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Give the line, if it can be read."""
        event.stop()
        self._read(event.value)
        if self._first is not None:
            self.post_message(self.Given(self._first))

    def on_resize(self) -> None:
        """Find the caret's place again."""
        self.read_again()

    def read_again(self) -> None:
        """Read again, as the settings say now."""
        self._read(self.query_one(Input).value)

    @property
    def line(self) -> str:
        """What stands in the field."""
        return self.query_one(Input).value

    def write(self, line: str) -> None:
        """Put another line in place of what stands there."""
        field = self.query_one(Input)
        field.value = line
        field.cursor_position = len(line)

    def _read(self, line: str) -> None:
        self._first = self._fault_column = None
        remarks: tuple[str, ...] = ()
        reading = self.query_one("#reading", Static)
        try:
            prescription = parse_prescription(line)
            sentences = spell_out(prescription, self._coach.timeline(prescription))
        except (NotationError, OutOfRange) as fault:
            is_wrong = bool(line.strip())
            if is_wrong and isinstance(fault, NotationError):
                self._fault_column = fault.column
            # Its padding and a scroll bar take the rest.
            width = self.content_size.width - 5
            example = example_text(width=width)
            reading.update("\n".join(fault_sentences(fault)) if is_wrong else example)
            reading.set_class(is_wrong, "fault")
        else:
            self._first = self._first_set(prescription)
            flagged = (f"Remark: {flag}." for flag in self._first.flags)
            remarks = (*self._first.warnings, *flagged)
            reading.update("\n".join(sentences))
            reading.remove_class("fault")
        self.query_one("#remarks", Static).update("\n".join(remarks))
        # The field scrolls only after it has been laid out anew.
        self.call_after_refresh(self._place_caret)

    def _first_set(self, prescription: Prescription) -> NextSet:
        strength, notes = self._lifter.strength_for(prescription), self._lifter.notes()
        return NextSet(
            prescription,
            flags=flags(prescription, strength, allowances=self._coach.settings.allowances),
            overload=overload_question(prescription, strength),
            notes=notes.of(prescription, strength) if notes else (),
            room=notes.room if notes else None,
        )

    def _place_caret(self) -> None:
        caret, field = self.query_one("#caret", Static), self.query_one(Input)
        if self._fault_column is None:
            caret.update("")
            return
        line = caret_line(
            field.value,
            column=self._fault_column,
            scrolled=field.scroll_offset.x,
            width=field.scrollable_content_region.width,
        )
        indent = field.content_region.x - caret.content_region.x
        caret.update(" " * indent + line)
