from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pytest

from tempo_coach.coach import Coach
from tempo_coach.core.cue_sets import rest_track, set_track
from tempo_coach.core.facts import Changes, Fact, SetCorrected, SetDone, SetStruck
from tempo_coach.core.log_lines import Skipped
from tempo_coach.core.log_reading import read_logs
from tempo_coach.core.prescription import Prescription, parse_prescription
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.running_set import RunningSet
from tempo_coach.core.settings import Settings
from tempo_coach.core.tempo import Phase
from tempo_coach.errors import LogUnreadable, LogUnwritable, OutOfRange
from tests.tempo_coach.core.done_sets import MONDAY, done_set, seconds
from tests.tempo_coach.fakes import (
    NOON,
    HandClock,
    MemoryLog,
    RecordingPlayer,
    disk_full,
    no_device,
)

LINE = parse_prescription("front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00")
SETUP_MS = 10_000
REP_MS = 7000


class MovableClock(HandClock):
    """A clock whose wall can be set, as a user or a time server does."""

    wall_moved_by = timedelta()

    def wall(self) -> datetime:
        return super().wall() + self.wall_moved_by


class FlakyLog(MemoryLog):
    """A log that takes so many facts more, and then refuses."""

    def __init__(self, takes: int) -> None:
        super().__init__()
        self.takes = takes

    def append(self, fact: Fact) -> None:
        if self.takes == 0:
            raise disk_full()
        self.takes -= 1
        super().append(fact)


class Rack:
    """A coach and what it was given."""

    def __init__(
        self,
        *,
        settings: Settings | None = None,
        log: MemoryLog | None = None,
        player: RecordingPlayer | None = None,
    ) -> None:
        self.clock = MovableClock(5_000_000)
        self.log = log or MemoryLog()
        self.beside = MemoryLog("beside the log")
        self.player = player or RecordingPlayer()
        self.ids = iter(f"{number:04x}" for number in range(1, 100))
        self.coach = Coach(
            log=self.log,
            rescue=self.beside,
            player=self.player,
            clock=self.clock,
            new_id=lambda: next(self.ids),
            settings=settings or Settings(),
        )

    def start(self, prescription: Prescription = LINE) -> RunningSet:
        running, _ = self.coach.start_set(prescription, lifter="Ansa Vireo")
        return running

    def do(self, prescription: Prescription = LINE, *, for_ms: int = 3_600_000) -> SetDone:
        running = self.start(prescription)
        self.clock.advance(for_ms)
        done, _ = self.coach.end_set(running)
        assert done is not None
        return done


# A set.


def test_a_whole_set_is_logged_as_reps_times_tempo() -> None:
    rack = Rack()
    began = rack.clock.wall()
    done = rack.do(for_ms=SETUP_MS + 5 * REP_MS)
    assert rack.log.facts == [done]
    assert done.seconds == seconds(lower=20, pause=5, raise_=5, top=5)
    assert (done.reps_done, done.reps_prescribed, done.timing) == (5, 5, "paced")
    assert done.lifter == "Ansa Vireo"
    assert done.started_at == began + timedelta(seconds=10)
    assert done.ended_at == began + timedelta(seconds=45)


@pytest.mark.parametrize(
    ("line", "expected", "reps"),
    [
        ("row 1x12 2-0.5-1.25-1", seconds(lower=24, pause=6, raise_=15, top=12), 12),
        ("squat 1x100 3-0-2-1", seconds(lower=300, raise_=200, top=100), 100),
        ("squat 1x3 V-0-A-0", seconds(lower=6, raise_=9), 3),
        ("squat 1x7 0.001-0-0.003-0", seconds(lower=0.007, raise_=0.021), 7),
    ],
)
def test_any_whole_set_has_the_seconds_of_its_tempo_to_the_millisecond(
    line: str, expected: object, reps: int
) -> None:
    done = Rack().do(parse_prescription(line))
    assert done.seconds == expected
    assert done.reps_done == reps


