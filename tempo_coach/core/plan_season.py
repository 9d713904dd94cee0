"""What a plan says of the year: spans of the calendar, and the rules by which lowering is dosed."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator

from tempo_coach.core.adherence import Band
from tempo_coach.core.plan_values import ExerciseName, GroupName, PlanDay, SpanName, refusal
from tempo_coach.core.soreness_facts import Soreness
from tempo_coach.core.taper import LONGEST_DAYS, Taper, TaperShape
from tempo_coach.errors import OutOfRange

SpanKind: TypeAlias = Literal["off season", "in season", "meet", "holiday", "illness"]
MOST_S = 100_000
MOST_KG_S = 10_000_000

_Listed = Field(min_length=1, strict=False)
_Percent: TypeAlias = Annotated[float, Field(ge=0, le=100)]


class _Part(BaseModel):
    model_config = ConfigDict(
        frozen=True, extra="forbid", strict=True, allow_inf_nan=False, use_attribute_docstrings=True
    )


class CalendarSpan(_Part):
    """Some days of the year, and what they are for lowering-emphasis work."""

    kind: SpanKind
    """Off season, in season, meet, holiday or illness."""
    first: PlanDay
    """The first day."""
    last: PlanDay | None = None
    """The last day; without it, one day."""
    name: SpanName | None = None
    """What it is called on the page."""
    lifters: Annotated[tuple[str, ...], _Listed] | None = None
    """Whose it is, before what holds for the team on these days; without it, the whole team's."""
    lowering_percent: _Percent | None = None
    """In season: how much of the lowering emphasis stays; 0 where nothing is said."""

    @property
    def until(self) -> date:
        """The last day."""
        return self.last or self.first


class DosingRules(_Part):
    """How lowering-emphasis work is dosed; each number is the coach's to change."""

    emphasis_from_s: Annotated[float, Field(ge=0, le=60)] = 3.0
    """A lower prescribed with so many seconds or more is lowering-emphasis work. Common practice,
    no source."""
    base_s: Annotated[float, Field(gt=0, le=MOST_S)] | None = None
    """Lowering seconds of the first full loading week; without it, the mean of the last four."""
    base_kg_s: Annotated[float, Field(gt=0, le=MOST_KG_S)] | None = None
    """The same for the lowering load."""
    growth_percent: _Percent = 10.0
    """How much a full loading week may be above the one before it. Common practice, no source."""
    most_percent: Annotated[float, Field(ge=100, le=1000)] = 150.0
    """Where the growth ends, as a share of the base. Common practice, no source."""
    after_break_percent: _Percent = 50.0
    """Where the level begins again after two weeks or more with less than that, planned or done.
    Common practice, no source."""
    taper: TaperShape = Field(default=TaperShape.EXPONENTIAL, strict=False)
    """Before a meet: step, linear or exponential."""
    taper_days: Annotated[int, Field(ge=0, le=LONGEST_DAYS)] = 14
    """Its length; two weeks in Bosquet et al. 2007, MSSE 39:1358."""
    taper_tau_days: Annotated[float, Field(gt=0, le=LONGEST_DAYS)] = 8.0
    """Exponential: after so many days a share of 1/e is left; 8 leaves out half of two weeks."""
    taper_cut_percent: _Percent = 50.0
    """Step and linear: how much of the sum over these days is left out, before `last_days`; linear
    at most 50."""
    last_days: Annotated[int, Field(ge=0, le=LONGEST_DAYS)] = 4
    """How many days before a meet the last lowering emphasis is; 3.7 ± 1.6 d in Pritchard et al.
    2016, JSCR 30:1796."""
    hours_apart: Annotated[float, Field(ge=0, le=336)] = 48.0
    """Between lowering-emphasis work of the same muscles. Common practice, no source; soreness
    peaks at 24 to 72 h, read on a page about Cheung, Hume & Maxwell 2003, Sports Med 33:145."""
    soreness_most: Soreness = 5
    """Soreness told above this, 0 to 10, is said before a set. Common practice, no source."""
    overload_weeks: Annotated[int, Field(ge=1, le=52)] = 4
    """So many weeks of overload in a row, then a break of two. Common practice, no source."""
    group_base_s: dict[GroupName, Annotated[float, Field(gt=0, le=MOST_S)]] = {}
    """Lowering seconds of the first week for a movement group, where one is limited by itself."""
    groups: dict[ExerciseName, GroupName] = {}
    """Exercises with their movement groups, before those that the program knows."""
    ready_weeks: Annotated[int, Field(ge=1, le=52)] = 4
    """Weeks of slow lowering under control before overload or fast lowering. Common practice, no
    source."""
    ready_lower_s: Annotated[float, Field(ge=1, le=60)] = 4.0
    """What a slow lower is for that. Common practice, no source."""
    on_tempo_percent: _Percent = 6.0
    """How far a measured lower may be off. Paced by a metronome, mean velocity varies with a CV of
    4.0 to 6.4 % (bench press metronome study, 15 subjects, 2009)."""
    on_tempo_s: Annotated[float, Field(ge=0, le=10)] = 0.5
    """Or so many seconds, whichever is more. Common practice, no source."""
    ready_kept_percent: _Percent = 80.0
    """How many of the measured slow lowers may be no shorter than that. Common practice, no
    source."""
    ready_max_weeks: Annotated[int, Field(ge=1, le=104)] = 12
    """How old a tested max may be. Common practice, no source."""
    ready_reserve_percent: Annotated[float, Field(ge=100, le=200)] = 110.0
    """The reserve before fast lowering, as a share of the 1RM. Common practice, no source."""

    @field_validator("taper_cut_percent")
    @classmethod
    def _can_be_cut(cls, percent: float, others: ValidationInfo) -> float:
        if "taper" in others.data:
            try:
                Taper(shape=others.data["taper"], cut=percent / 100)
            except OutOfRange as fault:
                raise refusal(fault) from None
        return percent

    @property
    def band(self) -> Band:
        """How near to its prescribed length a measured lower is on tempo."""
        return Band(self.on_tempo_percent / 100, round(self.on_tempo_s * 1000))

    def as_taper(self) -> Taper:
        """Return the taper."""
        return Taper(
            shape=self.taper,
            days=self.taper_days,
            tau_days=self.taper_tau_days,
            cut=self.taper_cut_percent / 100,
            last_days=self.last_days,
        )
