from __future__ import annotations

from datetime import date, timedelta

from tempo_coach.coach import Coach
from tempo_coach.core.load import parse_load
from tempo_coach.core.log_reading import read_logs
from tempo_coach.core.plan_days import planned_days
from tempo_coach.core.session import Session, session_of
from tempo_coach.core.session_facts import SessionChanged
from tempo_coach.core.settings import Settings
from tests.tempo_coach.core.plans import plan_of
from tests.tempo_coach.fakes import NOON, HandClock, MemoryLog, RecordingPlayer, disk_full


class Room:
    """A coach, a log and a plan."""

    def __init__(self) -> None:
        self.log = MemoryLog()
        self.clock = HandClock()
        ids = iter(f"{number:04x}" for number in range(1, 100))
        self.coach = Coach(
            log=self.log,
            rescue=MemoryLog("beside the log"),
            player=RecordingPlayer(),
            clock=self.clock,
            new_id=lambda: next(ids),
            settings=Settings(),
        )

    def session(self) -> Session:
        """Return Monday as the log has it."""
        plan = plan_of()
        day = planned_days(plan, lifter="Mirela Oude", around=date(2026, 11, 30)).today
        assert day is not None
        return session_of(
            plan,
            day,
            lifter="Mirela Oude",
            history=read_logs([self.log]).history,
            allowances=Settings().allowances,
        )


def test_a_change_of_the_day_is_a_fact_in_the_log_and_shows_in_the_session() -> None:
    room = Room()

    change, fault = room.coach.change_session(room.session(), 1, "skipped", why="knee")

    assert fault is None
    assert room.log.facts == [change]
    assert change == SessionChanged(
        id="0001",
        at=NOON,
        lifter="Mirela Oude",
        plan="Winter block",
        date=date(2026, 11, 30),
        item=1,
        change="skipped",
        why="knee",
    )
    assert room.session().items[0].skipped == "knee"


def test_every_change_has_what_it_needs() -> None:
    room = Room()
    for change, needed in (
        ("added_set", {}),
        ("swapped", {"exercise": "goblet squat"}),
        ("load_changed", {"load": parse_load("24 kg")}),
        ("moved", {"to": 2}),
    ):
        room.coach.change_session(room.session(), 1, change, **needed)  # type: ignore[arg-type] # of a loop
    moved = room.session().items[1]
    assert str(moved.prescription) == "goblet squat 5x5 @ 24 kg 4-1-X-1 rest 3:00"


def test_a_change_is_dated_after_the_one_before_by_a_clock_that_was_set_back() -> None:
    room = Room()
    first, _ = room.coach.change_session(room.session(), 1, "skipped", why="knee")
    room.clock.advance(-3_600_000)
    second, _ = room.coach.change_session(room.session(), 1, "swapped", exercise="front squat")
    assert second.at == first.at + timedelta(milliseconds=1)
    assert room.session().items[0].skipped is None


def test_a_change_that_the_disk_refuses_is_kept_and_said() -> None:
    room = Room()
    room.log.fault = disk_full()
    change, fault = room.coach.change_session(room.session(), 1, "added_set")
    assert fault is not None
    assert room.coach.ledger.unsaved == (change,)