@pytest.mark.parametrize(
    ("into_rep_ms", "expected"),
    [
        (1, seconds(lower=8.001, pause=2, raise_=2, top=2)),
        (2500, seconds(lower=10.5, pause=2, raise_=2, top=2)),
        (4250, seconds(lower=12, pause=2.25, raise_=2, top=2)),
        (5750, seconds(lower=12, pause=3, raise_=2.75, top=2)),
        (6999, seconds(lower=12, pause=3, raise_=3, top=2.999)),
    ],
)
def test_a_set_stopped_in_any_phase_is_logged_as_far_as_it_went(
    into_rep_ms: int, expected: object
) -> None:
    rack = Rack()
    done = rack.do(for_ms=SETUP_MS + 2 * REP_MS + into_rep_ms)
    assert done.seconds == expected
    assert done.reps_done == 2
    assert done.ended_at - done.started_at == timedelta(milliseconds=2 * REP_MS + into_rep_ms)
    assert rack.log.facts == [done]


@pytest.mark.parametrize("for_ms", [0, 1, 9999, SETUP_MS])
def test_a_set_stopped_before_the_first_rep_logs_nothing(for_ms: int) -> None:
    rack = Rack()
    running = rack.start()
    rack.clock.advance(for_ms)
    assert rack.coach.end_set(running) == (None, None)
    assert rack.log.facts == []
    assert rack.player.playbacks[0].was_silenced


@pytest.mark.parametrize(
    "moved_by", [timedelta(hours=-3), timedelta(days=-400), timedelta(hours=1)]
)
def test_a_wall_clock_that_is_set_during_a_set_changes_neither_its_length_nor_its_start(
    moved_by: timedelta,
) -> None:
    rack = Rack()
    running = rack.start()
    rack.clock.advance(30_000)
    rack.clock.wall_moved_by = moved_by
    rack.clock.advance(15_000)
    done, _ = rack.coach.end_set(running)
    assert done is not None
    assert done.started_at == NOON + timedelta(milliseconds=5_000_000 + SETUP_MS)
    assert done.ended_at - done.started_at == timedelta(seconds=35)


def test_each_set_has_its_own_id() -> None:
    rack = Rack()
    assert [rack.do().id, rack.do().id] == ["0001", "0002"]


def test_the_settings_decide_the_setup_and_what_stands_in_for_x() -> None:
    rack = Rack(settings=Settings(setup_s=5, fast_s=0.7))
    timeline = rack.coach.timeline(LINE)
    assert (timeline.setup_ms, timeline.rep_ms) == (5000, 6700)
    assert rack.start().timeline == timeline


def test_a_set_that_is_too_long_is_refused_before_anything_sounds() -> None:
    rack = Rack()
    with pytest.raises(OutOfRange, match="a set is at most 600 s"):
        rack.start(parse_prescription("squat 1x100 60-0-0-0"))
    assert rack.player.tracks == []


# Its sound.


def test_a_set_is_played_as_one_track() -> None:
    rack = Rack()
    running = rack.start()
    (track,) = rack.player.tracks
    np.testing.assert_array_equal(track, set_track(running.timeline))


@pytest.mark.parametrize(
    ("lag_ms", "offset_ms", "zero_ms"), [(100, 0, 100), (100, 150, 250), (0, -80, -80)]
)
def test_the_picture_waits_for_the_sound_by_lag_and_offset(
    lag_ms: int, offset_ms: int, zero_ms: int
) -> None:
    rack = Rack(settings=Settings(offset_ms=offset_ms), player=RecordingPlayer(lag_ms=lag_ms))
    running = rack.start()
    assert running.zero_ms == 5_000_000 + zero_ms
    assert running.began_at == rack.clock.wall() + timedelta(milliseconds=zero_ms)


def test_a_set_without_a_device_runs_and_says_why_it_is_silent() -> None:
    fault = no_device()
    rack = Rack(player=RecordingPlayer(fault=fault), settings=Settings(offset_ms=200))
    running, said = rack.coach.start_set(LINE, lifter="Ansa Vireo")
    rack.clock.advance(SETUP_MS + 5 * REP_MS)
    done, _ = rack.coach.end_set(running)
    assert said is fault
    assert running.zero_ms == 5_000_000
    assert done is not None
    assert done.reps_done == 5
    assert not rack.coach.has_lost_sound(running)


def test_a_device_that_gives_up_inside_a_set_is_noticed() -> None:
    rack = Rack()
    running = rack.start()
    assert not rack.coach.has_lost_sound(running)
    rack.clock.advance(20_000)
    rack.player.playbacks[0].was_lost = True
    assert rack.coach.has_lost_sound(running)


def test_a_track_that_has_ended_with_its_set_is_not_lost() -> None:
    rack = Rack()
    running = rack.start()
    rack.clock.advance(SETUP_MS + 5 * REP_MS)
    rack.player.playbacks[0].was_lost = True
    assert not rack.coach.has_lost_sound(running)


