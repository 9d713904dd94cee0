"""What everyone who uses this should know, to be read and left."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, TypeAlias

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.cautions import LONG, SHORT
from tempo_coach.ui.frame import Frame

Chapter: TypeAlias = tuple[str, tuple[str, ...]]

SHORT_CHAPTERS: tuple[Chapter, ...] = (("Before you begin", SHORT),)
LONG_CHAPTERS: tuple[Chapter, ...] = LONG


class CautionsScreen(Frame[None]):
    """Shows chapters of cautions; goes away with None.

    Parameters
    ----------
    chapters
        Headings, each with its paragraphs.
    """

    # With priority, because a scrolling container takes Page Down for itself.
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "space,pagedown",
            "read_on",
            "Read on",
            key_display="Space/PgDn",
            priority=True,
            id="cautions.read_on",
            tooltip="A page further, and at the end on to what comes next",
        ),
        Binding(
            "pageup",
            "read_back",
            "Back",
            key_display="PgUp",
            priority=True,
            id="cautions.read_back",
            tooltip="A page back",
        ),
        Binding(
            "enter,escape",
            "go_on",
            "Go on",
            key_display="Enter",
            priority=True,
            id="cautions.go_on",
            tooltip="Close the cautions; F1 shows them again",
        ),
    ]

    def __init__(self, chapters: tuple[Chapter, ...]) -> None:
        super().__init__()
        self._chapters = chapters

    def content(self) -> Iterable[Widget]:
        """Return the chapters."""
        paragraphs = [
            Content("\n\n").join(
                [Content.styled(heading, "bold"), *(Content(text) for text in texts)]
            )
            for heading, texts in self._chapters
        ]
        prose = Static(Content("\n\n\n").join(paragraphs), classes="prose")
        yield VerticalScroll(prose, can_focus=False)

    def action_read_on(self) -> None:
        """Turn the page, or go on where none is left."""
        page = self.query_one(VerticalScroll)
        if page.scroll_offset.y < page.max_scroll_y:
            page.scroll_page_down(animate=False)
        else:
            self.dismiss()

    def action_read_back(self) -> None:
        """Turn the page back."""
        self.query_one(VerticalScroll).scroll_page_up(animate=False)

    def action_go_on(self) -> None:
        """Close."""
        self.dismiss()
