"""The weeks of the season: lowering emphasis done, how much may be, and what follows from it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from textual.binding import BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Resize
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.coach import Coach
from tempo_coach.core.legible import legible
from tempo_coach.core.lifter_advice import LifterAdvice
from tempo_coach.core.season_table import SeasonRow
from tempo_coach.core.season_words import trend_sentences
from tempo_coach.core.weeks import IsoWeek
from tempo_coach.errors import LogUnreadable
from tempo_coach.ui.bars import BAR
from tempo_coach.ui.choice_list import MARK_WIDTH, ChoiceList
from tempo_coach.ui.day_book import DayBook
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.page import Page
from tempo_coach.ui.proposal_screen import ProposalScreen
from tempo_coach.ui.readiness_screen import ReadinessScreen
from tempo_coach.ui.season_keys import SEASON_KEYS
from tempo_coach.ui.season_rows import (
    days_part,
    season_rows,
    week_heading,
    week_part,
    year_part,
)
from tempo_coach.ui.sentences import fault_sentence

PARTS = ("week", "days", "year", "trend")
NOTHING_DONE = "No sets yet, so there is no trend."
_TURNS = "[@click=screen.part_before]‹ [/][@click=screen.part_after]› [/]"
_WIDEST_PART = 100
_TALL_ROWS = 20


class SeasonScreen(Frame[str | None]):
    """Shows a lifter's season; goes away with a line for the board, or with None.

    Parameters
    ----------
    coach
        Whose log it is.
    lifter
        Whose season.
    book
        The plan that says what the season is, read again; None where none is open.
    exercise
        What is trained where the season was opened; empty where that is not said.
    """

    @dataclass
    class LogRead(Message):
        """The log was read, or can't be."""

        advice: LifterAdvice | None
        notices: tuple[str, ...]
        """What must be known, a sentence each."""

    AUTO_FOCUS = "ChoiceList"
    CSS_PATH = "season.tcss"
    BINDINGS: ClassVar[list[BindingType]] = SEASON_KEYS

    def __init__(self, coach: Coach, lifter: str, book: DayBook | None, exercise: str) -> None:
        super().__init__()
        self._coach = coach
        self._lifter = lifter
        self._book = book
        self._exercise = exercise
        self._today: date = coach.clock.wall().date()
        self._advice: LifterAdvice | None = None
        self._chosen = 0
        self._part = 0
        self._title = Static(classes="heading-text", markup=False)
        self._headings = Static(classes="headings", markup=False)
        self._list = ChoiceList()
        self._week = Static(classes="detail-heading", markup=False)
        self._parts = Static(classes="parts")
        self._told = Static(classes="told", markup=False)
        self._page = Page(self._week, self._told, classes="part")

    def content(self) -> Iterable[Widget]:
        """Return heading, bars, and what there is to know of the chosen week."""
        with Horizontal(classes="heading"):
            yield self._title
            yield Static(legible(self._lifter), classes="heading-count", markup=False)
        yield self._headings
        yield self._list
        yield self._parts
        yield self._page

    def on_mount(self) -> None:
        """Read plan and log."""
        self.run_worker(self._read, thread=True, group="season")

    def on_resize(self, event: Resize) -> None:
        """Draw for the new room."""
        self.set_class(event.size.height >= _TALL_ROWS, "tall")
        self.call_after_refresh(self._draw)

    def on_season_screen_log_read(self, event: LogRead) -> None:
        """Show what plan and log say, this week first."""
        self._advice = event.advice
        self._title.update(self._plan_words())
        self.tell(*event.notices)
        weeks = [row.week.week for row in self._rows]
        this = IsoWeek.of(self._today)
        if this in weeks:
            self._chosen = weeks.index(this)
        elif weeks:
            self._chosen = 0 if this < weeks[0] else len(weeks) - 1
        self._draw()

    def on_choice_list_chosen(self, event: ChoiceList.Chosen) -> None:
        """Show another week."""
        self._chosen = event.index
        self._draw_part()

    def action_week_before(self) -> None:
        """Choose the week before."""
        self._list.action_cursor_up()

    def action_week_after(self) -> None:
        """Choose the week after."""
        self._list.action_cursor_down()

    def action_part_before(self) -> None:
        """Show another part of what there is to know."""
        self._turn(-1)

    def action_part_after(self) -> None:
        """Show another part of what there is to know."""
        self._turn(1)

    def action_ready(self) -> None:
        """Show who is ready for what."""
        if self._advice is not None:
            self.app.push_screen(ReadinessScreen(self._advice, self._exercise))

    def action_next_week(self) -> None:
        """Show next week's proposal."""
        if self._advice is not None:
            allowances = self._coach.settings.allowances
            self.app.push_screen(ProposalScreen(self._advice, allowances), self._take)

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(None)

    @property
    def _rows(self) -> tuple[SeasonRow, ...]:
        return () if self._advice is None else self._advice.season.rows

    def _plan_words(self) -> str:
        if self._book is not None and self._book.is_of(self._lifter):
            return f"Season: {legible(self._book.plan.name)}"
        return "Season, from the log alone"

    def _turn(self, by: int) -> None:
        self._part = (self._part + by) % len(PARTS)
        self._page.scroll_home(animate=False)
        self._draw_part()

    def _take(self, line: str | None) -> None:
        if line is not None:
            self.dismiss(line)

    def _read(self) -> None:
        notices = () if self._book is None else self._book.read_plan()
        try:
            history = self._coach.history()
        except LogUnreadable as fault:
            self.post_message(self.LogRead(None, (*notices, fault_sentence(fault))))
            return
        advice = LifterAdvice.of(
            None if self._book is None else self._book.plan,
            self._lifter,
            sets=history.of(self._lifter),
            maxes=history.maxes,
            today=self._today,
            measured=history.measured,
        )
        self.post_message(self.LogRead(advice, notices))

    def _draw(self) -> None:
        # Two cells are the scroll bar's, with a gap before it.
        width = self._list.content_size.width - MARK_WIDTH - 2
        if width < 1 or self._advice is None:
            return
        headings, *rows = season_rows(self._advice.season, width=width)
        self._headings.update(" " * MARK_WIDTH + headings)
        bars = [Content(row).highlight_regex(BAR, style="$lower") for row in rows]
        self._list.show(bars, self._chosen)
        self._draw_part()

    def _draw_part(self) -> None:
        advice = self._advice
        if advice is None:
            return
        row, season = self._rows[self._chosen], advice.season
        names = [
            Content.styled(f" {name} ", "bold reverse" if place == self._part else "")
            for place, name in enumerate(PARTS)
        ]
        self._parts.update(Content.from_markup(_TURNS) + Content(" ").join(names))
        self._week.update(week_heading(row, self._today))
        width = min(max(self._page.content_size.width - 2, 20), _WIDEST_PART)
        match PARTS[self._part]:
            case "week":
                told: Iterable[str] = week_part(season, row)
            case "days":
                told = days_part(season, row, advice.sets, width=width)
            case "year":
                told = year_part(season, width=width)
            case _:
                told = tuple(trend_sentences(season)) or (NOTHING_DONE,)
        self._told.update("\n".join(told))
