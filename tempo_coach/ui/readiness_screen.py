"""Whether overloaded and fast lowering could begin, exercise by exercise."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.cautions import CRITERIA
from tempo_coach.core.legible import legible, name_key
from tempo_coach.core.lifter_advice import LifterAdvice
from tempo_coach.core.readiness import Readiness
from tempo_coach.ui.choice_list import ChoiceList
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.page import Page

NO_EXERCISES = "Neither log nor plan names an exercise of this lifter yet."


class ReadinessScreen(Frame[None]):
    """Shows the criteria of one exercise at a time, each with its evidence.

    Parameters
    ----------
    advice
        What is known of the lifter.
    exercise
        Which one is shown at first; the first of all where nothing is known of it.
    """

    AUTO_FOCUS = "ChoiceList"
    # With priority, because list and scrolling containers take these keys for themselves.
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "up",
            "exercise_before",
            "Exercise",
            key_display="↑↓",
            priority=True,
            id="ready.before",
            tooltip="Choose the exercise above; the down arrow chooses the one below",
        ),
        Binding(
            "down",
            "exercise_after",
            "Exercise below",
            show=False,
            priority=True,
            id="ready.after",
            tooltip="Choose the exercise below",
        ),
        Binding(
            "pagedown,space",
            "turn(1)",
            "Read on",
            key_display="PgDn",
            priority=True,
            id="ready.read_on",
            tooltip="A page further in the criteria of the exercise",
        ),
        Binding(
            "pageup",
            "turn(-1)",
            "Back",
            key_display="PgUp",
            priority=True,
            id="ready.read_back",
            tooltip="A page back",
        ),
        Binding(
            "escape,r",
            "leave",
            "Season",
            key_display="Esc",
            id="ready.leave",
            tooltip="Back to the weeks of the season",
        ),
    ]

    def __init__(self, advice: LifterAdvice, exercise: str) -> None:
        super().__init__()
        self._advice = advice
        self._exercises = advice.exercises()
        self._at_first = exercise
        self._list = ChoiceList()
        self._card = Static(classes="prose")
        self._page = Page(self._card)

    def content(self) -> Iterable[Widget]:
        """Return heading, list and criteria."""
        with Horizontal(classes="heading"):
            yield Static("Ready for more?", classes="heading-text")
            yield Static(legible(self._advice.season.lifter), classes="heading-count", markup=False)
        with Horizontal(classes="methods"):
            yield self._list
            yield self._page

    def on_mount(self) -> None:
        """Show the exercise that was asked for."""
        keys = [name_key(name) for name in self._exercises]
        asked = name_key(self._at_first)
        chosen = keys.index(asked) if asked in keys else 0
        self._list.show([legible(name) for name in self._exercises], chosen)
        if self._exercises:
            self._draw(chosen)
        else:
            self.tell(NO_EXERCISES)

    def on_choice_list_chosen(self, event: ChoiceList.Chosen) -> None:
        """Show another exercise."""
        self._page.scroll_home(animate=False)
        self._draw(event.index)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Choose and read only where there is an exercise."""
        if action in ("exercise_before", "exercise_after", "turn"):
            return bool(self._exercises)
        return super().check_action(action, parameters)

    def action_exercise_before(self) -> None:
        """Choose the exercise above."""
        self._list.action_cursor_up()

    def action_exercise_after(self) -> None:
        """Choose the exercise below."""
        self._list.action_cursor_down()

    def action_turn(self, pages: int) -> None:
        """Turn the page of the criteria."""
        if pages > 0:
            self._page.scroll_page_down(animate=False)
        else:
            self._page.scroll_page_up(animate=False)

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(None)

    def _draw(self, place: int) -> None:
        ways = self._advice.readiness(self._exercises[place])
        lines = [line for way in ways for line in _way_lines(way)]
        self._card.update(Content("\n").join([*lines, Content(CRITERIA)]))


def _way_lines(way: Readiness) -> Iterable[Content]:
    yield Content.styled(f"{way.way}: {way.verdict}", "bold")
    for one in way.criteria:
        yield Content.styled(f"{one.state}: ", "bold") + Content(legible(one.asked))
        yield Content(f"  · {legible(one.words)}")
    yield Content()
