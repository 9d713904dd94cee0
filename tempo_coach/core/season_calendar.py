"""One lifter's year: what each day is for lowering-emphasis work."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from tempo_coach.core.legible import name_key
from tempo_coach.core.plan_season import CalendarSpan
from tempo_coach.core.prescription import clean_name
from tempo_coach.core.taper import Taper
from tempo_coach.core.weeks import IsoWeek

DAYS_A_WEEK = 7


@dataclass(frozen=True, slots=True)
class SeasonDay:
    """What one day is."""

    date: date
    share: float
    """What the calendar leaves of the day's lowering emphasis, 0 to 1."""
    spans: tuple[CalendarSpan, ...]
    """Those that hold; none is off season."""
    meet: CalendarSpan | None
    """The meet that the day is a part of or tapers to."""

    @property
    def is_loading(self) -> bool:
        """Nothing is taken out."""
        return self.share == 1.0

    @property
    def words(self) -> str:
        """What the day is, in a few words; before a meet with all that takes out something."""
        if self.meet is None:
            return ", ".join(span.name or span.kind for span in self.spans) or "off season"
        if self.date >= self.meet.first:
            return self.meet.name or "meet"
        left = (self.meet.first - self.date).days
        words = f"{left} day{'' if left == 1 else 's'} to {self.meet.name or 'the meet'}"
        also = [span.name or span.kind for span in self.spans if span.kind != "off season"]
        return ", ".join((words, *also))


@dataclass(frozen=True, slots=True)
class SeasonCalendar:
    """One lifter's calendar: his own spans hold before the team's."""

    team: tuple[CalendarSpan, ...]
    own: tuple[CalendarSpan, ...]
    taper: Taper

    @classmethod
    def of(cls, spans: Iterable[CalendarSpan], *, lifter: str, taper: Taper) -> SeasonCalendar:
        """Return the calendar of a lifter; the spelling's case does not matter."""
        team, own = [], []
        for span in spans:
            if span.lifters is None:
                team.append(span)
            elif name_key(lifter) in (name_key(clean_name(name)) for name in span.lifters):
                own.append(span)
        return cls(tuple(team), tuple(own), taper)

    def day(self, on: date) -> SeasonDay:
        """Return what a day is."""
        spans = tuple(span for span in self.own if span.first <= on <= span.until) or tuple(
            span for span in self.team if span.first <= on <= span.until
        )
        share = 1.0
        for span in spans:
            if span.kind == "in season":
                share *= (span.lowering_percent or 0.0) / 100
            elif span.kind != "off season":
                share = 0.0
        meet = self._meet(on)
        if meet is not None:
            share *= self.taper.share(max((meet.first - on).days, 0))
        return SeasonDay(on, share, tuple(s for s in spans if s is not meet), meet)

    def week(self, week: IsoWeek) -> tuple[SeasonDay, ...]:
        """Return what the seven days of a week are."""
        monday = week.monday()
        return tuple(self.day(monday + timedelta(days=day)) for day in range(DAYS_A_WEEK))

    def meets(self) -> tuple[CalendarSpan, ...]:
        """Return the meets, in order."""
        return tuple(
            sorted(
                (span for span in (*self.team, *self.own) if span.kind == "meet"),
                key=lambda span: span.first,
            )
        )

    def _meet(self, on: date) -> CalendarSpan | None:
        """Return the next meet for which a day tapers, or which it is a part of."""
        reach = timedelta(days=max(self.taper.days, self.taper.last_days))
        near = (one for one in self.meets() if one.first - reach <= on <= one.until)
        return next(near, None)
