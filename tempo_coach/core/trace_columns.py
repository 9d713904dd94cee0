"""Which column of a table is the time, and which the bar; and in what units."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from tempo_coach.core.legible import quoted
from tempo_coach.core.nearest import nearest_of
from tempo_coach.core.trace import Quantity
from tempo_coach.core.trace_units import known_unit, units_of
from tempo_coach.errors import TraceRefused

_TIMES = frozenset({"time", "timestamp", "elapsed", "t", "clock", "sec", "secs", "second",
                    "seconds", "ms", "msec", "milliseconds"})  # fmt: skip
_COUNTERS = frozenset({"frame", "frames", "sample", "samples", "index", "no", "row"})
_WORDS: Mapping[Quantity, frozenset[str]] = MappingProxyType(
    {
        Quantity.ACCELERATION: frozenset({"acceleration", "accel", "acc", "a", "ay", "az"}),
        Quantity.SPEED: frozenset({"speed", "velocity", "vel", "v", "vy", "vz"}),
        Quantity.HEIGHT: frozenset(
            {"height", "position", "pos", "displacement", "elevation", "h", "y", "z", "vertical"}
        ),
    }
)
"""In the order in which they are looked for: a vertical speed is no height."""
_SIDEWAYS = frozenset({"x", "ax", "vx", "horizontal", "lateral", "angular", "angle"})
_UPRIGHT = frozenset({"vertical", "height", "up"})
_BRACKETS = re.compile(r"^(.*?)\s*[\(\[]\s*([^)\]]*?)\s*[\)\]]\s*$")
_WORD = re.compile(r"[^\W\d_]+|\d+")


@dataclass(frozen=True, slots=True)
class Wishes:
    """What is said about a trace beside the trace."""

    time: str | None = None
    """A heading, or the number of a column, from 1; as for the three next."""
    height: str | None = None
    speed: str | None = None
    acceleration: str | None = None
    time_unit: str | None = None
    unit: str | None = None
    rate_hz: float | None = None
    """Counts the rows, in place of a column of times."""
    down_positive: bool = False


@dataclass(frozen=True, slots=True)
class Column:
    """One column that is used."""

    place: int
    """From 0."""
    heading: str
    """Empty where it has none."""
    unit: str | None
    """None where nothing names it."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """The columns of a trace."""

    time: Column | None
    """None where the rows are counted."""
    bar: Column
    quantity: Quantity
    remarks: tuple[str, ...]


def chosen_columns(
    headings: Sequence[str], units: Sequence[str], columns: int, wishes: Wishes
) -> Chosen:
    """Find the columns of a trace by what is said of them, else by their headings.

    Parameters
    ----------
    headings
        Empty where there are none.
    units
        Those of a row of their own, else empty.
    columns
        How many there are.

    Raises
    ------
    TraceRefused
        A column is not there, or several could be meant.
    """
    table = _Headings(headings, units, columns)
    remarks: list[str] = []
    asked = {one: text for one in Quantity if (text := getattr(wishes, one.value)) is not None}
    if len(asked) > 1:
        raise TraceRefused(
            f"{' and '.join(f'--{one}' for one in asked)} can't both be used", hint="give one"
        )
    time = None
    if wishes.rate_hz is None:
        time = table.time(wishes.time)
    if asked:
        quantity, text = next(iter(asked.items()))
        bar = table.column(table.place(text, option=quantity.value), quantity)
    else:
        taken = None if time is None else time.place
        quantity, bar, told = table.bar(taken, has_rate=wishes.rate_hz is not None)
        remarks += told
    if time is not None and time.place == bar.place:
        raise TraceRefused(
            f"column {bar.place + 1} can't be both the time and the {quantity}",
            hint="give two columns, or --rate where there is none for the time",
        )
    return Chosen(time, bar, quantity, tuple(remarks))


class _Headings:
    """The headings of a table, and what they mean."""

    def __init__(self, headings: Sequence[str], units: Sequence[str], columns: int) -> None:
        self._headings, self._units, self._count = headings, units, columns
        self._words = [frozenset(_words(heading)) for heading in headings]

    def place(self, text: str, *, option: str) -> int:
        """Return the place of a column that is named, or numbered."""
        folded = [heading.casefold() for heading in self._headings]
        for known in (folded, [_bare(heading).casefold() for heading in self._headings]):
            if known.count(text.casefold()) == 1:
                return known.index(text.casefold())
        if text.isdecimal() and 1 <= int(text) <= self._count:
            return int(text) - 1
        hint = nearest_of(text, self._headings) if self._headings else ""
        raise TraceRefused(
            f"--{option}: there is no column {quoted(text)}",
            hint=f"{hint}, or give a number from 1 to {self._count}".removeprefix(", or "),
        )

    def column(self, place: int, quantity: Quantity | None) -> Column:
        """Return a column with the unit that its heading names; no quantity is time."""
        heading = self._headings[place] if self._headings else ""
        return Column(place, heading, self._unit(place, heading, quantity))

    def time(self, asked: str | None) -> Column:
        """Return the column of times."""
        if asked is not None:
            return self.column(self.place(asked, option="time"), None)
        found = [place for place, words in enumerate(self._words) if words & _TIMES]
        if not found and not self._headings and self._count > 1:
            return self.column(0, None)
        # A heading such as 'time (s)' goes before 'time of day' or 'frame time'.
        if len(found) > 1:
            least = min(len(self._words[place]) for place in found)
            found = [place for place in found if len(self._words[place]) == least]
        if len(found) != 1:
            raise self._unclear("time", found, "--time says which, or --rate 100 counts the rows")
        return self.column(found[0], None)

    def bar(self, taken: int | None, *, has_rate: bool) -> tuple[Quantity, Column, list[str]]:
        """Return the column of the bar: a height before a speed before an acceleration."""
        if not self._headings:
            return self._without_headings(taken, has_rate=has_rate)
        found = {quantity: list(self._candidates(quantity, taken)) for quantity in Quantity}
        for quantity, places in found.items():
            if len(places) > 1:
                raise self._unclear(quantity.value, places, f"--{quantity} says which")
            if places:
                others = [one.value for one in Quantity if found[one] and one is not quantity]
                are = "is" if len(others) == 1 else "are"
                left = [f"The {' and the '.join(others)} beside it {are} not used."] * bool(others)
                return quantity, self.column(places[0], quantity), left
        raise self._unclear("bar", [], "--height, --speed or --acceleration says which")

    def _without_headings(
        self, taken: int | None, *, has_rate: bool
    ) -> tuple[Quantity, Column, list[str]]:
        if self._count > (1 if has_rate else 2):
            raise self._unclear("bar", [], "--height 2, --speed 2 or --acceleration 2 says which")
        column = Column(0 if taken is None else 1, "", None)
        read = "" if taken is None else "column 1 is read as the time, "
        return Quantity.HEIGHT, column, [f"There are no headings: {read}column "
                                         f"{column.place + 1} as the height."]  # fmt: skip

    def _candidates(self, quantity: Quantity, taken: int | None) -> Iterator[int]:
        places = [place for place in range(len(self._words))
                  if place != taken and self._quantity(place) is quantity]  # fmt: skip
        upright = [place for place in places if self._words[place] & _UPRIGHT]
        exact = [place for place in upright or places if len(self._words[place]) == 1]
        yield from (upright if len(upright) == 1 else exact if len(exact) == 1 else places)

    def _quantity(self, place: int) -> Quantity | None:
        words = self._words[place]
        if words & _SIDEWAYS or words & _TIMES or words & _COUNTERS:
            return None
        return next((one for one, known in _WORDS.items() if words & known), None)

    def _unit(self, place: int, heading: str, quantity: Quantity | None) -> str | None:
        named = self._units[place].strip("()[] ") if self._units else ""
        if not named and (found := _BRACKETS.match(heading)):
            named = found[2]
        if named:
            return known_unit(named, quantity) or named
        words = [word for word in re.split(r"[\s_,/]+", heading) if word]
        if quantity is None and len(words) == 1 and words[0].lower() != "t":
            return known_unit(words[0], None)
        last = words[-1] if len(words) > 1 else ""
        return known_unit(last, quantity) if last else None

    def _unclear(self, what: str, places: Sequence[int], hint: str) -> TraceRefused:
        if places:
            listed = ", ".join(quoted(self._headings[place]) for place in places)
            return TraceRefused(f"several columns could be the {what}: {listed}", hint=hint)
        listed = ", ".join(map(quoted, self._headings[:8])) or f"{self._count} without headings"
        return TraceRefused(f"no column is known as the {what} (there are: {listed})", hint=hint)


def _bare(heading: str) -> str:
    found = _BRACKETS.match(heading)
    return found[1] if found else heading


def _words(heading: str) -> list[str]:
    bare = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", _bare(heading)).replace("_", " ")
    words = [word.lower() for word in _WORD.findall(bare)]
    # A unit behind a name, as in 'height cm', says nothing of what it is.
    if len(words) > 1 and any(known_unit(words[-1], one) for one in (None, *Quantity)):
        words.pop()
    return words


def unit_hint(quantity: Quantity | None) -> str:
    """Return what may be given as a unit."""
    option = "--time-unit" if quantity is None else "--unit"
    return f"give {option} {', '.join(units_of(quantity))}"
