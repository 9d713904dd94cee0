"""The check of spotters and pins, which has to be answered before a reserve test."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.cautions import RESERVE_CHECK, SHORT
from tempo_coach.core.overload import NOT_SAID
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.reserve_errands import ReserveErrands, Step, StepTaken
from tempo_coach.ui.set_keys import Presses
from tempo_coach.ui.underway import Underway

QUESTION = "Is all of that so? Y begins the test, N or Escape leaves it."


class PinsScreen(Frame[StepTaken | None]):
    """Begins a test after a yes and goes away with what came of it, or with None.

    Parameters
    ----------
    underway
        What begins it.
    begin
        Begins the test, or takes up one that was left.
    is_cleared
        The coach's word on the lifter; None where nobody has said it.
    """

    # With priority, because a scrolling container takes the page keys for itself.
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "y",
            "begin",
            "All of that is so",
            key_display="Y",
            id="pins.begin",
            tooltip="Spotters or pins are there and tried: begin the test",
        ),
        Binding(
            "n,escape",
            "leave",
            "Leave",
            key_display="N/Esc",
            id="pins.leave",
            tooltip="Back to the board; no test is begun",
        ),
        Binding(
            "pagedown",
            "read_on",
            "Read on",
            key_display="PgDn",
            priority=True,
            id="pins.read_on",
            tooltip="A page further; the check is answered once all of it was shown",
        ),
        Binding(
            "pageup",
            "read_back",
            "Back",
            key_display="PgUp",
            priority=True,
            id="pins.read_back",
            tooltip="A page back",
        ),
    ]

    def __init__(self, underway: Underway, begin: Step, *, is_cleared: bool | None) -> None:
        super().__init__()
        self._errands = ReserveErrands(self, underway)
        self._clock = underway.coach.clock
        self._begin = begin
        self._is_cleared = is_cleared
        self._presses = Presses()
        self._has_begun = False
        self._is_read = False

    def content(self) -> Iterable[Widget]:
        """Return the check and the question."""
        unsaid = () if self._is_cleared else (NOT_SAID,)
        texts = (*SHORT[:3], *unsaid, RESERVE_CHECK)
        paragraphs = [*map(Content, texts), Content.styled(QUESTION, "bold")]
        yield VerticalScroll(
            Static(Content("\n\n").join(paragraphs), classes="prose"),
            can_focus=False,
            classes="check",
        )

    def on_mount(self) -> None:
        """Be deaf for a moment to the key that led here."""
        self._presses.begin(self._clock.now_ms())
        self.watch(self.query_one(VerticalScroll), "scroll_y", self._look_at_end, init=False)

    def on_resize(self, _: Resize) -> None:
        """See whether all of it has room."""
        # Only then is it laid out.
        self.call_after_refresh(self._look_at_end)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Take the answer only once the end of the check was shown."""
        if action == "begin":
            return self._is_read
        if action == "read_on":
            return not self._is_read
        if action == "read_back":
            return self.query_one(VerticalScroll).max_scroll_y > 0
        return super().check_action(action, parameters)

    def on_step_taken(self, event: StepTaken) -> None:
        """Go on to the first attempt."""
        self.dismiss(event)

    def action_begin(self) -> None:
        """Begin the test, once."""
        if not self._has_begun and self._presses.is_meant(self._clock.now_ms()):
            self._has_begun = True
            self._errands.take(self._begin)

    def action_leave(self) -> None:
        """Begin nothing."""
        if not self._has_begun:
            self.dismiss(None)

    def action_read_on(self) -> None:
        """Turn the page."""
        self.query_one(VerticalScroll).scroll_page_down(animate=False)

    def action_read_back(self) -> None:
        """Turn the page back."""
        self.query_one(VerticalScroll).scroll_page_up(animate=False)

    def _look_at_end(self) -> None:
        page = self.query_one(VerticalScroll)
        if not self._is_read and page.size.height and page.scroll_offset.y >= page.max_scroll_y:
            self._is_read = True
        self.refresh_bindings()
