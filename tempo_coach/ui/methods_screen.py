"""The ways to train the lowering, each with all there is to know of it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.legible import legible
from tempo_coach.core.method_card import card_rows
from tempo_coach.core.method_catalogue import METHODS
from tempo_coach.core.method_lines import MethodLine, method_lines
from tempo_coach.core.methods import Method
from tempo_coach.core.tempo import Allowances
from tempo_coach.errors import NotationError, OutOfRange
from tempo_coach.ui.choice_list import ChoiceList
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.known_lifter import KnownLifter
from tempo_coach.ui.page import Page
from tempo_coach.ui.sentences import fault_sentence

NO_EXERCISE = "Write an exercise on the board first: Enter then makes a line for it."


class MethodsScreen(Frame[str | None]):
    """Shows one method at a time; goes away with a line of it, or with None.

    Parameters
    ----------
    lifter
        Whose maxes the loads are worked out from.
    exercise
        What is trained; empty where the board does not say.
    allowances
        What counts for X, V and A.
    """

    AUTO_FOCUS = "ChoiceList"
    # With priority, because scrolling containers take the page keys for themselves.
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter",
            "take",
            "Put on the board",
            key_display="Enter",
            priority=True,
            id="methods.take",
            tooltip="Put the method's first line on the board, for the exercise that stands there",
        ),
        Binding(
            "down",
            "method_after",
            "Method",
            key_display="↑↓",
            priority=True,
            id="methods.after",
            tooltip="Choose the method below; the up arrow chooses the one above",
        ),
        Binding(
            "up",
            "method_before",
            "Method above",
            show=False,
            priority=True,
            id="methods.before",
            tooltip="Choose the method above",
        ),
        Binding(
            "pagedown,space",
            "turn(1)",
            "Read on",
            key_display="PgDn",
            priority=True,
            id="methods.read_on",
            tooltip="A page further in what there is to know of the method",
        ),
        Binding(
            "pageup",
            "turn(-1)",
            "Back",
            key_display="PgUp",
            priority=True,
            id="methods.read_back",
            tooltip="A page back",
        ),
        Binding(
            "escape",
            "leave",
            "Board",
            key_display="Esc",
            id="methods.leave",
            tooltip="Back to the board, which stays as it is",
        ),
    ]

    def __init__(self, lifter: KnownLifter, exercise: str, *, allowances: Allowances) -> None:
        super().__init__()
        self._lifter = lifter
        self._exercise = exercise
        self._allowances = allowances
        self._methods = tuple(METHODS.values())
        self._list = ChoiceList()
        self._card = Static(classes="prose")
        self._page = Page(self._card)

    def content(self) -> Iterable[Widget]:
        """Return heading, list and card."""
        with Horizontal(classes="heading"):
            yield Static("Methods", classes="heading-text")
            yield Static(legible(self._exercise), classes="heading-count", markup=False)
        with Horizontal(classes="methods"):
            yield self._list
            yield self._page

    def on_mount(self) -> None:
        """Show the first method."""
        self._list.show([method.name.value for method in self._methods], 0)
        self._draw()

    def on_choice_list_chosen(self) -> None:
        """Show another method."""
        self._page.scroll_home(animate=False)
        self.tell()
        self._draw()

    def action_method_before(self) -> None:
        """Choose the method above."""
        self._list.action_cursor_up()

    def action_method_after(self) -> None:
        """Choose the method below."""
        self._list.action_cursor_down()

    def action_turn(self, pages: int) -> None:
        """Turn the page of the card."""
        if pages > 0:
            self._page.scroll_page_down(animate=False)
        else:
            self._page.scroll_page_up(animate=False)

    def action_take(self) -> None:
        """Go back with the first line of the method, or say why there is none."""
        self.after_typing(self._take)

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(None)

    @property
    def _method(self) -> Method:
        return self._methods[self._list.chosen]

    def _take(self) -> None:
        try:
            lines = self._lines()
        except (OutOfRange, NotationError) as fault:
            self.tell(fault_sentence(fault))
            return
        if lines:
            self.dismiss(str(lines[0].prescription))
        else:
            self.tell(NO_EXERCISE)

    def _lines(self) -> tuple[MethodLine, ...]:
        if not self._exercise:
            return ()
        person = self._lifter.person
        return method_lines(
            self._method,
            self._exercise,
            best_for=self._lifter.best_for(self._exercise),
            step=self._lifter.step,
            allowances=self._allowances,
            is_cleared=None if person is None else person.overload,
        )

    def _draw(self) -> None:
        method = self._method
        title = Content.styled(method.name.value, "bold") + Content(f": {method.summary}")
        self._card.update(Content("\n").join([title, Content(), *self._own(), *_card(method)]))

    def _own(self) -> Iterable[Content]:
        """Yield the lines for this lifter, before what holds for all."""
        try:
            lines = self._lines()
        except (OutOfRange, NotationError) as fault:
            yield Content(fault_sentence(fault))
            yield Content()
            return
        for line in lines:
            yield Content.styled(f"{line.when}: ", "bold") + Content(
                legible(str(line.prescription))
            )
            for words in line.why:
                yield Content(f"  · {legible(words)}")
            yield Content()


def _card(method: Method) -> Iterable[Content]:
    for label, words in card_rows(method):
        yield Content.styled(f"{label}: ", "bold") + Content(words)
