"""What the big display says in a reserve test."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from tempo_coach.core.load_span import as_load
from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.ui.canvas import Ink
from tempo_coach.ui.sign import Sign

_ANSWERS = {None: "HELD?", True: "HELD", False: "LOST"}
_INKS = {None: Ink.PLAIN, True: Ink.TOP, False: Ink.RAISE}


def ahead_sign(load_kg: Decimal) -> Sign:
    """Show the load that is to be lowered next."""
    return _load_sign("READY", load_kg, Ink.PLAIN)


def between_sign(rest: Sign, load_kg: Decimal, *, held: bool) -> Sign:
    """Show the last answer, what is left of the rest, and the load behind it."""
    figure, _ = _parts(load_kg)
    return replace(rest, word=_ANSWERS[held], aside=("NEXT", figure), aside_room=_room(figure))


def asked_sign(load_kg: Decimal, *, held: bool | None) -> Sign:
    """Show what is said of an attempt, so that a wrong key is seen from the rack."""
    return _load_sign(_ANSWERS[held], load_kg, _INKS[held])


def result_sign(test: ReserveTest) -> Sign:
    """Show the reserve as a ratio."""
    if test.reserve is None:
        return Sign(word="NONE")
    return Sign(figure=f"{test.reserve.ratio:.3f}", figure_room="0.000")


def _load_sign(word: str, load_kg: Decimal, ink: Ink) -> Sign:
    figure, unit = _parts(load_kg)
    return Sign(
        word=word,
        figure=figure,
        figure_room=figure,
        aside=(unit,),
        aside_room=_room(figure),
        ink=ink,
    )


def _room(figure: str) -> tuple[str, ...]:
    return "NEXT", figure


def _parts(load_kg: Decimal) -> tuple[str, str]:
    figure, unit = str(as_load(load_kg)).split()
    return figure, unit.upper()
