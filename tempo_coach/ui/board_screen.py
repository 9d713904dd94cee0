"""Where the work is written down before it is done."""

from __future__ import annotations

from collections.abc import Iterable

from textual.containers import Horizontal
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.legible import legible
from tempo_coach.core.prescription import exercise_on
from tempo_coach.ui.day_book import DayBook
from tempo_coach.ui.day_screen import DayScreen
from tempo_coach.ui.desk import Desk
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.known_lifter import KnownLifter
from tempo_coach.ui.methods_screen import MethodsScreen
from tempo_coach.ui.prescription_field import PrescriptionField
from tempo_coach.ui.season_screen import SeasonScreen
from tempo_coach.ui.sentences import fault_sentence
from tempo_coach.ui.way_to_reserve import WayToReserve
from tempo_coach.ui.week_line import WeekLine


class BoardScreen(Frame[None]):
    """Holds the prescription and its reading, and what the lifter's week has come to.

    Parameters
    ----------
    desk
        The coach, and the line to begin with.
    book
        The plan that is open; None where none is.
    """

    AUTO_FOCUS = "PrescriptionInput"

    def __init__(self, desk: Desk, book: DayBook | None) -> None:
        super().__init__()
        self._desk = desk
        self._book = book
        self._lifter = KnownLifter(desk.coach, book, desk.lifter)
        self._who = Static(legible(desk.lifter or ""), classes="heading-count", markup=False)
        self._field = PrescriptionField(desk.coach, desk.line, self._lifter)
        self._week = WeekLine(desk.coach)
        self._has_told_of_log = False

    def content(self) -> Iterable[Widget]:
        """Return heading, field and week."""
        with Horizontal(classes="heading"):
            yield Static("What is to be done?", classes="heading-text")
            yield self._who
        yield self._field
        yield self._week

    def on_mount(self) -> None:
        """Say what went wrong before."""
        self.tell(*self._desk.notices)

    def on_screen_resume(self) -> None:
        """Read again what settings and log may have changed meanwhile."""
        self._field.read_again()
        self._week.read(self._lifter.name)

    def on_week_line_summed(self, event: WeekLine.Summed) -> None:
        """Read the line by what the log holds now, and be ready to tell of the log anew."""
        self._has_told_of_log = False
        self._lifter.history = event.history
        self._field.read_again()

    def on_week_line_unreadable(self, event: WeekLine.Unreadable) -> None:
        """Say once that the log can't be read."""
        if not self._has_told_of_log:
            self._has_told_of_log = True
            self.tell_also(fault_sentence(event.fault))

    def show_lifter(self, lifter: str) -> None:
        """Name the lifter in the heading, and sum up the week anew."""
        self._lifter.name = lifter
        self._who.update(legible(lifter))
        self._week.read(lifter)

    def show_methods(self) -> None:
        """Show the methods, and write the line that is chosen there."""
        screen = MethodsScreen(
            self._lifter,
            exercise_on(self._field.line),
            allowances=self._desk.coach.settings.allowances,
        )
        self.app.push_screen(screen, self._write)

    def test_reserve(self, way: WayToReserve) -> None:
        """Test a reserve in the exercise that stands in the line."""
        if self._lifter.name is not None:
            way.go(self._lifter.name, self._lifter.person, exercise_on(self._field.line))

    def show_season(self) -> None:
        """Show the season by what is at hand, and write the line that is taken there."""
        lifter, exercise = self._lifter.name, exercise_on(self._field.line)
        above = self.app.screen
        if isinstance(above, DayScreen):
            lifter, exercise = above.at_hand
        if lifter is not None:
            screen = SeasonScreen(self._desk.coach, lifter, self._book, exercise)
            self.app.push_screen(screen, self._take)

    def _take(self, line: str | None) -> None:
        if line is not None:
            self._write(line)
            # The season may have been opened from the day, which lies over the board.
            if self.app.screen is not self:
                self.app.pop_screen()

    def _write(self, line: str | None) -> None:
        if line is not None:
            self._field.write(line)
