"""A planned day: what is to be done, what was done, and the way to the rack."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Any, ClassVar

from textual.binding import BindingType
from textual.containers import Container, Horizontal
from textual.content import Content
from textual.events import Resize
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.legible import legible
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.next_sets import NextSet, sets_ahead
from tempo_coach.core.session import Session, SessionItem
from tempo_coach.core.session_facts import Change
from tempo_coach.ui.day_book import DayBook, DayReading
from tempo_coach.ui.day_detail import DayDetail
from tempo_coach.ui.day_keys import CHANGES, DAY_KEYS, TODAY_ALONE, TURNS
from tempo_coach.ui.day_questions import exercise_question, load_question, reason_question
from tempo_coach.ui.day_table import DayTable
from tempo_coach.ui.day_words import day_words, reach_words
from tempo_coach.ui.departure import Departure
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.lifters_screen import LiftersScreen
from tempo_coach.ui.underway import Underway
from tempo_coach.ui.way_to_rack import go_to_rack

NOTHING_PLANNED = "The plan has no day for this lifter."
WIDE_COLUMNS = 120
"""From here on the detail stands beside the table."""


class DayScreen(Frame[None]):
    """Shows a lifter's planned day and goes from set to set; goes away for the board.

    Parameters
    ----------
    underway
        What starts, ends and saves.
    book
        The planned days.
    lifter
        Whose; one of the plan's.
    said
        What is to be said at first, a sentence each.
    """

    @dataclass
    class LifterChosen(Message):
        """Another lifter of the plan was chosen."""

        lifter: str

    @dataclass
    class DayRead(Message):
        """A day was read or changed."""

        reading: DayReading

    AUTO_FOCUS = "ChoiceList"
    CSS_PATH = "day.tcss"
    BINDINGS: ClassVar[list[BindingType]] = DAY_KEYS

    def __init__(
        self, underway: Underway, book: DayBook, lifter: str, said: tuple[str, ...] = ()
    ) -> None:
        super().__init__()
        self._underway = underway
        self._book = book
        self._lifter = lifter
        self._said = said
        self._reading: DayReading | None = None
        self._on: date | None = None
        self._is_other_day = True
        self._chooses_next = True
        self._ahead: tuple[NextSet, ...] = ()
        self._title = Static(classes="heading-text", markup=False)
        self._who = Static(classes="heading-count", markup=False)
        self._table = DayTable()
        self._detail = DayDetail(underway.coach.settings)

    def content(self) -> Iterable[Widget]:
        """Return heading, table and detail, and the keys of today's changes."""
        with Horizontal(classes="heading"):
            yield self._title
            yield self._who
        with Container(classes="day"):
            yield self._table
            yield self._detail
        with Horizontal(classes="changes"):
            yield Static(TODAY_ALONE, classes="changes-heading")
            yield Static(CHANGES)

    def on_screen_resume(self) -> None:
        """Read plan and log again, since either may have changed meanwhile."""
        self._read()

    def on_resize(self, event: Resize) -> None:
        """Use the room that there is."""
        self.set_class(event.size.width >= WIDE_COLUMNS, "wide")

    def on_choice_list_chosen(self) -> None:
        """Show what there is to know of another row."""
        if self._session is not None:
            self._detail.show(self._session, self._table.chosen)

    def on_day_screen_day_read(self, event: DayRead) -> None:
        """Show the day, unless a later reading is shown already."""
        reading = event.reading
        if self._reading is None or reading.number > self._reading.number:
            self._reading = reading
            self._show(reading)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Allow going to the rack while something is left to do."""
        if action == "go_on":
            return self._session is not None and self._session.next_item is not None
        return super().check_action(action, parameters)

    def action_go_on(self) -> None:
        """Go to the rack with the chosen work, and from there on with what is left."""
        self.after_typing(self._begin)

    def action_choose_before(self) -> None:
        """Choose the row above."""
        self._table.choose_before()

    def action_day_before(self) -> None:
        """Show the planned day before."""
        self._turn(-1)

    def action_day_after(self) -> None:
        """Show the planned day after."""
        self._turn(1)

    def action_earlier(self) -> None:
        """Move the chosen item up in today's order."""
        self._move(-1)

    def action_later(self) -> None:
        """Move the chosen item down in today's order."""
        self._move(1)

    def action_add_set(self) -> None:
        """Do one set more of the chosen item."""
        item = self._table.chosen
        if item is not None:
            self._change(item, "added_set")

    def action_skip(self) -> None:
        """Skip the chosen item, or take it up after all."""
        item = self._table.chosen
        if item is None:
            return
        if item.skipped is not None:
            self._change(item, "swapped", exercise=item.prescription.exercise)
            return
        self.app.push_screen(
            reason_question(item), lambda why: self._change(item, "skipped", why=why)
        )

    def action_swap(self) -> None:
        """Do another exercise in place of the chosen one."""
        item = self._table.chosen
        if item is not None:
            self.app.push_screen(
                exercise_question(item),
                lambda exercise: self._change(item, "swapped", exercise=exercise),
            )

    def action_change_load(self) -> None:
        """Take another load for the chosen item."""
        item = self._table.chosen
        if item is not None:
            self.app.push_screen(
                load_question(item, LoadUnit(self._book.plan.unit)),
                lambda load: self._change(item, "load_changed", load=load),
            )

    def action_lifter(self) -> None:
        """Choose another lifter of the plan."""
        self.app.push_screen(LiftersScreen(self._book.names, self._lifter), self._take_lifter)

    def action_board(self) -> None:
        """Go to the board."""
        self.dismiss(None)

    @property
    def at_hand(self) -> tuple[str, str]:
        """Whose day it is, and the chosen row's exercise; empty where that is the whole day."""
        item = self._table.chosen
        return self._lifter, "" if item is None else item.prescription.exercise

    @property
    def _session(self) -> Session | None:
        return None if self._reading is None else self._reading.session

    def _show(self, reading: DayReading) -> None:
        session = reading.session
        self._who.update(legible(self._lifter))
        if session is None:
            self._title.update(legible(reading.plan.name))
            self.tell(*self._said, *reading.notices, NOTHING_PLANNED)
            return
        self._on = session.day.date
        chosen = self._choice(session)
        words = day_words(reading.plan, session.day, reading.today)
        self._title.update(Content.from_markup(TURNS) + Content(words))
        self._table.show(session, chosen)
        self._detail.show(session, chosen)
        self.tell(*self._said, *reading.notices, *reach_words(session, reading.today))
        self.refresh_bindings()

    def _choice(self, session: Session) -> SessionItem | None:
        """Return what is to be chosen: what was, or where that is done the next item."""
        before = None if self._is_other_day else self._table.chosen
        chosen = next((i for i in session.items if before and i.item == before.item), None)
        if self._chooses_next and (chosen is None or chosen.next_set is None):
            chosen = session.next_item
        self._is_other_day = self._chooses_next = False
        return chosen

    def _begin(self) -> None:
        if self._session is not None:
            chosen = self._table.chosen
            self._ahead = sets_ahead(self._session, first=None if chosen is None else chosen.item)
            self._go_on(starts_at_once=False)

    def _go_on(self, *, starts_at_once: bool) -> None:
        if self._session is None or not self._ahead:
            return
        first, *later = self._ahead
        go_to_rack(
            self.app,
            self._underway,
            first,
            self._session.lifter,
            then=later[0] if later else None,
            said=self._said,
            starts_at_once=starts_at_once,
            come_back=self._come_back,
        )

    def _come_back(self, departure: Departure | None) -> None:
        self._said = () if departure is None else departure.said
        self._chooses_next = True
        if departure is not None and departure.goes_on:
            self._ahead = tuple(one.after(departure.done) for one in self._ahead[1:])
            self._go_on(starts_at_once=True)
        else:
            self.tell(*self._said)

    def _take_lifter(self, lifter: str | None) -> None:
        if lifter is not None:
            self._lifter = lifter
            self.post_message(self.LifterChosen(lifter))
            self._turn_to(None)

    def _turn(self, by: int) -> None:
        reading = self._reading
        if reading is not None and self._on in reading.days:
            place = reading.days.index(self._on) + by
            if 0 <= place < len(reading.days):
                self._turn_to(reading.days[place])

    def _turn_to(self, day: date | None) -> None:
        self._on, self._said = day, ()
        self._is_other_day = self._chooses_next = True
        self._read()

    def _move(self, by: int) -> None:
        item = self._table.chosen
        if item is not None:
            self._run(partial(self._book.move, item.item, by))

    def _read(self) -> None:
        self._run(partial(self._book.read, self._lifter, self._on))

    def _change(self, item: SessionItem, change: Change, **needed: Any) -> None:
        # None is the answer to a question that was left.
        if None not in needed.values():
            self._said = ()
            self._run(partial(self._book.change, item.item, change, **needed))

    def _run(self, step: Callable[[], DayReading | None]) -> None:
        self.run_worker(partial(self._answer, step), thread=True, group="day")

    def _answer(self, step: Callable[[], DayReading | None]) -> None:
        reading = step()
        if reading is not None:
            self.post_message(self.DayRead(reading))
