"""What next week could hold, for the lifter or the coach to take line by line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.legible import legible
from tempo_coach.core.lifter_advice import LifterAdvice
from tempo_coach.core.proposed_lines import ProposedLine
from tempo_coach.core.tempo import Allowances
from tempo_coach.ui.choice_list import ChoiceList
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.page import Page

NO_SETS = "No sets to go by yet: what was done in a week is what the next is proposed from."
LEFT_OUT = "This work is proposed to be left out, so there is no line to take."
CHANGES_NOTHING = (
    "A proposal: nothing of it is done by itself. Enter puts the chosen line on the board, to be "
    "edited there or done as it stands; the plan stays as it is."
)


class ProposalScreen(Frame[str | None]):
    """Shows the lines of next week's proposal; goes away with one of them, or with None.

    Parameters
    ----------
    advice
        What is known of the lifter.
    allowances
        What counts for X, V and A.
    """

    AUTO_FOCUS = "ChoiceList"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter",
            "take",
            "Put on the board",
            key_display="Enter",
            priority=True,
            id="proposal.take",
            tooltip="Put the chosen line on the board; nothing else is changed",
        ),
        Binding(
            "pageup",
            "line_before",
            "Line",
            key_display="↑↓",
            priority=True,
            id="proposal.before",
            tooltip="Choose the line above; the down arrow chooses the one below",
        ),
        Binding(
            "pagedown",
            "line_after",
            "Line below",
            show=False,
            priority=True,
            id="proposal.after",
            tooltip="Choose the line below",
        ),
        Binding(
            "space",
            "read_page",
            "Read on",
            key_display="Space",
            priority=True,
            id="proposal.read_on",
            tooltip="A page further in what there is to know of the line, and then from the start",
        ),
        Binding(
            "escape,n",
            "leave",
            "Season",
            key_display="Esc",
            id="proposal.leave",
            tooltip="Back to the weeks of the season",
        ),
    ]

    def __init__(self, advice: LifterAdvice, allowances: Allowances) -> None:
        super().__init__()
        self._advice = advice
        self._proposal = advice.proposal(allowances)
        self._list = ChoiceList()
        self._told = Static(classes="prose", markup=False)
        self._page = Page(self._told, classes="part")

    def content(self) -> Iterable[Widget]:
        """Return heading, lines, and what there is to know of the chosen one."""
        with Horizontal(classes="heading"):
            yield Static("A proposal for next week", classes="heading-text", markup=False)
            yield Static(legible(self._advice.season.lifter), classes="heading-count", markup=False)
        yield self._list
        yield self._page

    def on_mount(self) -> None:
        """Show the lines."""
        lines = self._proposal.lines
        width = max((len(_step_words(one)) for one in lines), default=0)
        self._list.show([_row(one, step=width) for one in lines], 0)
        self._draw()

    def on_choice_list_chosen(self) -> None:
        """Show another line's reason."""
        self._page.scroll_home(animate=False)
        self.tell()
        self._draw()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Choose and take lines only where there are some."""
        if action in ("take", "line_before", "line_after"):
            return bool(self._proposal.lines)
        return super().check_action(action, parameters)

    def action_line_before(self) -> None:
        """Choose the line above."""
        self._list.action_cursor_up()

    def action_line_after(self) -> None:
        """Choose the line below."""
        self._list.action_cursor_down()

    def action_take(self) -> None:
        """Go back with the chosen line, or say that there is none."""
        self.after_typing(self._take)

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(None)

    def _take(self) -> None:
        line = self._proposal.lines[self._list.chosen].line
        if line is None:
            self.tell(LEFT_OUT)
        else:
            self.dismiss(str(line))

    def _draw(self) -> None:
        lines = self._proposal.lines
        if not lines:
            self._told.update(NO_SETS)
            return
        one = lines[self._list.chosen]
        ahead = f"Next week: {legible(self._proposal.limit_words)}."
        self._told.update(
            "\n".join(
                (
                    f"{_step_words(one)}: {_line_words(one)}",
                    f"why: {legible(one.reason)}",
                    f"done {one.day.isoformat()}: {legible(str(one.was))}",
                    "",
                    " ".join(filter(None, (self._proposal.caution, ahead))),
                    CHANGES_NOTHING,
                )
            )
        )


def _row(one: ProposedLine, *, step: int) -> Content:
    return Content(f"{one.weekday[:3]}  {_step_words(one):<{step}}  {_line_words(one)}")


def _step_words(one: ProposedLine) -> str:
    return "leave out" if one.line is None else one.step.value


def _line_words(one: ProposedLine) -> str:
    return legible(str(one.was if one.line is None else one.line))
