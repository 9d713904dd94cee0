"""The app: its screens, its keys, and who hands over to whom."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from textual.app import App
from textual.binding import BindingType
from textual.screen import Screen

from tempo_coach.ui.app_keys import APP_KEYS
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.cautions_screen import LONG_CHAPTERS, SHORT_CHAPTERS, CautionsScreen
from tempo_coach.ui.day_book import DayBook
from tempo_coach.ui.day_screen import DayScreen
from tempo_coach.ui.departure import Departure
from tempo_coach.ui.desk import Desk
from tempo_coach.ui.end_signals import leave_on_signals
from tempo_coach.ui.first_questions import FirstQuestions
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.keeping import Keeping
from tempo_coach.ui.lifters_screen import LiftersScreen
from tempo_coach.ui.name_screen import NameScreen
from tempo_coach.ui.preferences import Preferences, TomlValue
from tempo_coach.ui.prescription_field import PrescriptionField
from tempo_coach.ui.settings_screen import SettingsScreen
from tempo_coach.ui.sounds_screen import SoundsScreen
from tempo_coach.ui.theme import THEME
from tempo_coach.ui.underway import Underway
from tempo_coach.ui.way_to_rack import go_to_rack
from tempo_coach.ui.way_to_reserve import WayToReserve
from tempo_coach.ui.weeks_screen import WeeksScreen


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
    BINDINGS: ClassVar[list[BindingType]] = APP_KEYS

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._lifter = desk.lifter
        self._underway = Underway(desk.coach)
        self._keeping = Keeping(self, self._tell)
        self._preferences = Preferences(
            desk.coach, desk.sources, desk.given_outside, self._keep_setting
        )
        open_plan = desk.plan
        self._book = (
            None if open_plan is None else DayBook(self._underway, open_plan.source, open_plan.plan)
        )
        self._first_questions = FirstQuestions(
            self, desk, self._underway, self._preferences, self._keeping, self._book
        )
        self._board = BoardScreen(desk, self._book)
        self.register_theme(THEME)
        self.theme = THEME.name

    def get_default_screen(self) -> Screen[None]:
        """Return the board, which all else comes back to."""
        return self._board

    def on_mount(self) -> None:
        """Put before the board what must be read and answered first."""
        leave_on_signals(lambda code: self.exit(return_code=code))
        if self._desk.plan is not None and self._desk.plan.is_first:
            self._open_day(self._desk.notices)
        elif self._lifter is None:
            self._ask_lifter()
        if self._desk.show_cautions:
            keep = partial(self._keeping.keep, self._desk.keep_cautions_shown)
            self.push_screen(CautionsScreen(SHORT_CHAPTERS), lambda _: keep())

    def on_unmount(self) -> None:
        """Let no set run on, and make all silent."""
        self._underway.close()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Open other screens from the board and the day alone, so that nothing covers a set."""
        match action:
            case "cautions" | "lifter" | "settings" | "sounds" | "methods":
                return self.screen is self._board
            case "day":
                return self.screen is self._board and self._book is not None
            case "reserve":
                return self.screen is self._board and self._lifter is not None
            case "weeks" | "season":
                return self.screen is self._board or isinstance(self.screen, DayScreen)
        return super().check_action(action, parameters)

    def on_prescription_field_given(self, event: PrescriptionField.Given) -> None:
        """Go to the rack."""
        if self._lifter is not None:
            go_to_rack(self, self._underway, event.first, self._lifter, come_back=self._come_back)

    def on_rack_reached(self) -> None:
        """Ask about the sound before the first set of a day, and then how sore the lifter is."""
        if self._lifter is not None:
            self._first_questions.ask(self._lifter)

    def action_cautions(self) -> None:
        """Show the cautions in full."""
        self.push_screen(CautionsScreen(LONG_CHAPTERS))

    def action_lifter(self) -> None:
        """Ask who is lifting."""
        self._ask_lifter()

    def action_settings(self) -> None:
        """Show the settings."""
        self.push_screen(SettingsScreen(self._preferences), self._say_on_board)

    def action_sounds(self) -> None:
        """Show the sounds."""
        self.push_screen(SoundsScreen(self._underway, is_silent=self._desk.is_silent))

    def action_weeks(self) -> None:
        """Show the weeks."""
        if self._lifter is not None:
            plan = None if self._book is None else self._book.plan
            self.push_screen(WeeksScreen(self._desk.coach, self._lifter, plan))

    def action_day(self) -> None:
        """Show the day of the plan."""
        self._open_day(())

    def action_methods(self) -> None:
        """Show the methods."""
        self._board.show_methods()

    def action_reserve(self) -> None:
        """Test a reserve."""
        self._board.test_reserve(WayToReserve(self, self._underway, self._say_on_board))

    def action_season(self) -> None:
        """Show the season."""
        self._board.show_season()

    async def action_quit(self) -> None:
        """Leave."""
        self.exit(0)

    def action_how_to_quit(self) -> None:
        """Say which key quits, to those who expected this one to."""
        self._tell("Ctrl+Q quits.")

    def on_day_screen_lifter_chosen(self, event: DayScreen.LifterChosen) -> None:
        """Take in who lifts."""
        self._take_lifter(event.lifter)

    def _open_day(self, said: tuple[str, ...]) -> None:
        if self._book is None:
            return
        if self._book.is_of(self._lifter):
            self.push_screen(DayScreen(self._underway, self._book, self._lifter, said))
        else:
            self.push_screen(
                LiftersScreen(self._book.names, None), partial(self._open_day_of, said)
            )

    def _open_day_of(self, said: tuple[str, ...], lifter: str | None) -> None:
        if lifter is not None:
            self._take_lifter(lifter)
            self._open_day(said)
        elif self._lifter is None:
            self._ask_lifter()

    def _ask_lifter(self) -> None:
        self.push_screen(NameScreen(self._lifter), self._take_lifter)

    def _come_back(self, departure: Departure | None) -> None:
        self._say_on_board(departure.said if departure else ())

    def _say_on_board(self, sentences: tuple[str, ...] | None) -> None:
        self._board.tell(*(sentences or ()))

    def _take_lifter(self, lifter: str | None) -> None:
        if lifter is not None:
            self._lifter = lifter
            self._board.show_lifter(lifter)
            self._preferences.change("lifter", lifter)

    def _keep_setting(self, key: str, value: TomlValue) -> None:
        self._keeping.keep(partial(self._desk.keep_setting, key, value))

    def _tell(self, sentence: str) -> None:
        screen = self.screen if isinstance(self.screen, Frame) else self._board
        screen.tell(sentence)
