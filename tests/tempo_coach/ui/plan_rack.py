"""The app with a plan that can be edited, broken and taken away while it is open."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from tempo_coach.core.facts import SetDone
from tempo_coach.core.plan_reading import PlanReading, read_plan
from tempo_coach.core.session_facts import SessionChanged
from tempo_coach.core.tempo import parse_tempo
from tempo_coach.errors import TempoCoachError
from tempo_coach.ui.desk import OpenPlan
from tests.tempo_coach.core.done_sets import done_set, seconds
from tests.tempo_coach.fakes import NOON
from tests.tempo_coach.ui.rack import Rack

TODAY = NOON.date()
NOTE = "\n".join(str(number % 10) for number in range(1_000))
TEXT = f'''
name = "Winter block"
start = 2026-02-16
weeks = 6
[[lifters]]
name = "Mirela Oude"
[[lifters.maxes]]
exercise = "front squat"
load = "90 kg"
on = 2026-02-12
[[lifters]]
name = "Jonne Tarval"
[[lifters.maxes]]
exercise = "front squat"
load = "120 kg"
on = 2026-02-12
[[days]]
day = "Monday"
[[days.work]]
line = "front squat 2x1 @ 72% 4-0-1-0 rest 3:00"
note = "heels down"
[[days.work]]
line = "chin-up 1x1 @ bw+5 kg 3-0-X-0 rest 2:00"
note = """{NOTE}"""
[[days]]
day = "Thursday"
[[days.work]]
line = "bench pull 2x8 @ 45 kg V-0-1-1"
[[days.work]]
line = "leg press 1xmax @ 60% 3-0-1-0"
'''
SETUP_MS = 10_000
SQUAT_MS = 5_000
CHIN_MS = 4_000


class EditedPlan:
    """A plan whose text is edited by hand; refuses with `fault` while it has one."""

    def __init__(self, text: str = TEXT) -> None:
        self.text = text
        self.fault: TempoCoachError | None = None

    @property
    def name(self) -> str:
        return "winter.toml"

    def read(self, *, today: date) -> PlanReading:
        if self.fault is not None:
            raise self.fault
        return read_plan(self.text, today=today)


class PlanRack(Rack):
    """A rack with a plan that opens first."""

    def __init__(
        self,
        *,
        lifter: str | None = "Mirela Oude",
        is_first: bool = True,
        text: str = TEXT,
        begins: datetime = NOON,
        **given: Any,
    ) -> None:
        self.plan = EditedPlan(text)
        today = begins.date()
        opened = OpenPlan(self.plan, self.plan.read(today=today).usable("it"), is_first=is_first)
        super().__init__(lifter=lifter, plan=opened, begins=begins, **given)

    async def come_back(self) -> None:
        """Go to the rack and leave it again."""
        await self.press("enter", "escape")

    def changes(self) -> list[tuple[int, str]]:
        return [
            (fact.item, fact.change) for fact in self.log.facts if isinstance(fact, SessionChanged)
        ]


def squat(number: int, *, days_ago: int = 0, **changes: Any) -> SetDone:
    """Return a set of the Monday's squats."""
    began = NOON - timedelta(days=days_ago, minutes=60 - number)
    return done_set(
        **{
            "id": f"squat-{days_ago}-{number}",
            "lifter": "Mirela Oude",
            "started_at": began,
            "ended_at": began + timedelta(seconds=5),
            "tempo": parse_tempo("4-0-1-0"),
            "reps_prescribed": 1,
            "reps_done": 1,
            "seconds": seconds(lower=4, raise_=1),
            "load_kg": 65.0,
            "load_as_written": "65 kg",
        }
        | changes
    )
