"""What a reserve test is begun with, or which one goes on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar, TypeAlias

from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.events import DescendantBlur, DescendantFocus
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from tempo_coach.core.facts import SetDone
from tempo_coach.core.history import History
from tempo_coach.core.legible import legible
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.plan import Lifter
from tempo_coach.core.prescription import clean_name
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.reserve_start import (
    going_on,
    going_on_words,
    loads_words,
    max_to_test,
    read_rest,
)
from tempo_coach.core.reserve_test import ReserveTest, unanswered
from tempo_coach.core.strength import LifterRecord
from tempo_coach.errors import LogUnreadable, OutOfRange
from tempo_coach.ui.form_row import FormRow
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.reserve_fields import USUAL, Field, ReserveWish, read_fields
from tempo_coach.ui.sentences import fault_sentence
from tempo_coach.ui.underway import Underway

_LABELS = {
    Field.EXERCISE: "Exercise",
    Field.MAX: "1RM",
    Field.STEP: "Step",
    Field.LOWER: "Each lower",
    Field.CEILING: "Up to",
    Field.REST: "Rest",
}
_ALLOWED = {
    Field.EXERCISE: "",
    Field.MAX: "",
    Field.STEP: "1 to 10% of 1RM, or kg or lb",
    Field.LOWER: "s, 1 to 30",
    Field.CEILING: "100 to 160% of 1RM, or kg or lb",
    Field.REST: "between attempts",
}
NOT_KNOWN = "not known; type it"


@dataclass(frozen=True, slots=True)
class Resumed:
    """A test that goes on."""

    test: ReserveTest
    unanswered: SetDone | None
    """Its set that was left before the question."""
    rest_ms: int


ReserveChoice: TypeAlias = ReserveWish | Resumed


class ReserveFormScreen(Frame[ReserveChoice | None]):
    """Asks for the loads of a test; goes away with what was chosen, or with None.

    Parameters
    ----------
    underway
        What keeps the log.
    lifter
        Who is tested.
    person
        The lifter as the plan has them; None where it does not.
    exercise
        What stands on the board; empty where nothing does.
    """

    @dataclass
    class LogRead(Message):
        """The log was read."""

        history: History

    @dataclass
    class LogFailed(Message):
        """The log can't be read."""

        fault: LogUnreadable

    AUTO_FOCUS = "FormInput"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "up",
            "field_up",
            "Choose",
            key_display="↑↓",
            priority=True,
            id="reserve_form.up",
            tooltip="Go to the field above or below",
        ),
        Binding(
            "down",
            "field_down",
            "Down",
            show=False,
            priority=True,
            id="reserve_form.down",
            tooltip="Go to the field below",
        ),
        Binding(
            "f8",
            "go_on",
            "Go on with it",
            key_display="F8",
            id="reserve_form.go_on",
            tooltip="Go on with today's test that is not over, with its own loads",
        ),
        Binding(
            "escape",
            "leave",
            "Board",
            key_display="Esc",
            id="reserve_form.leave",
            tooltip="Back to the board; no test is begun",
        ),
    ]

    def __init__(
        self, underway: Underway, lifter: str, person: Lifter | None, exercise: str
    ) -> None:
        super().__init__()
        self._coach = underway.coach
        self._lifter = lifter
        self._person = person
        self._exercise = exercise
        self._history: History | None = None
        self._open: ReserveTest | None = None
        self._known = self._known_words = ""
        """The 1RM that plan and log give, and where it is from."""
        self._rows = {
            field: FormRow(field, label=_LABELS[field], allowed=_ALLOWED[field]) for field in Field
        }
        self._rows[Field.EXERCISE].field.add_class("long")
        self._said = Static(id="setting-fault", markup=False)
        self._goes_on = Static(id="setting-meaning", markup=False)

    def content(self) -> Iterable[Widget]:
        """Return heading and fields, and beneath them what they make."""
        with Horizontal(classes="heading"):
            yield Static("Reserve test", classes="heading-text")
            yield Static(legible(self._lifter), classes="heading-count", markup=False)
        with Vertical(classes="settings form"):
            yield from self._rows.values()
        yield self._said
        yield self._goes_on

    def on_mount(self) -> None:
        """Fill in what is known, and read the log."""
        for field, text in ({Field.EXERCISE: self._exercise} | USUAL).items():
            self._rows[field].field.value = text
        self.run_worker(self._read_log, thread=True, group="reserve")

    def on_reserve_form_screen_log_read(self, event: LogRead) -> None:
        """Fill in the 1RM of the log, and offer the test that is not over."""
        self._history = event.history
        entry = self._rows[Field.EXERCISE].field
        if not entry.value:
            entry.value = self._last_open(event.history)
        self._look_up()

    def on_reserve_form_screen_log_failed(self, event: LogFailed) -> None:
        """Say so; a test can be begun all the same."""
        self.tell(fault_sentence(event.fault))
        self._look_up()

    def on_descendant_focus(self, event: DescendantFocus) -> None:
        """Mark the row that is typed into."""
        self._mark(event.widget, is_chosen=True)

    def on_descendant_blur(self, event: DescendantBlur) -> None:
        """Mark it no more."""
        self._mark(event.widget, is_chosen=False)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Say at once what is wrong with the field, or what all of them make."""
        if event.input.id == Field.EXERCISE:
            self._look_up()
        if event.input.id == Field.MAX:
            is_known = event.value in ("", self._known)
            self._rows[Field.MAX].explain(self._known_words if is_known else "as typed")
        self._say_of(Field(str(event.input.id)))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Go on to the next field, behind the last one with all of them."""
        field = Field(str(event.input.id))
        wish, faults = self._read()
        if field in faults:
            self._say_of(field)
        elif field is not Field.REST:
            # The one behind it, not behind the focus: a second Enter may be on its way already.
            order = list(Field)
            self._rows[order[order.index(field) + 1]].field.focus()
        elif wish is None:
            first = next(iter(faults))
            self._rows[first].field.focus()
            self._say_of(first)
        else:
            self.dismiss(wish)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer to go on where a test is not over."""
        if action == "go_on":
            return self._open is not None
        return super().check_action(action, parameters)

    def action_field_up(self) -> None:
        """Go to the field above."""
        self.focus_previous()

    def action_field_down(self) -> None:
        """Go to the field below."""
        self.focus_next()

    def action_go_on(self) -> None:
        """Take the test that is not over."""
        _, faults = self._read()
        if Field.REST in faults:
            self._rows[Field.REST].field.focus()
            self._say_of(Field.REST)
        elif self._open is not None and self._history is not None:
            rest_ms = read_rest(self._rows[Field.REST].field.value)
            left = unanswered(self._open, self._history.sets)
            self.dismiss(Resumed(self._open, left, rest_ms))

    def action_leave(self) -> None:
        """Begin nothing."""
        self.dismiss(None)

    def _read_log(self) -> None:
        try:
            self.post_message(self.LogRead(self._coach.history()))
        except LogUnreadable as fault:
            self.post_message(self.LogFailed(fault))

    def _look_up(self) -> None:
        """Find the 1RM of the exercise and its test that is not over."""
        history, exercise = self._history, clean_name(self._rows[Field.EXERCISE].field.value)
        maxes = RecordedMaxes() if history is None else history.maxes
        best = max_to_test(LifterRecord(self._lifter, self._person, maxes), exercise)
        entry = self._rows[Field.MAX]
        is_own = entry.field.value != self._known
        self._known = "" if best is None else str(best.load)
        self._known_words = NOT_KNOWN if best is None else best.words
        if not is_own:
            entry.field.value = self._known
            entry.explain(self._known_words)
        self._open = None if history is None else self._open_test(history, exercise)
        self._goes_on.update(
            "" if self._open is None else f"{going_on_words(self._open)} F8 goes on with it."
        )
        self.refresh_bindings()

    def _open_test(self, history: History, exercise: str) -> ReserveTest | None:
        today = self._coach.clock.wall().date()
        return going_on(history.reserve_tests, self._lifter, exercise, today=today)

    def _last_open(self, history: History) -> str:
        """Return the exercise of the last test that is not over; empty where none is."""
        exercises = [one.begun.exercise for one in reversed(history.reserve_tests.tests)]
        return next((one for one in exercises if self._open_test(history, one)), "")

    def _read(self) -> tuple[ReserveWish | None, dict[Field, OutOfRange]]:
        typed = {field: row.field.value for field, row in self._rows.items()}
        return read_fields(typed, unit=LoadUnit(self._coach.settings.unit))

    def _say_of(self, field: Field) -> None:
        """Say what is wrong with a field that is typed into, else what all of them make."""
        wish, faults = self._read()
        words = "" if wish is None else loads_words(wish.span, self._coach.settings.rack)
        is_wrong = field in faults and self._rows[field].field.has_focus
        self._said.update(fault_sentence(faults[field]) if is_wrong else words)
        self._said.set_class(is_wrong, "fault")

    def _mark(self, widget: Widget, *, is_chosen: bool) -> None:
        for row in self._rows.values():
            if row.field is widget:
                row.mark(is_chosen=is_chosen)
