"""A terminal in place of standard output."""

from __future__ import annotations

import io

import pytest


class Terminal(io.StringIO):
    """Standard output that is a terminal."""

    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


def on_a_terminal(monkeypatch: pytest.MonkeyPatch, *, columns: int = 80) -> Terminal:
    """Put a terminal with colours in place of standard output."""
    shown = Terminal()
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("COLUMNS", str(columns))
    monkeypatch.delenv("COLORTERM", raising=False)
    monkeypatch.setattr("sys.stdout", shown)
    return shown
