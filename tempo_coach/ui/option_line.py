"""A few words of which one is chosen, side by side."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.events import Click
from textual.message import Message
from textual.widget import Widget

_MARKS = {True: "●", False: "○"}


class OptionLine(Widget, can_focus=True):
    """Shows the options literally; the chosen one has a filled mark.

    Parameters
    ----------
    options
        The words.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "space,enter",
            "choose_next",
            "Change",
            key_display="Space",
            id="option.next",
            tooltip="Choose the next word, and after the last the first",
        ),
        Binding(
            "left",
            "choose_by(-1)",
            "Left",
            show=False,
            id="option.left",
            tooltip="Choose the word to the left",
        ),
        Binding(
            "right",
            "choose_by(1)",
            "Right",
            show=False,
            id="option.right",
            tooltip="Choose the word to the right",
        ),
    ]

    @dataclass
    class Picked(Message):
        """An option was picked, which is shown once it is taken."""

        line: OptionLine
        option: str

    def __init__(self, options: tuple[str, ...]) -> None:
        super().__init__()
        self._options = options
        self._chosen = 0

    def show(self, option: str) -> None:
        """Mark one as the chosen one."""
        self._chosen = self._options.index(option)
        self.refresh()

    def render(self) -> str:
        """Return the options, each behind its mark."""
        return "  ".join(self._parts())

    def on_click(self, event: Click) -> None:
        """Pick what was clicked."""
        ends = accumulate(len(part) + 2 for part in self._parts())
        picked = next((place for place, end in enumerate(ends) if event.x < end), None)
        if picked is not None:
            self._pick(picked)

    def action_choose_next(self) -> None:
        """Pick the next one, and after the last the first."""
        self._pick((self._chosen + 1) % len(self._options))

    def action_choose_by(self, places: int) -> None:
        """Pick one beside, as far as there is one."""
        place = self._chosen + places
        if 0 <= place < len(self._options):
            self._pick(place)

    def _parts(self) -> tuple[str, ...]:
        return tuple(
            f"{_MARKS[place == self._chosen]} {option}"
            for place, option in enumerate(self._options)
        )

    def _pick(self, place: int) -> None:
        self.post_message(self.Picked(self, self._options[place]))
