"""The cues of one rep in words, and which of them was heard last."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from tempo_coach.core.reading import cue_words
from tempo_coach.core.timeline import Timeline

_MARKS = {True: "▸ ", False: "  "}


def heard_last(moments_ms: Sequence[int], position_ms: int | None) -> int | None:
    """Return the place of the latest moment that has come, or None where none has."""
    if position_ms is None:
        return None
    return max((at for at, ms in enumerate(moments_ms) if ms <= position_ms), default=None)


def in_columns(words: Sequence[str], *, heard: int | None, width: int) -> tuple[str, ...]:
    """Return rows of the words in columns of one width, a mark before the one heard last."""
    cell = max(map(len, words)) + len(_MARKS[True]) + 1
    columns = max(width // cell, 1)
    cells = [f"{_MARKS[place == heard]}{word}".ljust(cell) for place, word in enumerate(words)]
    return tuple(
        "".join(cells[first : first + columns]).rstrip() for first in range(0, len(cells), columns)
    )


class RepWords(Widget):
    """Shows what is heard of a set, cue by cue.

    Parameters
    ----------
    timeline
        The set.
    """

    def __init__(self, timeline: Timeline) -> None:
        super().__init__()
        cues = tuple(timeline.cues())
        self._words = tuple(cue_words(cue) for cue in cues)
        self._moments_ms = tuple(cue.at_ms for cue in cues)
        self._heard: int | None = None

    def follow(self, position_ms: int | None) -> None:
        """Mark the cue that was heard last by a place on the timeline; None marks none."""
        heard = heard_last(self._moments_ms, position_ms)
        if heard != self._heard:
            self._heard = heard
            self.refresh()

    def get_content_height(
        self,
        container: Size,  # noqa: ARG002 - Textual gives it
        viewport: Size,  # noqa: ARG002 - Textual gives it
        width: int,
    ) -> int:
        """Return how many rows the words need."""
        return len(self._rows(width))

    def render(self) -> Content:
        """Return the words, the one heard last in bold behind its mark."""
        text = Content("\n".join(self._rows(self.size.width)))
        if self._heard is None:
            return text
        start = text.plain.index(_MARKS[True])
        end = start + len(_MARKS[True]) + len(self._words[self._heard])
        return text.stylize("bold", start, end)

    def _rows(self, width: int) -> tuple[str, ...]:
        return in_columns(self._words, heard=self._heard, width=width)
