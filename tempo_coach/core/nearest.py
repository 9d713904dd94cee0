"""The nearest good value, for a refusal."""

from __future__ import annotations

from collections.abc import Collection
from difflib import get_close_matches

from tempo_coach.core.legible import legible, name_key

_MOST_LISTED = 12


def nearest(given: str, known: Collection[str]) -> str | None:
    """Return the known word that is most like the given one, or None if none is."""
    by_key = {name_key(word): word for word in known}
    found = get_close_matches(name_key(given), by_key, n=1)
    return by_key[found[0]] if found else None


def nearest_of(given: str, known: Collection[str]) -> str:
    """Return a hint: the known word that is most like the given one, or what is known."""
    if not known:
        return "none is known yet"
    if (near := nearest(given, known)) is not None:
        return f"the nearest is '{legible(near)}'"
    listed = ", ".join(legible(word) for word in list(known)[:_MOST_LISTED])
    return f"known are {listed}" + (", and more" if len(known) > _MOST_LISTED else "")
