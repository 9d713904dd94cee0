"""Plans as a coach writes them, to be varied."""

from __future__ import annotations

from datetime import date
from functools import cache

from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_reading import PlanReading, read_plan

TODAY = date(2026, 11, 25)
"""A Wednesday."""

HEAD = """\
name = "Winter block"
start = 2026-11-30
weeks = 6
"""
LIFTERS = """
[[lifters]]
name = "Mirela Oude"
body_mass = "68 kg"
[[lifters.maxes]]
exercise = "front squat"
load = "90 kg"
on = 2026-11-12
lower_s = 2
[[lifters]]
name = "Jonne Tarval"
"""
DAYS = """
[[days]]
day = "Monday"
lifters = ["Mirela Oude"]
[[days.work]]
line = "front squat 4x5 @ 72% 4-1-X-1 rest 3:00"
note = "heels down"
from_week.3 = "front squat 4x4 @ 77% 5-1-X-1 rest 3:00"
from_week.5 = "off"
[[days.work]]
line = "chin-up 3x5 @ bw+10 kg 5-0-1-0 rest 90"
[[days]]
day = "Thursday"
[[days.work]]
line = "bench pull 3x8 @ 45 kg 2-0-1-1 lead raise"
"""
TEXT = HEAD + LIFTERS + DAYS


def reading(text: str) -> PlanReading:
    return read_plan(text, today=TODAY)


@cache
def plan_of(text: str = TEXT) -> Plan:
    """Return the plan of a text that has no faults."""
    read = reading(text)
    assert read.faults == ()
    assert read.plan is not None
    return read.plan


def one_lifter_plan(days: str, *, weeks: int, start: str = "2026-11-30") -> Plan:
    """Return a plan of one lifter without maxes."""
    head = f'name = "Block"\nstart = {start}\nweeks = {weeks}\n'
    return plan_of(f'{head}[[lifters]]\nname = "Sabine Ihle"\n{days}')
