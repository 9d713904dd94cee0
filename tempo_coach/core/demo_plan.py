"""The plan of the invented rowing club, for the block that its log is in."""

from __future__ import annotations

from datetime import date, timedelta

from tempo_coach.core.plan import WEEKDAYS
from tempo_coach.core.weeks import IsoWeek

_WEEKS_DONE = 3
_DAYS_TO_RACE = 12


def demo_plan(today: date) -> str:
    """Return the text of a plan in its fourth week, with work today."""
    start = IsoWeek.of(today).monday() - timedelta(weeks=_WEEKS_DONE)
    days = {f"day{after}": WEEKDAYS[(today.weekday() + after) % 7] for after in range(6)}
    return _TEXT.format(
        start=start.isoformat(),
        race=(today + timedelta(days=_DAYS_TO_RACE)).isoformat(),
        tested=(start - timedelta(days=9)).isoformat(),
        **days,
    )


_TEXT = """\
name = "Head race, winter"
start = {start}
weeks = 6
step = "2.5 kg"

[dosing]
base_s = 180

[[calendar]]
kind = "meet"
first = {race}
name = "Head race"

[[lifters]]
name = "Mirela Oude"
body_mass = "68 kg"
[[lifters.maxes]]
exercise = "front squat"
load = "90 kg"
on = {tested}
lower_s = 2

[[lifters]]
name = "Jonne Tarval"
body_mass = "84 kg"
[[lifters.maxes]]
exercise = "back squat"
load = "145 kg"
on = {tested}
lower_s = 2

[[lifters]]
name = "Sabine Ihle"
body_mass = "61 kg"

[[days]]
day = "{day0}"
lifters = ["Mirela Oude"]
[[days.work]]
line = "front squat 4x4 @ 67% 5-0-X-0 rest 3:00"
note = "Heels down. Stop the set when the fifth second of the lower is lost."
from_week.2 = "front squat 4x4 @ 70% 5-0-X-0 rest 3:00"
from_week.3 = "front squat 4x4 @ 72% 5-0-X-0 rest 3:00"
from_week.4 = "front squat 4x4 @ 75% 5-0-X-0 rest 3:00"
from_week.5 = "front squat 2x4 @ 67% 3-0-X-0 rest 3:00"
[[days.work]]
line = "bench pull 3x8 @ 52.5 kg 2-0-1-1 rest 2:00 lead raise"
note = "Chest on the bench throughout."

[[days]]
day = "{day3}"
lifters = ["Mirela Oude"]
[[days.work]]
line = "front squat 4x4 @ 72% 5-0-X-0 rest 3:00"
from_week.5 = "front squat 2x4 @ 67% 3-0-X-0 rest 3:00"
[[days.work]]
line = "bench pull 3x8 @ 52.5 kg 2-0-1-1 rest 2:00 lead raise"

[[days]]
day = "{day1}"
lifters = ["Jonne Tarval"]
[[days.work]]
line = "back squat 3x3 @ 80% 6-0-X-0 rest 4:00"
note = "Pins at the height of the bottom."
from_week.5 = "back squat 2x3 @ 70% 4-0-X-0 rest 4:00"
[[days.work]]
line = "bench pull 3x6 @ 75 kg 2-0-1-1 rest 2:00 lead raise"

[[days]]
day = "{day4}"
lifters = ["Jonne Tarval"]
[[days.work]]
line = "back squat 3x3 @ 77% 6-0-X-0 rest 4:00"
from_week.5 = "off"
[[days.work]]
line = "bench pull 3x6 @ 75 kg 2-0-1-1 rest 2:00 lead raise"

[[days]]
day = "{day2}"
lifters = ["Sabine Ihle"]
[[days.work]]
line = "front squat 3x6 @ 37.5 kg 4-1-1-0 rest 2:30"
[[days.work]]
line = "nordic hamstring curl 3x8 @ bw 4-0-A-0 rest 2:00"
note = "A partner helps on the way up, never on the way down."

[[days]]
day = "{day5}"
lifters = ["Sabine Ihle"]
[[days.work]]
line = "front squat 3x6 @ 37.5 kg 4-1-1-0 rest 2:30"
[[days.work]]
line = "nordic hamstring curl 3x8 @ bw 4-0-A-0 rest 2:00"
"""