def test_a_set_that_is_stopped_is_silenced_and_one_that_is_over_rings_out() -> None:
    stopped, over = Rack(), Rack()
    stopped.do(for_ms=SETUP_MS + REP_MS)
    over.do(for_ms=SETUP_MS + 5 * REP_MS)
    assert stopped.player.playbacks[0].was_silenced
    assert not over.player.playbacks[0].was_silenced


def test_a_new_set_silences_what_still_sounds() -> None:
    rack = Rack()
    rack.do()
    rack.coach.start_rest(90_000)
    rack.start()
    assert [one.was_silenced for one in rack.player.playbacks] == [True, True, False]


def test_a_rest_has_its_own_track_and_runs_from_its_beginning() -> None:
    rack = Rack(player=RecordingPlayer(lag_ms=100))
    rest = rack.coach.start_rest(30_000)
    np.testing.assert_array_equal(rack.player.tracks[0], rest_track(30_000))
    rack.clock.advance(12_000)
    assert rest.left_ms(rack.clock.now_ms()) == 18_000


def test_a_rest_runs_without_a_device() -> None:
    rack = Rack(player=RecordingPlayer(fault=no_device()))
    assert rack.coach.start_rest(30_000).left_ms(rack.clock.now_ms()) == 30_000


# A disk that fails.


def test_a_set_that_the_disk_does_not_take_is_kept_and_saved_in_order_with_the_next() -> None:
    fault = disk_full()
    rack = Rack(log=MemoryLog(fault=fault))
    running = rack.start()
    rack.clock.advance(3_600_000)
    first, said = rack.coach.end_set(running)
    second = rack.do()
    assert said is fault
    assert list(rack.coach.ledger.unsaved) == [first, second]
    assert rack.log.facts == []

    rack.log.fault = None
    third = rack.do()

    assert rack.log.facts == [first, second, third]
    assert list(rack.coach.ledger.unsaved) == []


def test_a_disk_that_fails_half_way_keeps_what_it_did_not_take() -> None:
    log = FlakyLog(takes=0)
    rack = Rack(log=log)
    first, second = rack.do(), rack.do()
    log.takes = 1
    third = rack.do()
    assert log.facts == [first]
    assert rack.coach.ledger.unsaved == (second, third)


def test_leaving_with_everything_saved_needs_no_rescue() -> None:
    rack = Rack()
    rack.do()
    assert rack.coach.ledger.rescue() is None
    assert rack.beside.facts == []


def test_leaving_tries_the_log_once_more() -> None:
    rack = Rack(log=MemoryLog(fault=disk_full()))
    done = rack.do()
    rack.log.fault = None
    assert rack.coach.ledger.rescue() is None
    assert (rack.log.facts, rack.beside.facts) == ([done], [])


def test_leaving_with_a_full_disk_saves_beside_the_log_and_says_where() -> None:
    rack = Rack(log=MemoryLog(fault=disk_full()))
    done = rack.do()
    rack.coach.strike(done, why="wrong bar")
    assert rack.coach.ledger.rescue() == "beside the log"
    assert [fact.id for fact in rack.beside.facts] == [done.id, done.id]
    assert rack.beside.facts[0] == done
    assert rack.coach.ledger.unsaved == ()


def test_leaving_when_no_place_takes_the_facts_is_told_and_keeps_them() -> None:
    rack = Rack(log=MemoryLog(fault=disk_full()))
    done = rack.do()
    rack.beside.fault = disk_full()
    with pytest.raises(LogUnwritable):
        rack.coach.ledger.rescue()
    assert rack.coach.ledger.unsaved == (done,)


# Corrections.


def test_corrected_reps_bring_their_seconds_with_them() -> None:
    rack = Rack()
    now, fault = rack.coach.correct(done_set(), Changes(reps_done=4))
    expected = Changes(reps_done=4, seconds=seconds(lower=16, pause=4, raise_=4, top=4))
    assert rack.log.facts == [SetCorrected(id="5c2e", at=rack.clock.wall(), changes=expected)]
    assert now == done_set(reps_done=4, seconds=expected.seconds)
    assert fault is None


def test_what_was_lowered_is_refused_where_the_set_lowers_no_other_load() -> None:
    rack = Rack()
    with pytest.raises(OutOfRange, match="lowers no other load than it raises"):
        rack.coach.correct(done_set(), Changes(lower_load_kg=130.0))
    assert rack.log.facts == []


