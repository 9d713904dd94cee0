"""A plan: weeks of work that a coach writes for one lifter or several."""

from __future__ import annotations

import re
from datetime import date, timedelta
from decimal import Decimal
from typing import Annotated, Any, Literal, TypeAlias, get_args

from pydantic import BaseModel, ConfigDict, Field, PlainValidator, WithJsonSchema

from tempo_coach.core.fact_values import Note
from tempo_coach.core.legible import name_key, quoted
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.nearest import nearest_of
from tempo_coach.core.plan_season import MOST_KG_S, MOST_S, CalendarSpan, DosingRules
from tempo_coach.core.plan_values import (
    ExerciseName,
    Line,
    PersonName,
    PlanDay,
    PlanName,
    Step,
    Weight,
)
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.season_calendar import SeasonCalendar
from tempo_coach.core.weeks import IsoWeek
from tempo_coach.errors import OutOfRange

MOST_WEEKS = 104
_WEEK = re.compile(r"[1-9][0-9]{0,3}")

Weekday: TypeAlias = Literal[
    "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"
]
WEEKDAYS: tuple[Weekday, ...] = get_args(Weekday)


def _week(value: object) -> int:
    if isinstance(value, int):
        return value
    if isinstance(value, str) and _WEEK.fullmatch(value):
        return int(value)
    raise ValueError(f"{quoted(str(value))} is no week")


_WeekKey: TypeAlias = Annotated[int, PlainValidator(_week), WithJsonSchema({"type": "string"})]
# TOML gives lists; what is in them stays strict.
_Listed = Field(min_length=1, strict=False)


class _Part(BaseModel):
    model_config = ConfigDict(
        frozen=True, extra="forbid", strict=True, allow_inf_nan=False, use_attribute_docstrings=True
    )


class Max(_Part):
    """The greatest load of one rep, as it was tested."""

    exercise: ExerciseName
    load: Weight
    on: PlanDay
    """The day of the test."""
    lower_s: Annotated[float, Field(ge=0, le=60)] | None = None
    """Seconds of lowering in the test; a slower lower makes a smaller max."""


class Lifter(_Part):
    """Who lifts."""

    name: PersonName
    body_mass: Weight | None = None
    base_s: Annotated[float, Field(gt=0, le=MOST_S)] | None = None
    """This lifter's own in place of the one under `dosing`."""
    base_kg_s: Annotated[float, Field(gt=0, le=MOST_KG_S)] | None = None
    """As `base_s`."""
    maxes: Annotated[tuple[Max, ...], Field(strict=False)] = ()
    overload: bool | None = None
    """The coach's word: cleared for lowering more than can be lifted, or not to be given it."""


class Work(_Part):
    """One piece of a day's work, over all weeks."""

    line: Line
    """Holds from week 1 on."""
    note: Note = ""
    from_week: dict[_WeekKey, Line] = {}
    """Lines that take its place, each from its week on."""

    def in_week(self, week: int) -> Prescription | None:
        """Return the line of a week, from 1; None where the work is left out."""
        begun = [first for first in self.from_week if first <= week]
        return self.from_week[max(begun)] if begun else self.line


class Day(_Part):
    """One weekday's work."""

    day: Weekday
    lifters: Annotated[tuple[PersonName, ...], _Listed] | None = None
    """Whose day it is; without it, everybody's."""
    work: Annotated[tuple[Work, ...], _Listed]

    def is_for(self, lifter: str) -> bool:
        """Tell whether the lifter has this day; the spelling's case does not matter."""
        return self.lifters is None or name_key(lifter) in map(name_key, self.lifters)


class Plan(_Part):
    """Weeks of work; `core.plan_reading` sees to what this class does not check between its parts.

    Week 1 is the ISO week that holds `start`.
    """

    name: PlanName
    start: PlanDay
    """Any day of week 1."""
    weeks: Annotated[int, Field(ge=1, le=MOST_WEEKS)]
    unit: Literal["kg", "lb"] = "kg"
    """What computed loads are in."""
    step: Step | None = None
    """The smallest change the rack allows, in `unit`; 2.5 kg or 5 lb where nothing is given."""
    calendar: Annotated[tuple[CalendarSpan, ...], Field(strict=False)] = ()
    """Spans of the year; days in none of them are off season."""
    dosing: DosingRules = DosingRules()
    """How lowering-emphasis work is dosed."""
    lifters: Annotated[tuple[Lifter, ...], _Listed]
    days: Annotated[tuple[Day, ...], _Listed]

    @property
    def loads_by(self) -> Load:
        """The step that loads are rounded to."""
        if self.step is not None:
            return self.step
        return Load(Decimal("2.5") if self.unit == "kg" else Decimal(5), LoadUnit(self.unit))

    def iso_week(self, week: int) -> IsoWeek:
        """Return the calendar's name of a week of the plan, from 1."""
        return IsoWeek.of(IsoWeek.of(self.start).monday() + timedelta(weeks=week - 1))

    def week_on(self, day: date) -> int | None:
        """Return the week of the plan that holds the day, from 1; None outside the plan."""
        week = (day - self.iso_week(1).monday()).days // 7 + 1
        return week if 1 <= week <= self.weeks else None

    def rules_of(self, lifter: str) -> DosingRules:
        """Return how one lifter's work is dosed.

        Raises
        ------
        OutOfRange
            The plan has nobody of that name.
        """
        person = self.lifter(lifter)
        own = {"base_s": person.base_s, "base_kg_s": person.base_kg_s}
        given = {key: amount for key, amount in own.items() if amount is not None}
        return self.dosing.model_copy(update=given)

    def calendar_of(self, lifter: str) -> SeasonCalendar:
        """Return one lifter's calendar.

        Raises
        ------
        OutOfRange
            The plan has nobody of that name.
        """
        person = self.lifter(lifter)
        return SeasonCalendar.of(self.calendar, lifter=person.name, taper=self.dosing.as_taper())

    def has(self, name: str) -> bool:
        """Tell whether the plan has a lifter; the spelling's case does not matter."""
        return name_key(name) in (name_key(lifter.name) for lifter in self.lifters)

    def lifter(self, name: str) -> Lifter:
        """Return a lifter by name; the spelling's case does not matter.

        Raises
        ------
        OutOfRange
            The plan has nobody of that name.
        """
        for lifter in self.lifters:
            if name_key(lifter.name) == name_key(name):
                return lifter
        names = [lifter.name for lifter in self.lifters]
        raise OutOfRange(f"the plan has no lifter {quoted(name)}", hint=nearest_of(name, names))


def plan_schema() -> dict[str, Any]:
    """Return the JSON Schema of a plan."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **Plan.model_json_schema(),
    }
