"""A plan to begin from, with a word on every key."""

from __future__ import annotations

from datetime import date, timedelta

from tempo_coach.core.weeks import next_monday


def starter(today: date) -> str:
    """Return the text of a commented plan of invented people that starts next Monday."""
    monday = next_monday(today)
    tested = monday - timedelta(days=18)
    spans = {"season": 56, "season_end": 125, "meet": 160}
    days = {name: (monday + timedelta(days=after)).isoformat() for name, after in spans.items()}
    return _TEXT.format(start=monday.isoformat(), tested=tested.isoformat(), **days)


_TEXT = """\
# A plan: weeks of work for one lifter or several.
# What stands behind a # is a remark; change everything else as you like.
# A text stands between "quotes", a number or a date without.
# 'tempo-coach plan check FILE' finds mistakes, 'tempo-coach plan show FILE' shows a week.

name = "Winter block"
start = {start}        # any day of week 1; weeks run from Monday to Sunday
weeks = 6
unit = "kg"               # kg or lb: what loads worked out from a % are in
step = "2.5 kg"           # the smallest change your rack allows; those loads are rounded to it

# How lowering-emphasis work is dosed; what is not said here is as by default.

[dosing]
emphasis_from_s = 3       # a lower of so many seconds is lowering-emphasis work
growth_percent = 10       # a week may be so much above the loading week before
# base_s = 240            # lowering seconds of the first week; else from the log
# base_kg_s = 18000       # the same for load x seconds

# The year, one [[calendar]] for each span: off season, in season, meet, holiday or illness.
# Days in none of them are off season. A lifter's own span goes before the team's.

[[calendar]]
kind = "in season"
first = {season}
last = {season_end}
name = "League"
lowering_percent = 0      # how much of the lowering emphasis stays; ordinary work goes on

[[calendar]]
kind = "meet"
first = {meet}        # lowering comes down over the two weeks before
name = "Spring meet"
lifters = ["Jonne Tarval"]     # without this key it is the whole team's

# One [[lifters]] for each person, and behind it one [[lifters.maxes]] for each max.

[[lifters]]
name = "Mirela Oude"
body_mass = "68 kg"       # for loads such as bw+10 kg
overload = false          # the coach's word: true, cleared for lowering more than can be lifted

[[lifters.maxes]]
exercise = "front squat"  # the same name as in the lines below
load = "90 kg"
on = {tested}           # the day of the test
lower_s = 2               # seconds of lowering in the test: a slower lower makes a smaller max

[[lifters]]
name = "Jonne Tarval"
body_mass = "84 kg"

[[lifters.maxes]]
exercise = "front squat"
load = "117.5 kg"
on = {tested}
lower_s = 2

# One [[days]] for each weekday, and behind it one [[days.work]] for each line on the board:
# exercise, sets x reps, @ load, tempo as lower-pause-raise-top, rest.

[[days]]
day = "Monday"

[[days.work]]
line = "front squat 4x5 @ 72% 4-1-X-1 rest 3:00"
note = "heels down; stop when the fourth second is lost"
from_week.3 = "front squat 4x4 @ 77% 5-1-X-1 rest 3:00"   # holds from week 3 on
from_week.6 = "front squat 2x4 @ 77% 3-1-X-1 rest 3:00"

[[days.work]]
line = "romanian deadlift 3x8 @ 55 kg 4-0-1-1 rest 2:00"
from_week.6 = "off"       # left out from week 6 on

[[days]]
day = "Thursday"
lifters = ["Jonne Tarval"]     # without this key the day is everybody's

[[days.work]]
line = "chin-up 4x4 @ bw+5 kg 5-0-X-0 rest 2:00"

[[days.work]]
line = "off"              # nothing until week 2
from_week.2 = "nordic hamstring curl 2x5 @ bw 5-0-A-0 rest 2:00"
"""
