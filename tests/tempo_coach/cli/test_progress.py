from __future__ import annotations

import io

from tempo_coach.cli.progress import Progress
from tests.tempo_coach.fakes import HandClock


class Stream(io.StringIO):
    """A stream that is a terminal, or is none."""

    def __init__(self, *, is_terminal: bool) -> None:
        super().__init__()
        self._is_terminal = is_terminal

    def isatty(self) -> bool:
        return self._is_terminal


def test_a_bar_with_the_time_left_shows_after_a_second_and_is_taken_away() -> None:
    clock, stream = HandClock(), Stream(is_terminal=True)
    shown = Progress("reading", 200, stream=stream, clock=clock)

    shown.advance(50)
    assert stream.getvalue() == ""
    clock.advance(1_001)
    shown.advance(50)
    shown.advance(50)
    shown.end()

    assert "reading" in stream.getvalue()
    assert "50%" in stream.getvalue()
    assert "left" in stream.getvalue()


def test_nothing_is_drawn_where_there_is_no_terminal() -> None:
    clock, stream = HandClock(), Stream(is_terminal=False)
    shown = Progress("reading", 200, stream=stream, clock=clock)

    clock.advance(5_000)
    shown.advance(100)
    shown.end()

    assert stream.getvalue() == ""
