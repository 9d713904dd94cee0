"""How the set screen is reached."""

from __future__ import annotations

from textual.message import Message


class RackReached(Message):
    """A set waits for the key that starts it."""
