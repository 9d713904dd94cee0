"""Whether a terminal can show a text as it is."""

from __future__ import annotations

import unicodedata


def is_harmless(text: str) -> bool:
    """Tell whether the text has no control character and no half of a surrogate pair."""
    return not any(unicodedata.category(character) in {"Cc", "Cs"} for character in text)
