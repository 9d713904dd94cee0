"""What must agree between the parts of a plan, looked at even where single parts are faulty."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any, get_args

from tempo_coach.core.legible import name_key, quoted
from tempo_coach.core.load import LoadUnit, parse_load
from tempo_coach.core.movement_groups import TABLE
from tempo_coach.core.nearest import nearest, nearest_of
from tempo_coach.core.plan import MOST_WEEKS
from tempo_coach.core.plan_faults import Finding
from tempo_coach.core.plan_places import Path
from tempo_coach.core.plan_season import SpanKind
from tempo_coach.core.plan_values import read_plan_line
from tempo_coach.core.prescription import Prescription, clean_name
from tempo_coach.errors import NotationError, OutOfRange

_WITHOUT_PERCENT = [kind for kind in get_args(SpanKind) if kind != "in season"]
_TEAM = frozenset({""})


@dataclass(frozen=True, slots=True)
class _Table:
    path: Path
    keys: dict[str, Any]

    def tables(self, key: str) -> list[_Table]:
        """Return the tables under a key; what is no table is refused elsewhere."""
        listed = self.keys.get(key)
        return [
            _Table((*self.path, key, index), one)
            for index, one in enumerate(listed if isinstance(listed, list) else ())
            if isinstance(one, dict)
        ]

    def name(self, key: str) -> str | None:
        """Return the text under a key as a name."""
        value = self.keys.get(key)
        return clean_name(value) if isinstance(value, str) else None

    def lines(self) -> Iterator[tuple[Path, Prescription]]:
        """Yield the lines of a piece of work that can be read and are not off."""
        changes = self.keys.get("from_week")
        texts = [(("line",), self.keys.get("line"))] + [
            (("from_week", key), text)
            for key, text in (changes.items() if isinstance(changes, dict) else ())
        ]
        for place, text in texts:
            try:
                line = read_plan_line(text) if isinstance(text, str) else None
            except (NotationError, OutOfRange):
                continue
            if line is not None:
                yield (*self.path, *place), line


def disagreements(data: dict[str, Any]) -> Iterator[Finding]:
    """Yield what can't stand together in a plan."""
    plan = _Table((), data)
    yield from _unit(data)
    yield from _weeks(plan)
    yield from _lifters(plan)
    yield from _days(plan)
    yield from _calendar(plan)
    yield from _groups(data)


def missing_maxes(data: dict[str, Any]) -> Iterator[Finding]:
    """Yield each max that a lifter lacks for a share of it, once, at the first line that asks."""
    plan = _Table((), data)
    tested: dict[str, list[str]] = {}
    for lifter in plan.tables("lifters"):
        exercises = [one.name("exercise") or "" for one in lifter.tables("maxes")]
        tested.setdefault(lifter.name("name") or "", []).extend(exercises)
    lacking: set[tuple[str, str]] = set()
    for day in plan.tables("days"):
        owners = _owners(day, list(tested))
        for work in day.tables("work"):
            for path, line in work.lines():
                if line.load is None or line.load.unit is not LoadUnit.PERCENT:
                    continue
                for owner in owners:
                    lack = (name_key(owner), name_key(line.exercise))
                    if lack[1] not in map(name_key, tested[owner]) and lack not in lacking:
                        lacking.add(lack)
                        yield _missing_max(path, line, owner, tested[owner])


def _missing_max(path: Path, line: Prescription, name: str, known: list[str]) -> Finding:
    near = nearest(line.exercise, known)
    return Finding(
        path,
        f"{line.load} of {quoted(line.exercise)}: {quoted(name)} has no max of it",
        f"there is one of {quoted(near)}; the names must be the same"
        if near
        else "give one in [[lifters.maxes]] behind the lifter",
    )


def _unit(data: dict[str, Any]) -> Iterator[Finding]:
    unit, step = data.get("unit", "kg"), data.get("step")
    if unit not in ("kg", "lb") or not isinstance(step, str):
        return
    try:
        load = parse_load(step)
    except OutOfRange:
        return
    if load.unit in ("kg", "lb") and load.unit != unit:
        default = "2.5 kg" if unit == "kg" else "5 lb"
        yield Finding(
            ("step",),
            f"step is in {load.unit}, but loads are shown in {unit}",
            f'write unit = "{load.unit}", or a step such as "{default}"',
        )


def _weeks(plan: _Table) -> Iterator[Finding]:
    weeks = plan.keys.get("weeks")
    if not isinstance(weeks, int) or not 1 <= weeks <= MOST_WEEKS:
        return
    for day in plan.tables("days"):
        for work in day.tables("work"):
            changes = work.keys.get("from_week")
            for key in changes if isinstance(changes, dict) else ():
                if key.isascii() and key.isdigit() and not 2 <= int(key[:9]) <= weeks:
                    yield Finding(
                        (*work.path, "from_week", key),
                        f"from_week.{key} in a plan of {weeks} weeks",
                        f"2 to {weeks}, for week 1 is the line itself"
                        if weeks > 1
                        else "a plan of one week has no changes by week",
                    )


