"""Text from outside, made safe to show: controls become visible, long text is cut."""

from __future__ import annotations

import unicodedata

_QUOTE_LENGTH = 40
_BIDI_CONTROLS = frozenset(
    "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
)


def legible(text: str) -> str:
    r"""Return the text with every control character spelt out, such as ``\x1b``."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(_spelt(character) for character in text)


def quoted(text: str) -> str:
    """Return the text between quotes for a message: legible, and cut at 40 characters."""
    whole = legible(text)
    return f"'{whole}'" if len(whole) <= _QUOTE_LENGTH else f"'{whole[: _QUOTE_LENGTH - 1]}…'"


def name_key(name: str) -> str:
    """Return what two spellings of one name share: no case, one form of each accent."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


def _spelt(character: str) -> str:
    category = unicodedata.category(character)
    if category in {"Cc", "Cs", "Zl", "Zp"} or character in _BIDI_CONTROLS:
        return character.encode("unicode_escape").decode("ascii")
    return character
