"""The way to the rack: what has to be typed first, and then the set screen."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import App

from tempo_coach.core.load import Load
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.overload import READY, OverloadQuestion
from tempo_coach.ui.answer_screen import AnswerScreen
from tempo_coach.ui.departure import Departure
from tempo_coach.ui.set_screen import SetScreen
from tempo_coach.ui.underway import Underway


def overload_screen(question: OverloadQuestion) -> AnswerScreen[Load]:
    """Ask for the load that is to be lowered, and say why and what to have ready."""
    return AnswerScreen(
        question.why,
        f"{READY} Type {question.load} to go on; Escape leaves it.",
        text="",
        read=question.read,
    )


def go_to_rack(
    app: App[int],
    underway: Underway,
    first: NextSet,
    lifter: str,
    *,
    then: NextSet | None = None,
    said: tuple[str, ...] = (),
    starts_at_once: bool = False,
    come_back: Callable[[Departure | None], None],
) -> None:
    """Open the set screen, behind the question where more is to be lowered than was ever tested.

    Parameters
    ----------
    app
        What the screens are opened in.
    underway, first, lifter, then, starts_at_once
        As for `SetScreen`; whoever has just typed starts with a key of their own.
    said
        What is to be said there at first.
    come_back
        Takes what the set screen goes away with.
    """

    def go(*, at_once: bool) -> None:
        screen = SetScreen(underway, first, lifter, then=then, starts_at_once=at_once)
        app.push_screen(screen, come_back)
        if said:
            screen.call_later(screen.tell, *said)

    def answer(typed: Load | None) -> None:
        if typed is None:
            come_back(Departure(said, goes_on=False))
        else:
            go(at_once=False)

    if first.overload is None:
        go(at_once=starts_at_once)
    else:
        app.push_screen(overload_screen(first.overload), answer)
