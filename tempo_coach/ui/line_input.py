"""The field that all texts are typed into."""

from __future__ import annotations

from textual.widgets import Input

from tempo_coach.core.legible import legible


class LineInput(Input):
    """One line of text, in which pasted control characters become visible."""

    def validate_value(self, value: str) -> str:
        """Spell control characters out, which would otherwise reach the terminal."""
        return legible(value)
