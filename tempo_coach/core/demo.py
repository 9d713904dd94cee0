"""An invented scenario: the strength room of a rowing club, and twelve weeks of its log."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from tempo_coach.core.bar_simulator import Device, Lifter, simulated_set
from tempo_coach.core.facts import (
    Changes,
    Fact,
    MaxStruck,
    MaxTested,
    SetCorrected,
    SetDone,
    SetStruck,
    What,
)
from tempo_coach.core.load import parse_load
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_work import measured_set
from tempo_coach.core.prescribed_set import prescribed_set
from tempo_coach.core.prescription import Prescription, parse_prescription
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.timeline import rep_times
from tempo_coach.core.work import WorkDone

WEEKS = 12
LIFTER = "Mirela Oude"
LINE = "front squat 4x5 @ 62.5 kg 4-1-X-1 rest 3:00"
"""What stands on the board when the demo opens."""


@dataclass(frozen=True, slots=True)
class _Rower:
    name: str
    days: tuple[int, ...]
    """Of the week, counted from today's weekday, so that there is work whenever it is looked at."""
    hour: int
    blocks: tuple[tuple[str, ...], ...]
    """Lines of three blocks of four weeks each."""
    step_kg: float
    """What goes on the bar each week of a block."""


_CREW = (
    _Rower(
        LIFTER,
        (0, 3),
        18,
        (
            (
                "front squat 3x6 @ 50 kg 3-1-1-0 rest 2:30",
                "romanian deadlift 3x8 @ 55 kg 3-0-1-1 rest 2:00",
            ),
            (
                "front squat 4x5 @ 55 kg 4-1-X-1 rest 3:00",
                "romanian deadlift 3x6 @ 62.5 kg 4-0-1-1 rest 2:30",
            ),
            (
                "front squat 4x4 @ 60 kg 5-0-X-0 rest 3:00",
                "bench pull 3x8 @ 45 kg 2-0-1-1 rest 2:00 lead raise",
            ),
        ),
        2.5,
    ),
    _Rower(
        "Jonne Tarval",
        (1, 4),
        7,
        (
            (
                "back squat 3x8 @ 80 kg 2-0-1-0 rest 2:30",
                "chin-up 3x5 @ bw 3-1-X-0 rest 2:00",
            ),
            (
                "back squat 4x5 @ 90 kg 4-0-X-0 rest 3:00",
                "chin-up 4x4 @ bw+5 kg 5-0-X-0 rest 2:00",
            ),
            (
                "back squat 3x3 @ 100 kg 6-0-X-0 rest 4:00",
                "bench pull 3x6 @ 60 kg 2-0-1-1 rest 2:00 lead raise",
            ),
        ),
        5.0,
    ),
    _Rower(
        "Sabine Ihle",
        (2, 5),
        17,
        (
            (
                "goblet squat 3x10 @ 16 kg 3-1-1-0 rest 1:30",
                "nordic hamstring curl 2x5 @ bw 5-0-A-0 rest 2:00",
            ),
            (
                "goblet squat 3x8 @ 20 kg 4-1-1-0 rest 2:00",
                "nordic hamstring curl 3x5 @ bw 5-0-A-0 rest 2:00",
            ),
            (
                "front squat 3x6 @ 35 kg 4-1-1-0 rest 2:30",
                "nordic hamstring curl 3x8 @ bw 4-0-A-0 rest 2:00",
            ),
        ),
        1.0,
    ),
)


def demo_facts(now: datetime) -> Iterator[Fact]:
    """Yield the log of the twelve weeks up to yesterday; the same day gives the same log."""
    monday = now.replace(hour=0, minute=0, second=0, microsecond=0) - timedelta(days=now.weekday())
    first = monday - timedelta(weeks=WEEKS - 1)
    for number, rower in enumerate(_CREW):
        for week in range(WEEKS):
            for session, days in enumerate(rower.days):
                weekday = (now.weekday() + days) % 7
                day = first + timedelta(weeks=week, days=weekday, hours=rower.hour)
                if day.date() < now.date():
                    yield from _session(rower, f"demo{number}{week:02d}{session}", week, day)
    yield from _tests(first)
    yield from _second_thoughts(first)