def _lifters(plan: _Table) -> Iterator[Finding]:
    seen: set[str] = set()
    for lifter in plan.tables("lifters"):
        name = lifter.name("name")
        if name is not None and name_key(name) in seen:
            yield Finding(
                (*lifter.path, "name"),
                f"two lifters are called {quoted(name)}",
                "give each a name of their own, since the log tells them apart by it",
            )
        seen.add(name_key(name or ""))
        yield from _maxes(lifter)


def _maxes(lifter: _Table) -> Iterator[Finding]:
    seen: set[str] = set()
    for one in lifter.tables("maxes"):
        exercise = one.name("exercise") or ""
        # As text, since a faulty value may be a list.
        test = f"{name_key(exercise)}, {one.keys.get('on')}, {one.keys.get('lower_s')}"
        if test in seen:
            yield Finding(
                one.path,
                f"two maxes of {quoted(exercise)} are of one day and one lower",
                "keep the one that counts",
            )
        seen.add(test)


def _days(plan: _Table) -> Iterator[Finding]:
    names = [name for one in plan.tables("lifters") if (name := one.name("name"))]
    taken: set[tuple[str, str]] = set()
    for day in plan.tables("days"):
        yield from _strangers(day, names)
        weekday = day.name("day")
        for owner in _owners(day, names):
            if weekday and (weekday, name_key(owner)) in taken:
                yield Finding(
                    (*day.path, "day"),
                    f"{quoted(weekday)} stands twice for {quoted(owner)}",
                    "put the work of one day under one [[days]]",
                )
                break
        taken.update((weekday or "", name_key(owner)) for owner in _owners(day, names))


def _calendar(plan: _Table) -> Iterator[Finding]:
    names = [name for one in plan.tables("lifters") if (name := one.name("name"))]
    taken: list[tuple[frozenset[str], bool, date, date]] = []
    for span in plan.tables("calendar"):
        yield from _strangers(span, names)
        first, kind = span.keys.get("first"), span.keys.get("kind")
        last = span.keys.get("last", first)
        if kind in _WITHOUT_PERCENT and "lowering_percent" in span.keys:
            yield Finding(
                (*span.path, "lowering_percent"),
                f"lowering_percent goes with in season, not with {quoted(str(kind))}",
                "leave it out",
            )
        # A time of day is refused elsewhere.
        if type(first) is not date or type(last) is not date:
            continue
        if last < first:
            yield Finding(
                (*span.path, "last"),
                f"the span ends on {last.isoformat()}, before it begins",
                f"on {first.isoformat()} or later",
            )
            continue
        is_own = "lifters" in span.keys
        owners = frozenset(map(name_key, _owners(span, names))) if is_own else _TEAM
        is_meet = kind == "meet"
        for others, is_other_meet, begins, ends in taken:
            if owners & others and is_meet == is_other_meet and first <= ends and begins <= last:
                yield Finding(
                    (*span.path, "first"),
                    f"the span overlaps the one of {begins.isoformat()} to {ends.isoformat()}",
                    "a day has one span of the team, one of the lifter's own, and meets in them",
                )
                break
        taken.append((owners, is_meet, first, last))


def _groups(data: dict[str, Any]) -> Iterator[Finding]:
    dosing = data.get("dosing")
    rules = dosing if isinstance(dosing, dict) else {}
    groups, bases = (
        of if isinstance(of := rules.get(key), dict) else {} for key in ("groups", "group_base_s")
    )
    yield from _repeated("groups", groups)
    yield from _repeated("group_base_s", bases)
    known = set(TABLE.values()) | {name_key(clean_name(str(group))) for group in groups.values()}
    for name in bases:
        key = name_key(clean_name(name))
        if key and key not in known:
            yield Finding(
                ("dosing", "group_base_s", name),
                f"no exercise is of the movement group {quoted(name)}",
                f"{nearest_of(name, sorted(known))}; groups makes one of an exercise",
            )


def _repeated(key: str, names: Iterable[str]) -> Iterator[Finding]:
    seen: set[str] = set()
    for name in names:
        if name_key(clean_name(name)) in seen:
            yield Finding(
                ("dosing", key, name),
                f"{key} has {quoted(name)} twice",
                "keep the one that counts; small and capital letters are the same here",
            )
        seen.add(name_key(clean_name(name)))


def _strangers(table: _Table, names: list[str]) -> Iterator[Finding]:
    """Yield the names in a list of lifters that the plan does not have."""
    listed = table.keys.get("lifters")
    for index, name in enumerate(listed if isinstance(listed, list) else ()):
        if isinstance(name, str) and name_key(clean_name(name)) not in map(name_key, names):
            yield Finding(
                (*table.path, "lifters", index),
                f"{quoted(name)} is no lifter of this plan",
                nearest_of(name, names),
            )


def _owners(day: _Table, names: list[str]) -> list[str]:
    listed = day.keys.get("lifters")
    if not isinstance(listed, list):
        return names
    wanted = {name_key(clean_name(one)) for one in listed if isinstance(one, str)}
    return [name for name in names if name_key(name) in wanted]
