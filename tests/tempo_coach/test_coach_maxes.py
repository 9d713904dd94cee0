from __future__ import annotations

from tempo_coach.core.facts import MaxStruck, MaxTested
from tests.tempo_coach.fakes import NOON, disk_full
from tests.tempo_coach.test_coach_session import Room


def record(room: Room) -> MaxTested:
    tested, fault = room.coach.record_max(
        at=NOON,
        lifter="Mirela Oude",
        exercise="front squat",
        what="lifted",
        load_kg=90.0,
        load_as_written="90 kg",
        lower_s=2.0,
        note="",
    )
    assert (fault is None) == (not room.coach.ledger.unsaved)
    return tested


def test_a_max_is_a_fact_in_the_log_and_counts_until_it_is_struck() -> None:
    room = Room()

    tested = record(room)
    assert room.log.facts == [tested]
    assert room.coach.history().maxes.tested == (tested,)

    assert room.coach.strike_max(tested, why="slip") is None
    assert room.log.facts[-1] == MaxStruck(id=tested.id, at=NOON, why="slip")
    assert room.coach.history().maxes.tested == ()


def test_a_max_that_the_disk_refuses_is_kept_and_counts() -> None:
    room = Room()
    room.log.fault = disk_full()

    tested = record(room)

    assert room.log.facts == []
    assert room.coach.history().maxes.tested == (tested,)
