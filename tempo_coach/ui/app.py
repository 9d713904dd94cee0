"""The app: its screens, its keys, and who hands over to whom."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import ClassVar

from textual.app import App
from textual.binding import Binding, BindingType
from textual.screen import Screen

from tempo_coach.core.next_sets import NextSet
from tempo_coach.errors import TempoCoachError
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.cautions_screen import LONG_CHAPTERS, SHORT_CHAPTERS, CautionsScreen
from tempo_coach.ui.departure import Departure
from tempo_coach.ui.desk import Desk
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.name_screen import NameScreen
from tempo_coach.ui.prescription_field import PrescriptionField
from tempo_coach.ui.sentences import fault_sentence
from tempo_coach.ui.set_screen import SetScreen
from tempo_coach.ui.theme import THEME
from tempo_coach.ui.underway import Underway


class TempoCoachApp(App[int], inherit_bindings=False):
    """Paces sets on the screen; its result is 0.

    Parameters
    ----------
    desk
        The coach, and what was remembered from last time.
    """

    TITLE = "tempo-coach"
    CSS_PATH = "look.tcss"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "f1",
            "cautions",
            "Cautions",
            key_display="F1",
            id="app.cautions",
            tooltip="Read in full what to beware of",
        ),
        Binding(
            "f2",
            "lifter",
            "Lifter",
            key_display="F2",
            id="app.lifter",
            tooltip="Say who is lifting",
        ),
        Binding(
            "ctrl+q",
            "quit",
            "Quit",
            key_display="Ctrl+Q",
            priority=True,
            id="app.quit",
            tooltip="Leave; a set that is running is stopped and logged first",
        ),
        Binding(
            "ctrl+c",
            "how_to_quit",
            "How to quit",
            show=False,
            id="app.how_to_quit",
            tooltip="Copies what is selected, and otherwise says which key quits",
        ),
    ]

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._lifter = desk.lifter
        self._underway = Underway(desk.coach)
        self._board = BoardScreen(desk)
        self.register_theme(THEME)
        self.theme = THEME.name

    def get_default_screen(self) -> Screen[None]:
        """Return the board, which all else comes back to."""
        return self._board

    def on_mount(self) -> None:
        """Put before the board what must be read and answered first."""
        if self._lifter is None:
            self.push_screen(NameScreen(None), self._take_lifter)
        if self._desk.show_cautions:
            self.push_screen(CautionsScreen(SHORT_CHAPTERS), self._keep_cautions_shown)

    def on_unmount(self) -> None:
        """Let no set run on, and make all silent."""
        self._underway.close()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Open other screens from the board alone, so that nothing covers a set."""
        if action in ("cautions", "lifter"):
            return self.screen is self._board
        return super().check_action(action, parameters)

    def on_prescription_field_given(self, event: PrescriptionField.Given) -> None:
        """Go to the rack."""
        if self._lifter is not None:
            screen = SetScreen(self._underway, NextSet(event.prescription), self._lifter)
            self.push_screen(screen, self._come_back)

    def action_cautions(self) -> None:
        """Show the cautions in full."""
        self.push_screen(CautionsScreen(LONG_CHAPTERS))

    def action_lifter(self) -> None:
        """Ask who is lifting."""
        self.push_screen(NameScreen(self._lifter), self._take_lifter)

    async def action_quit(self) -> None:
        """Leave."""
        self.exit(0)

    def action_how_to_quit(self) -> None:
        """Say which key quits, to those who expected this one to."""
        if isinstance(self.screen, Frame):
            self.screen.tell("Ctrl+Q quits.")

    def _come_back(self, departure: Departure | None) -> None:
        self._board.tell(*(departure.said if departure else ()))

    def _take_lifter(self, lifter: str | None) -> None:
        if lifter is not None:
            self._lifter = lifter
            self._board.show_lifter(lifter)
            self._keep(partial(self._desk.keep_lifter, lifter))

    def _keep_cautions_shown(self, _: None) -> None:
        self._keep(self._desk.keep_cautions_shown)

    def _keep(self, write: Callable[[], None]) -> None:
        self.run_worker(partial(self._try, write), thread=True, group="keep")

    def _try(self, write: Callable[[], None]) -> None:
        try:
            write()
        except TempoCoachError as fault:
            self.call_from_thread(
                self._board.tell, f"This will not be remembered. {fault_sentence(fault)}"
            )
