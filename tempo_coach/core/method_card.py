"""All there is to know of a method, as rows and as data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tempo_coach.core.methods import NO_FIGURE, Aspect, Method

_ALWAYS = (
    Aspect.LOAD,
    Aspect.LOWER,
    Aspect.REPS,
    Aspect.SETS,
    Aspect.REST,
    Aspect.SESSIONS,
    Aspect.WEEKS,
)
"""Said to have no figure where there is none; the others are left out then."""


def card_rows(method: Method) -> Iterator[tuple[str, str]]:
    """Yield a label and its words, row by row."""
    yield "for", method.purpose
    yield "suits", method.suits
    yield "not for", method.not_for
    yield "of which max", method.of_max
    for aspect in Aspect:
        figures = method.of(aspect)
        if figures:
            yield aspect.value, "; ".join(figure.words for figure in figures)
        elif aspect in _ALWAYS:
            yield aspect.value, NO_FIGURE
    if method.needs is not None:
        yield "on the line", method.needs.value
    for start in method.starts:
        yield "a line", f"{start.when}: {start.line}"
    yield "people", method.people
    yield "equipment", method.equipment
    for caution in method.cautions:
        yield "caution", caution
    for remark in method.remarks:
        yield "known", remark


def card_data(method: Method) -> dict[str, Any]:
    """Return a method as plain data."""
    return {
        "name": method.name.value,
        "summary": method.summary,
        "for": method.purpose,
        "suits": method.suits,
        "not_for": method.not_for,
        "of_max": method.of_max,
        "figures": {
            aspect.name.lower(): [
                {
                    "from": figure.low,
                    "to": figure.high,
                    "from_is_outside": figure.is_above,
                    "to_is_about": figure.is_about,
                    "unit": figure.unit,
                    "said": figure.said,
                    "source": figure.source,
                }
                for figure in figures
                if figure.is_number
            ]
            for aspect, figures in method.figures.items()
        },
        "needs": None if method.needs is None else method.needs.value,
        "is_overload": method.is_overload,
        "people": method.people,
        "equipment": method.equipment,
        "cautions": list(method.cautions),
        "known": list(method.remarks),
        "starts": [
            {
                "when": start.when,
                "line": start.line,
                "lower": start.lower,
                "why": list(start.why),
            }
            for start in method.starts
        ],
    }
