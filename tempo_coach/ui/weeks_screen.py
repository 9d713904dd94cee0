"""The last twelve weeks of lowering, side by side."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
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
from tempo_coach.core.amounts import measured
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_sums import PlannedTotals
from tempo_coach.core.season import Season, season_of
from tempo_coach.core.season_words import standing_words
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.week_chart import WEEKS, ChartWeek, exercises_of, planned_in, week_chart
from tempo_coach.core.weeks import IsoWeek
from tempo_coach.errors import LogUnreadable, OutOfRange
from tempo_coach.ui.bars import BAR
from tempo_coach.ui.choice_list import MARK_WIDTH, ChoiceList
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.page import Page
from tempo_coach.ui.sentences import fault_sentence
from tempo_coach.ui.weeks_keys import WEEKS_KEYS
from tempo_coach.ui.weeks_words import (
    ALL_EXERCISES,
    chart_rows,
    notes,
    planned_words,
    sum_rows,
    week_words,
)

NO_SETS = "No sets yet: each set that is done here adds to its week."
_WIDEST_SUMS = 96
_TALL_ROWS = 28
_TURNS = "[@click=screen.exercise_before]‹ [/][@click=screen.exercise_after]› [/]"


class WeeksScreen(Frame[None]):
    """Shows lowering seconds week by week, of all exercises or of one.

    Parameters
    ----------
    coach
        Whose log it is.
    lifter
        Whose weeks.
    plan
        What was planned; None where no plan is open.
    """

    @dataclass
    class LogRead(Message):
        """The log was read, or can't be."""

        sets: tuple[SetDone, ...]
        measured: Mapping[str, SetMeasured]
        fault: LogUnreadable | None

    AUTO_FOCUS = "ChoiceList"
    CSS_PATH = "weeks.tcss"
    BINDINGS: ClassVar[list[BindingType]] = WEEKS_KEYS

    def __init__(self, coach: Coach, lifter: str, plan: Plan | None) -> None:
        super().__init__()
        self._coach = coach
        self._lifter = lifter
        self._plan = plan
        self._season: Season | None = None
        self._today: date = coach.clock.wall().date()
        self._sets: tuple[SetDone, ...] = ()
        self._measured: Mapping[str, SetMeasured] = NONE_MEASURED
        self._exercises: tuple[str | None, ...] = (None,)
        self._exercise: str | None = None
        self._chart: tuple[ChartWeek, ...] = ()
        self._chosen = WEEKS - 1
        self._title = Static(classes="heading-text", markup=False)
        self._headings = Static(classes="headings", markup=False)
        self._list = ChoiceList()
        self._week = Static(classes="detail-heading", markup=False)
        self._sums = Static(classes="sums", markup=False)
        self._planned = Static(classes="planned", markup=False)
        self._notes = Static(classes="week-notes", markup=False)

    def content(self) -> Iterable[Widget]:
        """Return heading, bars, and the chosen week's sums."""
        with Horizontal(classes="heading"):
            yield self._title
            yield Static(legible(self._lifter), classes="heading-count", markup=False)
        yield self._headings
        yield self._list
        with Page(classes="week"):
            yield self._week
            yield self._sums
            yield self._planned
            yield self._notes

    def on_mount(self) -> None:
        """Read the log."""
        self.run_worker(self._read, thread=True, group="weeks")

    def on_resize(self, event: Resize) -> None:
        """Draw for the new room."""
        self.set_class(event.size.height >= _TALL_ROWS, "tall")
        self.call_after_refresh(self._draw)

    def on_weeks_screen_log_read(self, event: LogRead) -> None:
        """Show what the log holds."""
        self._sets, self._measured = event.sets, event.measured
        self._exercises = (None, *exercises_of(event.sets))
        if self._plan is not None and self._plan.has(self._lifter):
            self._season = season_of(self._plan, self._lifter, sets=event.sets, today=self._today)
        if event.fault is not None:
            self.tell(fault_sentence(event.fault))
        elif not event.sets:
            self.tell(NO_SETS)
        self._count()

    def on_choice_list_chosen(self, event: ChoiceList.Chosen) -> None:
        """Show another week."""
        self._chosen = event.index
        self._draw()

    def action_exercise_before(self) -> None:
        """Count another exercise alone."""
        self._turn(-1)

    def action_exercise_after(self) -> None:
        """Count another exercise alone."""
        self._turn(1)

    def action_week_before(self) -> None:
        """Choose the week before."""
        self._list.action_cursor_up()

    def action_week_after(self) -> None:
        """Choose the week after."""
        self._list.action_cursor_down()

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(None)

    def _turn(self, by: int) -> None:
        place = self._exercises.index(self._exercise) + by
        self._exercise = self._exercises[place % len(self._exercises)]
        self._count()

    def _read(self) -> None:
        try:
            history = self._coach.history()
        except LogUnreadable as fault:
            self.post_message(self.LogRead((), NONE_MEASURED, fault))
        else:
            sets = history.of(self._lifter)
            self.post_message(self.LogRead(sets, history.measured, None))

    def _count(self) -> None:
        self._chart = week_chart(
            self._sets,
            through=IsoWeek.of(self._today),
            exercise=self._exercise,
            measured=self._measured,
        )
        self._draw()

    def _draw(self) -> None:
        # Two cells are the scroll bar's, with a gap before it.
        width = self._list.content_size.width - MARK_WIDTH - 2
        if width < 1 or not self._chart:
            return
        name = ALL_EXERCISES if self._exercise is None else legible(self._exercise)
        self._title.update(
            Content.from_markup(_TURNS) + Content(f"Lowering in {WEEKS} weeks · {name}")
        )
        headings, *rows = chart_rows(self._chart, today=self._today, width=width)
        self._headings.update(" " * MARK_WIDTH + headings)
        bars = [Content(row).highlight_regex(BAR, style="$lower") for row in rows]
        self._list.show(bars, self._chosen)
        self._draw_week(self._chart[self._chosen], width)

    def _draw_week(self, week: ChartWeek, width: int) -> None:
        planned = self._planned_in(week.week)
        self._week.update(week_words(week, self._today))
        rows = sum_rows(week, width=min(width - 3, _WIDEST_SUMS)) if week.exercises else ()
        self._sums.update("\n".join(rows) or "Nothing was done.")
        self._planned.display = planned is not None
        self._planned.update("" if planned is None else planned_words(week, planned))
        season = () if self._season is None else standing_words(self._season, week.week)
        shares = (measured(week.total),) if week.total.sets else ()
        self._notes.update("\n".join((*season, *shares, *notes(self._chart, planned))))

    def _planned_in(self, week: IsoWeek) -> PlannedTotals | None:
        if self._plan is None:
            return None
        try:
            return planned_in(
                self._plan,
                week,
                lifter=self._lifter,
                exercise=self._exercise,
                allowances=self._coach.settings.allowances,
            )
        except OutOfRange:
            # Whoever is no lifter of the plan has nothing planned.
            return None