def test_corrected_reps_use_the_allowance_that_is_set() -> None:
    rack = Rack(settings=Settings(fast_s=0.5))
    now, _ = rack.coach.correct(done_set(), Changes(reps_done=2))
    assert now.seconds == seconds(lower=8, pause=2, raise_=1, top=2)


def test_corrected_reps_leave_out_what_others_did() -> None:
    rack = Rack()
    lowering = done_set(v=2, shape=RepShape(only=Phase.LOWER))

    now, _ = rack.coach.correct(lowering, Changes(reps_done=2))

    assert now.seconds == seconds(lower=8, pause=2, top=2)


def test_seconds_that_are_given_stand_whatever_the_reps() -> None:
    given = seconds(lower=17.5)
    now, _ = Rack().coach.correct(done_set(), Changes(reps_done=4, seconds=given))
    assert now.seconds == given


def test_reps_corrected_to_what_they_are_leave_measured_seconds_alone() -> None:
    measured = done_set(timing="tapped", seconds=seconds(lower=21.3, pause=4, raise_=6, top=4))
    now, _ = Rack().coach.correct(measured, Changes(reps_done=5, effort=9.0))
    assert now.seconds == measured.seconds
    assert now.effort == 9.0


def test_other_corrections_leave_the_seconds_alone() -> None:
    rack = Rack()
    now, _ = rack.coach.correct(done_set(), Changes(load_kg=None, note="bar unknown"))
    assert now == done_set(load_kg=None, note="bar unknown")
    (fact,) = rack.log.facts
    assert isinstance(fact, SetCorrected)
    assert fact.changes.given() == {"load_kg": None, "note": "bar unknown"}


def test_reps_that_would_take_more_than_ten_hours_are_refused_and_not_logged() -> None:
    rack = Rack()
    slow = rack.do(parse_prescription("squat 1x1 60-0-0-0"))
    with pytest.raises(OutOfRange, match="60000 s in one phase are not possible"):
        rack.coach.correct(slow, Changes(reps_done=1000))
    assert rack.log.facts == [slow]


def test_a_correction_counts_even_if_the_clock_was_set_back() -> None:
    rack = Rack()
    done = rack.do()
    earlier, _ = rack.coach.correct(done, Changes(reps_done=3))
    before = read_logs([rack.log]).history.corrected[done.id]
    rack.clock.wall_moved_by = timedelta(days=-2)

    rack.coach.correct(earlier, Changes(reps_done=4), after=before)

    history = read_logs([rack.log]).history
    assert history.sets[0].reps_done == 4
    assert history.corrected[done.id] > before


def test_a_correction_that_the_disk_does_not_take_is_kept() -> None:
    rack = Rack(log=MemoryLog(fault=disk_full()))
    now, fault = rack.coach.correct(done_set(), Changes(note="later"))
    assert fault is rack.log.fault
    assert now.note == "later"
    assert len(rack.coach.ledger.unsaved) == 1


def test_a_struck_set_no_longer_counts() -> None:
    rack = Rack()
    done = rack.do()
    assert rack.coach.strike(done, why="wrong bar") is None
    assert rack.log.facts[-1] == SetStruck(id=done.id, at=rack.clock.wall(), why="wrong bar")
    assert read_logs([rack.log]).history.sets == ()


# Several logs.


class LinesLog(MemoryLog):
    """A log with a line that was passed over."""

    def read(self) -> Iterator[Fact | Skipped]:
        yield from super().read()
        yield Skipped(self.name, 2, "not JSON")


def test_several_logs_are_read_as_one_with_what_was_skipped_in_each() -> None:
    hers, his = LinesLog("hers"), LinesLog("his")
    later = done_set(id="b", lifter="Oda Falk", started_at=MONDAY + timedelta(hours=1))
    hers.append(later)
    his.append(done_set(id="a"))
    his.append(later)
    reading = read_logs([hers, his])
    assert [done.id for done in reading.history.sets] == ["a", "b"]
    assert reading.skipped == (Skipped("hers", 2, "not JSON"), Skipped("his", 2, "not JSON"))


def test_one_log_that_can_not_be_read_stops_the_reading() -> None:
    class Missing(MemoryLog):
        def read(self) -> Iterator[Fact | Skipped]:
            raise LogUnreadable("no such log", path=Path("gone.jsonl"))

    with pytest.raises(LogUnreadable):
        read_logs([MemoryLog(), Missing()])
