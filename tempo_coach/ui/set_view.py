"""What the set screen shows, from stage to stage."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Resize
from textual.geometry import Size
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.bar_picture import WIDEST_PICTURE
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.reading import headline
from tempo_coach.core.running_set import RunningSet
from tempo_coach.ui.bar_line import BarLine
from tempo_coach.ui.big_display import BigDisplay
from tempo_coach.ui.course import Course
from tempo_coach.ui.errands import Correction
from tempo_coach.ui.page import Page
from tempo_coach.ui.rest_watch import RestWatch
from tempo_coach.ui.sentences import (
    count_words,
    fault_sentence,
    next_words,
    opening_sentences,
    start_words,
    total_sentence,
)
from tempo_coach.ui.set_report import SetReport
from tempo_coach.ui.sign import DONE_SIGN, pacing_sign, ready_sign
from tempo_coach.ui.stage import Stage
from tempo_coach.ui.underway import Underway

_ROOMY = Size(WIDEST_PICTURE + 2, 40)
"""From here on the bar can be drawn without taking room that the big display needs."""
STRIKE_QUESTION = "F4 again strikes this set, Escape keeps it."


class SetView(Widget):
    """Holds heading, sentences, fields, the big display, and what comes next and goes on the bar.

    Parameters
    ----------
    course
        The work at its beginning.
    underway
        How a set is laid out in time, what is on the bar, and the settings.
    """

    def __init__(self, course: Course, underway: Underway) -> None:
        super().__init__()
        self._timeline = underway.coach.timeline(course.prescription)
        self._taps = underway.coach.settings.taps
        self._heading = Static(headline(course.prescription), classes="heading-text", markup=False)
        self._asks = False
        self._done: tuple[str, ...] = ()
        self._count = Static(classes="heading-count", markup=False)
        self._said = Static(markup=False)
        self._page = Page(self._said, id="said")
        self._opening = Content()
        self._next = Static(id="next", markup=False)
        self._bar = BarLine(underway)
        unit = LoadUnit(underway.coach.settings.unit)
        self.report = SetReport(course.prescription.load, unit)
        self.big = BigDisplay()

    def compose(self) -> ComposeResult:
        """Stack all of it."""
        with Horizontal(classes="heading"):
            yield self._heading
            yield self._count
        yield self._page
        yield self.report
        yield self.big
        yield self._next
        yield self._bar

    def on_resize(self, event: Resize) -> None:
        """Draw the bar where there is room."""
        columns, rows = event.size
        self.set_class(columns >= _ROOMY.width and rows >= _ROOMY.height, "roomy")

    def enter(self, stage: Stage, course: Course) -> None:
        """Make room for what a stage shows."""
        paces = stage in (Stage.STARTING, Stage.PACING, Stage.ENDING)
        self._count.update(count_words(course))
        self._page.display = self._next.display = not paces
        self.set_class(stage is Stage.WAITING, "waiting")
        self._asks = self.report.display = stage is Stage.SAVED and course.last is not None
        if stage is Stage.WAITING:
            self.big.show(ready_sign(self._timeline))
            self._announce(start_words(course.next_number, self._timeline.setup_ms))
        elif stage is Stage.SAVED:
            self._say_done(course)
        self._bar.show(None if paces else course.next_set)

    def say_opening(self, first: NextSet) -> None:
        """Say what speaks against the work, and what is to be done."""
        sentences = opening_sentences(first, self._timeline, self._taps)
        self._opening = _lines(*_warned(first.warnings), *sentences)
        self._said.update(self._opening)

    def warn(self, warnings: Iterable[str]) -> None:
        """Say before the first set what speaks against it besides."""
        self._said.update(_lines(*_warned(warnings), self._opening))

    def say_done(self, course: Course, *sentences: str) -> None:
        """Say what was done, once all sets are done what they come to, and what comes next."""
        totals = [total_sentence(course)] if course.is_finished else []
        self._done = (*sentences, *totals)
        self._say_done(course)

    def show_pacing(self, running: RunningSet, now_ms: int, course: Course) -> bool:
        """Show what is to be done now; returns whether the set is still going on."""
        sign = pacing_sign(running, now_ms, number=course.number)
        if sign is not None:
            self.big.show(sign)
        return sign is not None

    def show_rest(self, rest: RestWatch, now_ms: int, course: Course, *, asks_strike: bool) -> None:
        """Show where the rest is, and what comes next; once all is done, that it is."""
        ahead = course.next_set
        self.big.show(DONE_SIGN if ahead is None else rest.sign(now_ms))
        self._bar.show(ahead)
        if asks_strike:
            self._announce(STRIKE_QUESTION)
        elif ahead is None:
            self._announce("Space, Page Down or Escape goes back.")
        else:
            self._announce(next_words(ahead, rest_is_over=rest.is_over(now_ms)))

    def correction(self, course: Course) -> Correction | None:
        """Return what was changed of the set just done, where it is asked for."""
        if course.last is None or not self._asks:
            return None
        changes, _ = self.report.changes(course.last)
        return None if changes is None else (course.last, changes)

    def unread(self, course: Course) -> tuple[str, ...]:
        """Say which fields can't be read."""
        if course.last is None or not self._asks:
            return ()
        _, faults = self.report.changes(course.last)
        return tuple(f"Not changed. {fault_sentence(fault)}" for fault in faults)

    def _say_done(self, course: Course) -> None:
        self._said.update(_lines(*self._done, *_warned(course.warnings)))
        self._page.scroll_home(animate=False)

    def _announce(self, text: str) -> None:
        # Each update lays the screen out anew, and this is called many times a second.
        if text != self._next.content:
            self._next.update(text)


def _warned(warnings: Iterable[str]) -> Iterator[Content]:
    # Bold, so that where there is no colour they are not the quieter words.
    return (Content.styled(warning, "bold $warning") for warning in warnings)


def _lines(*sentences: str | Content) -> Content:
    return Content("\n").join([Content(one) if isinstance(one, str) else one for one in sentences])
