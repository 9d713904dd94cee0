"""A way to train the lowering: what it is for, for whom, and its numbers, each with its source."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from tempo_coach.core.method_names import MethodName
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.rep_shape import Sides
from tempo_coach.core.tempo import Phase

NO_FIGURE = "no figure"
"""Stands where neither a trial nor the trade gives a number."""


class Aspect(StrEnum):
    """What a number of a method is about."""

    LOAD = "load"
    LOWERED = "load lowered"
    LOWER = "lower"
    HOLD = "hold"
    REP = "rep"
    REPS = "reps a set"
    SETS = "sets"
    SESSION_REPS = "reps a session"
    REST = "rest"
    SESSIONS = "sessions a week"
    WEEKS = "weeks at a time"
    WEEKS_BETWEEN = "weeks between"


@dataclass(frozen=True, slots=True)
class Figure:
    """A number or a range, and where it comes from."""

    low: float | None
    """None where there is no lower end."""
    high: float | None
    """None where there is no upper end; without either there is no figure."""
    unit: str
    source: str
    said: str = ""
    """What else there is to say."""
    is_above: bool = False
    """The lower end itself lies outside."""
    is_about: bool = False
    """The upper end is no sharp one."""

    @property
    def is_number(self) -> bool:
        """There is a number at all."""
        return self.low is not None or self.high is not None

    def holds(self, value: float, *, give: float = 0) -> bool:
        """Tell whether a value lies within, or outside by at most `give`."""
        if self.is_above and self.low is not None and value <= self.low:
            return False
        is_low = self.low is not None and value < self.low - give
        is_high = self.high is not None and value > self.high + give
        return not (is_low or is_high)

    def __str__(self) -> str:
        gap = "" if self.unit.startswith("%") else " "
        about = "about " if self.is_about else ""
        match self.low, self.high:
            case None, None:
                return NO_FIGURE
            case None, high:
                words = f"at most {about}{high:g}"
            case low, None:
                words = f"at least {low:g}"
            case low, high if low == high:
                words = f"{about}{low:g}"
            case low, high:
                words = f"{'above ' if self.is_above else ''}{low:g} to {about}{high:g}"
        return f"{words}{gap}{self.unit}" if self.unit else words

    @property
    def words(self) -> str:
        """The figure with all there is to say of it, the source in brackets."""
        parts = [str(self)] + ([self.said] if self.said else [])
        return ", ".join(parts) + (f" ({self.source})" if self.source else "")


class Needed(StrEnum):
    """What a line must have to be of its method at all."""

    STOPS = "stop 2 s at 1/2"
    LOWERING_ONLY = "lowering only"
    LOWER_LOAD = "lower @ 105%"
    FIRST_LOWER = "first lower @ 120%"
    ONE_DOWN = "two up one down"
    HOLD = "stop 5 s at 1/2, or a pause at the bottom"
    RAISE_ONLY = "raise only"

    def is_in(self, prescription: Prescription) -> bool:
        """Tell whether a line has it."""
        shape = prescription.shape
        match self:
            case Needed.STOPS:
                return shape.stops is not None
            case Needed.LOWERING_ONLY:
                return shape.only is Phase.LOWER
            case Needed.LOWER_LOAD:
                return shape.lower_load is not None and not shape.lower_load.first_rep_only
            case Needed.FIRST_LOWER:
                return shape.lower_load is not None and shape.lower_load.first_rep_only
            case Needed.ONE_DOWN:
                return shape.sides is Sides.ONE_DOWN
            case Needed.HOLD:
                return shape.stops is not None or prescription.tempo.pause != 0
            case Needed.RAISE_ONLY:
                return shape.only is Phase.RAISE


@dataclass(frozen=True, slots=True)
class Start:
    """A line to begin from."""

    when: str
    """When it is the one to take, such as ``to begin with``."""
    line: str
    """What stands behind the exercise, with loads as shares of a max."""
    lower: str
    """Where the length of its lower comes from."""
    why: tuple[str, ...]
    """Where its other numbers come from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Method:
    """A way to train."""

    name: MethodName
    summary: str
    """What is done, in half a sentence."""
    purpose: str
    suits: str
    not_for: str
    of_max: str
    """Of which max the load is a share."""
    figures: Mapping[Aspect, tuple[Figure, ...]]
    needs: Needed | None = None
    is_overload: bool = False
    """More than the lifter can lift is lowered, so that it is for those the coach has cleared."""
    people: str
    equipment: str
    cautions: tuple[str, ...]
    remarks: tuple[str, ...] = ()
    """What else is known, with its source."""
    starts: tuple[Start, ...]

    def of(self, aspect: Aspect) -> tuple[Figure, ...]:
        """Return the figures of one aspect; empty where there is none."""
        return self.figures.get(aspect, ())


def within(figures: Iterable[Figure], value: float, *, give: float = 0) -> bool:
    """Tell whether a value lies in one of some ranges, or between two, or there is no range.

    A value outside by at most `give` lies within.
    """
    numbers = [one for one in figures if one.is_number]
    if not numbers or any(one.holds(value, give=give) for one in numbers):
        return True
    return any(_is_below(one, value) for one in numbers) and any(
        _is_above(one, value) for one in numbers
    )


def _is_below(figure: Figure, value: float) -> bool:
    return figure.high is not None and figure.high < value


def _is_above(figure: Figure, value: float) -> bool:
    return figure.low is not None and figure.low > value
