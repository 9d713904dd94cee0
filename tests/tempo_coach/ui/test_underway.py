from __future__ import annotations

from threading import Thread

from tempo_coach.core.facts import Changes, SetCorrected
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.ui.underway import Underway
from tests.tempo_coach.fakes import disk_full
from tests.tempo_coach.ui.rack import LINE, REP_MS, SETUP_MS, Rack

WORK = parse_prescription(LINE)


def test_a_set_ends_once_however_often_it_is_ended() -> None:
    rack = Rack()
    underway = Underway(rack.coach)
    underway.start(NextSet(WORK), lifter="Ana")
    rack.clock.advance(SETUP_MS + REP_MS)

    first, second = underway.end(), underway.end()

    assert first is not None
    assert second is None
    assert [done.reps_done for done in rack.sets()] == [1]


def test_ending_waits_for_a_start_that_is_still_under_way() -> None:
    rack = Rack()
    underway = Underway(rack.coach)
    rack.player.is_free.clear()
    starting = Thread(target=underway.start, args=(NextSet(WORK),), kwargs={"lifter": "Ana"})
    starting.start()
    closing = Thread(target=underway.close)
    closing.start()

    rack.player.is_free.set()
    starting.join()
    closing.join()
    underway.close()

    assert underway.end() is None
    assert all(playback.was_silenced for playback in rack.player.playbacks)


def test_no_rest_begins_over_a_set_that_runs() -> None:
    rack = Rack()
    underway = Underway(rack.coach)
    underway.start(NextSet(WORK), lifter="Ana")

    assert underway.rest(60_000) is None
    assert len(rack.player.tracks) == 1


def test_closing_silences_a_rest() -> None:
    rack = Rack()
    underway = Underway(rack.coach)
    underway.rest(60_000)

    underway.close()

    assert rack.player.playbacks[0].was_silenced


def test_a_second_correction_is_dated_later_even_by_a_clock_that_stands() -> None:
    rack = Rack()
    underway = Underway(rack.coach)
    underway.start(NextSet(WORK), lifter="Ana")
    rack.clock.advance(SETUP_MS + REP_MS)
    ended = underway.end()
    assert ended is not None
    assert ended.done is not None

    once, _ = underway.correct(ended.done, Changes(effort=8.0))
    twice, _ = underway.correct(once, Changes(effort=9.0))
    underway.correct(twice, Changes(effort=9.5))

    times = [fact.at for fact in rack.log.facts if isinstance(fact, SetCorrected)]
    assert times == sorted(set(times))
    assert len(times) == 3


def test_a_set_that_the_disk_refuses_comes_back_with_the_reason() -> None:
    rack = Rack()
    underway = Underway(rack.coach)
    rack.log.fault = disk_full()
    underway.start(NextSet(WORK), lifter="Ana")
    rack.clock.advance(SETUP_MS + REP_MS)

    ended = underway.end()

    assert ended is not None
    assert ended.fault is rack.log.fault
    assert rack.coach.ledger.unsaved == (ended.done,)


def test_a_load_that_only_the_plan_knows_in_kilograms_is_logged_with_it() -> None:
    rack = Rack()
    underway = Underway(rack.coach)
    chin_up = parse_prescription("chin-up 1x1 @ bw+10 kg 1-0-1-0")
    underway.start(NextSet(chin_up, load_kg=78.0), lifter="Ana")
    rack.clock.advance(SETUP_MS + 2_000)
    ended = underway.end()
    assert ended is not None
    assert ended.done is not None
    assert (ended.done.load_kg, ended.done.load_as_written) == (78.0, "bw+10 kg")
