"""How sore the muscles are, asked before the first set of a day."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.ports import Clock
from tempo_coach.core.soreness_facts import MOST_SORE
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.page import Page
from tempo_coach.ui.set_keys import Presses

QUESTION = f"How sore are the muscles you train today, from 0 to {MOST_SORE}?"
MEANING = (
    f"0 is not at all, {MOST_SORE} as sore as can be thought of. Type or click it; Page Down, "
    "Space or Enter goes on, without a number too.",
    "Where it is much, what speaks against a set is said before it, and nothing is blocked. Pain "
    "that is not soreness is a reason to stop and to ask a clinician.",
)
DIGITS = "0123456789"
_TYPE = Binding.Group("Type")


def scale(chosen: int | None) -> Content:
    """Return the levels side by side, each a button, the chosen one filled."""
    levels = (
        f"[@click=screen.choose({level}){' reverse' * (level == chosen)}] {level} [/]"
        for level in range(MOST_SORE + 1)
    )
    return Content.from_markup("".join(levels))


@dataclass(frozen=True, slots=True)
class SorenessAnswer:
    """How the question was answered."""

    soreness: int | None
    """None where it was left open."""
    asks_again: bool = True
    """It is asked on other days too."""


class SorenessScreen(Frame[SorenessAnswer]):
    """Asks, and lets everything go on without an answer; goes away with what was said.

    Parameters
    ----------
    clock
        Tells presses that are meant from a key held down.
    """

    # With priority, because a scrolling container takes Page Down for itself, and that is what
    # clickers send.
    BINDINGS: ClassVar[list[BindingType]] = [
        *(
            Binding(
                digit,
                f"type('{digit}')",
                "Type",
                key_display=f"0-{MOST_SORE}",
                group=_TYPE,
                id=f"soreness.type_{digit}",
                tooltip="Type how sore they are, or click it on the scale",
            )
            for digit in DIGITS
        ),
        Binding(
            "pagedown,space,enter",
            "go_on",
            "Go on",
            key_display="PgDn/Enter",
            priority=True,
            id="soreness.go_on",
            tooltip="On to the set, with the number that is shown or without one",
        ),
        Binding(
            "backspace",
            "clear",
            "Clear",
            key_display="Backspace",
            id="soreness.clear",
            tooltip="Take the number back",
        ),
        Binding(
            "s",
            "stop_asking",
            "Stop asking",
            key_display="S",
            id="soreness.stop_asking",
            tooltip="Go on, and never ask again; the settings bring it back",
        ),
        Binding(
            "escape",
            "leave",
            "Skip",
            key_display="Esc",
            id="soreness.leave",
            tooltip="Go on without an answer",
        ),
    ]

    def __init__(self, clock: Clock) -> None:
        super().__init__()
        self._clock = clock
        self._presses = Presses()
        self._typed = ""
        self._shown = Static(classes="soreness", markup=False)
        self._scale = Static(classes="scale", markup=False)

    def content(self) -> Iterable[Widget]:
        """Return the question, the number, and what it means."""
        with Page(classes="question"):
            yield Static(QUESTION, classes="title", markup=False)
            yield self._shown
            yield self._scale
            yield Static("\n\n".join(MEANING), classes="meaning", markup=False)

    def on_mount(self) -> None:
        """Be deaf for a moment to the key that led here, which may still be held down."""
        self._presses.begin(self._clock.now_ms())
        self._show("")

    def action_type(self, digit: str) -> None:
        """Take a digit: behind a 1 a 0 makes 10, and any other begins anew."""
        longer = self._typed + digit
        self._show(longer if longer == str(MOST_SORE) else digit)

    def action_choose(self, level: int) -> None:
        """Take a level as it stands on the scale."""
        self._show(str(level))

    def action_clear(self) -> None:
        """Take the number back."""
        self._show("")

    def action_go_on(self) -> None:
        """Go on with what is shown."""
        if self._presses.is_meant(self._clock.now_ms()):
            self.after_typing(self._give)

    def action_stop_asking(self) -> None:
        """Go on, and ask no more."""
        self.dismiss(SorenessAnswer(None, asks_again=False))

    def action_leave(self) -> None:
        """Go on without an answer."""
        self.dismiss(SorenessAnswer(None))

    def _give(self) -> None:
        self.dismiss(SorenessAnswer(int(self._typed) if self._typed else None))

    def _show(self, typed: str) -> None:
        self._typed = typed
        self._shown.update(f"{typed or '–'} of {MOST_SORE}")
        self._scale.update(scale(int(typed) if typed else None))
