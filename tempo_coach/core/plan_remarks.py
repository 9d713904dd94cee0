"""What of a plan leaves the range of its methods, or its season: remarks, which are no faults."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import timedelta

from tempo_coach.core.legible import quoted
from tempo_coach.core.method_catalogue import METHODS
from tempo_coach.core.method_flags import flags
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.methods import Aspect, Figure
from tempo_coach.core.plan import MOST_WEEKS, Plan, Work
from tempo_coach.core.plan_faults import Finding, PlanFault
from tempo_coach.core.plan_places import Path
from tempo_coach.core.plan_reading import PlanReading, faults_at
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.strength import LifterRecord
from tempo_coach.core.tempo import Allowances


def remarks_of(reading: PlanReading, *, allowances: Allowances) -> tuple[PlanFault, ...]:
    """Return what is to be thought over in a plan, each with its line; none of it is a fault."""
    if reading.plan is None:
        return ()
    plan = reading.plan
    found = [*_of_lines(plan, allowances), *_of_weeks(plan), *_of_calendar(plan)]
    return faults_at(found, reading.lines)


def _of_lines(plan: Plan, allowances: Allowances) -> Iterator[Finding]:
    for path, line, owners in _lines(plan):
        said: dict[str, list[str]] = {}
        for owner in owners:
            strength = LifterRecord(owner, plan.lifter(owner)).strength_for(line, allowances)
            step_kg = plan.loads_by.kg() or 0
            for flag in flags(line, strength, allowances=allowances, step_kg=step_kg):
                said.setdefault(str(flag), []).append(owner)
        for words, names in said.items():
            yield Finding(path, f"for {', '.join(map(quoted, names))}, {words}", "")


def _lines(plan: Plan) -> Iterator[tuple[Path, Prescription, tuple[str, ...]]]:
    for place, day in enumerate(plan.days):
        owners = tuple(one.name for one in plan.lifters if day.is_for(one.name))
        for number, work in enumerate(day.work):
            path: Path = ("days", place, "work", number)
            for end, line in _written(work):
                yield (*path, *end), line, owners


def _written(work: Work) -> Iterator[tuple[Path, Prescription]]:
    if work.line is not None:
        yield ("line",), work.line
    for week, line in work.from_week.items():
        if line is not None:
            yield ("from_week", str(week)), line


def _of_weeks(plan: Plan) -> Iterator[Finding]:
    """Yield where a method is trained more often a week, or for more weeks, than it has."""
    for name, method in METHODS.items():
        sessions, weeks = method.of(Aspect.SESSIONS), method.of(Aspect.WEEKS)
        for place, lifter in enumerate(plan.lifters):
            path: Path = ("lifters", place)
            counts = _days_by_week(plan, lifter.name, name)
            most = max(counts, default=0)
            if _is_more(most, sessions):
                yield Finding(
                    path,
                    f"for {quoted(lifter.name)}, {name} on {most} days of a week: "
                    f"{_range(sessions)} {Aspect.SESSIONS}",
                    "",
                )
            longest = _longest_run(counts)
            if _is_more(longest, weeks):
                yield Finding(
                    path,
                    f"for {quoted(lifter.name)}, {name} in {longest} weeks on end: "
                    f"{_range(weeks)} {Aspect.WEEKS}",
                    "",
                )


def _days_by_week(plan: Plan, lifter: str, name: MethodName) -> list[int]:
    days = [day for day in plan.days if day.is_for(lifter)]
    return [
        sum(any(_has(work, week, name) for work in day.work) for day in days)
        for week in range(1, plan.weeks + 1)
    ]


def _has(work: Work, week: int, name: MethodName) -> bool:
    line = work.in_week(week)
    return line is not None and line.method is name


def _longest_run(counts: Iterable[int]) -> int:
    longest = run = 0
    for count in counts:
        run = run + 1 if count else 0
        longest = max(longest, run)
    return longest


def _of_calendar(plan: Plan) -> Iterator[Finding]:
    """Yield the spans that no week of the season holds, as those of a mistyped year are."""
    begins = plan.iso_week(1).monday()
    ends = begins + timedelta(weeks=MOST_WEEKS)
    for place, span in enumerate(plan.calendar):
        of = f"the {span.kind} of {span.first.isoformat()}"
        path: Path = ("calendar", place, "first")
        if span.until < begins:
            yield Finding(
                path, f"{of} is over before week 1, which begins {begins.isoformat()}", ""
            )
        elif span.first >= ends:
            yield Finding(path, f"{of} is behind the {MOST_WEEKS} weeks that a season has", "")


def _is_more(count: int, figures: tuple[Figure, ...]) -> bool:
    most = [figure.high for figure in figures if figure.high is not None]
    return bool(most) and count > max(most)


def _range(figures: tuple[Figure, ...]) -> str:
    return "; ".join(figure.words for figure in figures)
