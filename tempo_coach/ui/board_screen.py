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


class BoardScreen(Frame[None]):
    """Holds the prescription and its reading.

    Parameters
    ----------
    desk
        The coach, and the line to begin with.
    """

    AUTO_FOCUS = "PrescriptionInput"

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._who = Static(legible(desk.lifter or ""), classes="heading-count", markup=False)

    def content(self) -> Iterable[Widget]:
        """Return heading and field."""
        with Horizontal(classes="heading"):
            yield Static("What is to be done?", classes="heading-text")
            yield self._who
        with VerticalScroll(can_focus=False, classes="board"):
            yield PrescriptionField(self._desk.coach, self._desk.line)

    def on_mount(self) -> None:
        """Say what went wrong before."""
        self.tell(*self._desk.notices)

    def show_lifter(self, lifter: str) -> None:
        """Name the lifter in the heading."""
        self._who.update(legible(lifter))
