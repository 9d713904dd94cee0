"""What the screen of a reserve test shows, from stage to stage."""

from __future__ import annotations

import re
from collections.abc import Iterable
from contextlib import suppress
from decimal import Decimal

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Resize
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.bar_picture import WIDEST_PICTURE
from tempo_coach.core.cautions import SHORT
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible, quoted
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.reserve_facts import ReserveBegun
from tempo_coach.core.reserve_result import result_rows
from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.bar_line import BarLine
from tempo_coach.ui.big_display import BigDisplay
from tempo_coach.ui.line_input import LineInput
from tempo_coach.ui.page import Page
from tempo_coach.ui.reserve_signs import ahead_sign, asked_sign, between_sign, result_sign
from tempo_coach.ui.reserve_stage import Question, ReserveStage
from tempo_coach.ui.reserve_words import ahead_sentence, question_sentence
from tempo_coach.ui.rest_watch import RestWatch
from tempo_coach.ui.underway import Underway

_ROOMY = (WIDEST_PICTURE + 2, 40)
"""Columns and rows from which the bar can be drawn, and the result be shown large, too."""
_LONGEST_MEASURED_S = 120
_NUMBER = re.compile(r"[0-9]{1,3}(?:[.,][0-9]{1,3})?")


class SecondsInput(LineInput):
    """The field for what somebody measured; all but figures go to the screen."""

    def __init__(self) -> None:
        super().__init__(restrict=r"[0-9.,]*", max_length=7)

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Take figures alone, so that letters are answers and a space confirms."""
        is_figure = character is not None and character in "0123456789.,"
        is_letter = character is not None and not is_figure
        return not is_letter and super().check_consume_key(key, character)


class ReserveView(Widget):
    """Holds heading, sentences, the big display, the seconds, the bar, and the result.

    Parameters
    ----------
    underway
        What is on the bar, and the settings.
    begun
        What the test is.
    """

    def __init__(self, underway: Underway, begun: ReserveBegun) -> None:
        super().__init__()
        self._lower_s = begun.lower_s
        self._setup_ms = underway.coach.settings.setup_ms
        self._heading = Static(_heading(begun), classes="heading-text", markup=False)
        self._count = Static(classes="heading-count", markup=False)
        self._said = Static(markup=False)
        self._said_page = Page(self._said, id="said")
        self._next = Static(id="next", markup=False)
        self._bar = BarLine(underway)
        self._result = Static(classes="prose")
        self._measured = Horizontal(classes="measured")
        self.page = Page(self._result)
        self.seconds = SecondsInput()
        self.big = BigDisplay()

    def compose(self) -> ComposeResult:
        """Stack all of it."""
        with Horizontal(classes="heading"):
            yield self._heading
            yield self._count
        yield self._said_page
        yield self.big
        with self._measured:
            yield Static("Measured seconds, if any:", classes="measured-label")
            yield self.seconds
        yield self._next
        yield self._bar
        yield self.page

    def on_resize(self, event: Resize) -> None:
        """Draw more where there is room."""
        columns, rows = event.size
        self.set_class(columns >= _ROOMY[0] and rows >= _ROOMY[1], "roomy")

    def enter(self, stage: ReserveStage, count: str, *, measures: bool) -> None:
        """Make room for what a stage shows.

        Parameters
        ----------
        stage
            Which one.
        count
            Which attempt is at hand.
        measures
            Seconds can be typed.
        """
        is_over = stage is ReserveStage.OVER
        self._count.update("result" if is_over else count)
        self.set_class(is_over, "over")
        self._measured.display = measures
        self._said_page.display = self._next.display = not is_over
        self.page.display = is_over
        if stage is not ReserveStage.AHEAD:
            self._bar.show(None)

    def say(self, *sentences: str) -> None:
        """Say something instead of what was said before."""
        self._said.update("\n".join(map(legible, sentences)))

    def show_ahead(
        self,
        test: ReserveTest,
        ahead: NextSet,
        load_kg: Decimal,
        rest: RestWatch | None,
        now_ms: int,
    ) -> None:
        """Show the next attempt, what goes on the bar for it, and where the rest before it is."""
        rests = rest is not None and not rest.is_over(now_ms)
        if rest is not None and rests and test.attempts:
            held = test.attempts[-1].held
            self.big.show(between_sign(rest.sign(now_ms), load_kg, held=held))
        else:
            self.big.show(ahead_sign(load_kg))
        self._announce(ahead_sentence(test, load_kg, setup_ms=self._setup_ms, rests=rests))
        self._bar.show(ahead)

    def show_question(self, question: Question) -> None:
        """Show what is asked of an attempt, and what would be logged."""
        lowered_s, lower_s = self._readable_s(), self._lower_s
        held = question.counts(lowered_s=lowered_s, lower_s=lower_s)
        self.big.show(asked_sign(question.load_kg, held=held))
        self._announce(question_sentence(question, lowered_s=lowered_s, lower_s=lower_s))

    def fill_seconds(self, done: SetDone | None) -> None:
        """Fill in what the taps of an attempt say of its lower; empty it where none do."""
        is_measured = done is not None and done.timing != "paced"
        self.seconds.value = f"{done.seconds.lower:g}" if done is not None and is_measured else ""

    def measured_s(self) -> float | None:
        """Return the seconds that are typed; None where nothing is.

        Raises
        ------
        OutOfRange
            The text is no number of seconds that a lower can take.
        """
        return _seconds(self.seconds.value)

    def show_result(self, test: ReserveTest) -> None:
        """Show what the test says, and what to watch for in the days after."""
        self.big.show(result_sign(test))
        rows = [*_contents(result_rows(test)), Content(), Content(SHORT[2])]
        self._result.update(Content("\n").join(rows))
        self.page.scroll_home(animate=False)

    def _readable_s(self) -> float | None:
        with suppress(OutOfRange):
            return self.measured_s()
        return None

    def _announce(self, words: str) -> None:
        # Each update lays the screen out anew, and this is called several times a second.
        if words != self._next.content:
            self._next.update(words)


def _heading(begun: ReserveBegun) -> str:
    of = f"Reserve test: {legible(begun.exercise)}, 1RM {begun.max_kg:g} kg"
    return f"{of}, lowered in {begun.lower_s:g} s"


def _seconds(text: str) -> float | None:
    if not text:
        return None
    if _NUMBER.fullmatch(text):
        seconds = float(text.replace(",", "."))
        if seconds <= _LONGEST_MEASURED_S:
            return seconds
    raise OutOfRange(
        f"{quoted(text)} is no length of a lower",
        hint=f"0 to {_LONGEST_MEASURED_S} s, such as 4.8, or nothing",
    )


def _contents(rows: Iterable[tuple[str, str]]) -> Iterable[Content]:
    for label, words in rows:
        yield Content.styled(f"{label}: ", "bold") + Content(legible(words))
