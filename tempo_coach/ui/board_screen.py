"""Where the work is written down before it is done."""

from __future__ import annotations

from collections.abc import Iterable

from textual.containers import Horizontal, VerticalScroll
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.legible import legible
from tempo_coach.ui.desk import Desk
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.prescription_field import PrescriptionField
from tempo_coach.ui.sentences import fault_sentence
from tempo_coach.ui.week_line import WeekLine


class BoardScreen(Frame[None]):
    """Holds the prescription and its reading, and what the lifter's week has come to.

    Parameters
    ----------
    desk
        The coach, and the line to begin with.
    """

    AUTO_FOCUS = "PrescriptionInput"

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._lifter = desk.lifter
        self._who = Static(legible(desk.lifter or ""), classes="heading-count", markup=False)
        self._field = PrescriptionField(desk.coach, desk.line)
        self._week = WeekLine(desk.coach)
        self._has_told_of_log = False

    def content(self) -> Iterable[Widget]:
        """Return heading, field and week."""
        with Horizontal(classes="heading"):
            yield Static("What is to be done?", classes="heading-text")
            yield self._who
        with VerticalScroll(can_focus=False, classes="board"):
            yield self._field
        yield self._week

    def on_mount(self) -> None:
        """Say what went wrong before."""
        self.tell(*self._desk.notices)

    def on_screen_resume(self) -> None:
        """Read again what settings and log may have changed meanwhile."""
        self._field.read_again()
        self._week.read(self._lifter)

    def on_week_line_summed(self) -> None:
        """Be ready to tell of the log anew."""
        self._has_told_of_log = False

    def on_week_line_unreadable(self, event: WeekLine.Unreadable) -> None:
        """Say once that the log can't be read."""
        if not self._has_told_of_log:
            self._has_told_of_log = True
            self.tell_also(fault_sentence(event.fault))

    def show_lifter(self, lifter: str) -> None:
        """Name the lifter in the heading, and sum up the week anew."""
        self._lifter = lifter
        self._who.update(legible(lifter))
        self._week.read(lifter)