def _session(rower: _Rower, name: str, week: int, day: datetime) -> Iterator[Fact]:
    block, week_of_block = divmod(week, 4)
    at = day
    for exercise, text in enumerate(rower.blocks[block]):
        line = _heavier(parse_prescription(text), week_of_block * rower.step_kg)
        reps = line.reps or 1
        rep = rep_times(line.tempo, Allowances(), line.shape)
        for index in range(line.sets):
            # The last set of a block's hardest week ends a rep early.
            tired = week_of_block == 3 and index == line.sets - 1
            done = WorkDone(reps - 1 if tired else reps, rep.times(reps - 1 if tired else reps))
            ended = at + timedelta(milliseconds=done.times.tension_ms)
            logged = prescribed_set(
                line,
                done,
                set_id=f"{name}{exercise}{index}",
                lifter=rower.name,
                started_at=at,
                ended_at=ended,
                timing="paced",
            ).model_copy(
                update={
                    "effort": min(6.5 + 0.5 * week_of_block + 0.5 * index, 10.0),
                    "note": "slow to the last" if tired else "",
                }
            )
            yield logged
            if rower.name == LIFTER and block == _TRACED_BLOCK and exercise == 0:
                yield _traced(logged, line, fatigue=_FATIGUE[week_of_block], seed=10 * week + index)
            at = ended + timedelta(milliseconds=line.rest_ms or 120_000)
        at += timedelta(minutes=4)


def _heavier(line: Prescription, added_kg: float) -> Prescription:
    kg = None if line.load is None else line.load.kg()
    return line if kg is None else replace(line, load=parse_load(f"{kg + added_kg:g} kg"))


_TRACED_BLOCK = 2
_SLOW_DEVICE = Device(rate_hz=25)
"""Nobody reads the trace itself, so it is kept short."""
_FATIGUE = (0.02, 0.05, 0.12, 0.2)
"""By which share the last lower of a set is shorter than the first, week by week."""


def _traced(done: SetDone, line: Prescription, *, fatigue: float, seed: int) -> SetMeasured:
    """Measure a set by a made-up trace: as the bar gets heavier, the lower gets shorter."""
    made = simulated_set(
        replace(line, reps=done.reps_done),
        seed=seed,
        lifter=Lifter(fatigue=fatigue),
        device=_SLOW_DEVICE,
    )
    at = done.ended_at + timedelta(minutes=1)
    return measured_set(done, made.reps, by="trace", at=at, allowances=Allowances())


_MAXES: tuple[tuple[int, str, str, What, float, float, str], ...] = (
    (0, LIFTER, "front squat", "lifted", 85.0, 2.0, ""),
    (6, LIFTER, "front squat", "lifted", 90.0, 2.0, ""),
    (6, LIFTER, "front squat", "lowered", 110.0, 3.0, "lost in the last third"),
    (6, LIFTER, "front squat", "lowered", 100.0, 3.0, "pins at the bottom, two spotters"),
    (6, "Jonne Tarval", "back squat", "lifted", 145.0, 2.0, ""),
    (6, "Jonne Tarval", "back squat", "lowered", 150.0, 4.0, "pins at the bottom, two spotters"),
)
"""Week, lifter, exercise, what was tested, kg, seconds of the lower, note."""
_LOST = 2
"""Which of them was struck, since it was not lowered under control."""


def _tests(first: datetime) -> Iterator[Fact]:
    """Yield the maxes of two Saturdays, and the strike of the one that slipped."""
    for number, (week, lifter, exercise, what, kg, lower_s, note) in enumerate(_MAXES):
        yield MaxTested(
            id=f"demomax{number}",
            lifter=lifter,
            at=first + timedelta(weeks=week, days=5, hours=10, minutes=15 * number),
            exercise=exercise,
            what=what,
            load_kg=kg,
            load_as_written=f"{kg:g} kg",
            lower_s=lower_s,
            note=note,
        )
    at = first + timedelta(weeks=6, days=5, hours=13)
    yield MaxStruck(id=f"demomax{_LOST}", at=at, why="not under control")


def _second_thoughts(first: datetime) -> Iterator[Fact]:
    """Yield a correction and a strike, as any log of twelve weeks has them."""
    yield SetCorrected(
        id="demo000101",
        at=first + timedelta(weeks=1, hours=7),
        changes=Changes(effort=8.0, note="heels came up, lighter next time"),
    )
    yield SetStruck(
        id="demo101100",
        at=first + timedelta(weeks=2, hours=9),
        why="warm-up, logged by mistake",
    )
