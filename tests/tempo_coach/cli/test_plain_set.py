from __future__ import annotations

import pytest

from tempo_coach.cli.plain_set import PlainSets, bar_sentence, meaning
from tempo_coach.coach import Coach
from tempo_coach.core.facts import SetDone
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.settings import Settings
from tempo_coach.core.week_room import WeekRoom
from tests.tempo_coach.core.test_week_room import measure, room
from tests.tempo_coach.fakes import HandClock, MemoryLog, RecordingPlayer, disk_full, no_device


class Timed:
    """Sets paced by hand, with the moment at which each line was printed."""

    def __init__(
        self,
        line: str,
        capsys: pytest.CaptureFixture[str],
        *,
        player: RecordingPlayer | None = None,
        log: MemoryLog | None = None,
        room: WeekRoom | None = None,
    ) -> None:
        self.log = log or MemoryLog()
        self.player = player or RecordingPlayer()
        self.clock = TellingClock(capsys)
        self.coach = Coach(
            log=self.log,
            rescue=MemoryLog("beside"),
            player=self.player,
            clock=self.clock,
            new_id=iter("abcdef").__next__,
            settings=Settings(setup_s=3.0),
        )
        self.asked: list[str] = []
        prescription = parse_prescription(line)
        self.sets = PlainSets(
            self.coach,
            prescription,
            lifter="Mirela Oude",
            wait_for_start=self.asked.append,
            heading=meaning(self.coach, prescription),
            room=room,
        )

    def run(self) -> int:
        code = self.sets.run()
        self.clock.take()
        return code


class TellingClock(HandClock):
    """Keeps what was printed up to each moment that is waited for."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        super().__init__()
        self._capsys = capsys
        self.told: list[tuple[int, str]] = []
        self.warned = ""
        self.warned_at: list[int] = []

    def sleep_until_ms(self, moment_ms: int) -> None:
        self.take()
        super().sleep_until_ms(moment_ms)

    def take(self) -> None:
        printed = self._capsys.readouterr()
        self.warned += printed.err
        self.warned_at += [self.now_ms()] * printed.err.count("note: ")
        self.told += [(self.now_ms(), line) for line in printed.out.splitlines()]


def test_each_phase_is_a_line_at_its_moment(capsys: pytest.CaptureFixture[str]) -> None:
    timed = Timed("squat 1x2 @ 60 kg 2-1-X-0.5", capsys)

    code = timed.run()

    assert code == 0
    assert timed.clock.told[-12:] == [
        (0, "ready 3"),
        (1000, "ready 2"),
        (2000, "ready 1"),
        (3000, "rep 1 of 2: lower 2 s"),
        (5000, "rep 1 of 2: pause 1 s"),
        (6000, "rep 1 of 2: raise X 1 s"),
        (7000, "rep 1 of 2: top 0.5 s"),
        (7500, "rep 2 of 2, last rep: lower 2 s"),
        (9500, "rep 2 of 2: pause 1 s"),
        (10_500, "rep 2 of 2: raise X 1 s"),
        (11_500, "rep 2 of 2: top 0.5 s"),
        (12_000, "saved: 2 of 2 reps, lowering 4 s, tension about 9 s, id a"),
    ]
    assert timed.clock.told[0] == (0, "squat: 1 set of 2 reps with 60 kg, lower first.")


def test_all_sets_are_done_with_their_rests(capsys: pytest.CaptureFixture[str]) -> None:
    timed = Timed("squat 3x1 1-0-1-0 rest 30", capsys)

    timed.run()

    assert timed.asked == ["set 1 of 3", "set 2 of 3", "set 3 of 3"]
    rest = [line for line in timed.clock.told if "rest" in line[1] or "left" in line[1]]
    assert rest == [
        (5000, "rest 30 s"),
        (25_000, "10 s left"),
        (35_000, "rest over"),
        (40_000, "rest 30 s"),
        (60_000, "10 s left"),
        (70_000, "rest over"),
    ]
    assert len(timed.log.facts) == 3
    assert len(timed.player.tracks) == 5


def test_a_set_that_runs_until_stopped_counts_reps_without_an_end(
    capsys: pytest.CaptureFixture[str],
) -> None:
    timed = Timed("chin-up 1xmax @ bw 1-0-1-0", capsys)

    timed.run()

    lines = [line for _, line in timed.clock.told]
    assert "rep 1: raise 1 s" in lines
    assert not any("last rep" in line for line in lines)
    (fact,) = timed.log.facts
    assert isinstance(fact, SetDone)
    assert (fact.reps_prescribed, fact.reps_done) == (None, 100)


def test_without_a_device_it_says_so_once_and_goes_on(capsys: pytest.CaptureFixture[str]) -> None:
    timed = Timed("squat 2x1 1-0-1-0 rest 5", capsys, player=RecordingPlayer(fault=no_device()))

    timed.run()

    assert timed.clock.warned == "no sound: there is no sound device; plug in headphones\n"
    assert len(timed.log.facts) == 2


def test_a_full_disk_keeps_the_set_in_memory_and_says_so(
    capsys: pytest.CaptureFixture[str],
) -> None:
    timed = Timed("squat 1x1 1-0-1-0", capsys, log=MemoryLog(fault=disk_full()))

    timed.run()

    assert "kept in memory: 1 of 1 reps" in timed.clock.told[-1][1]
    assert timed.clock.warned == "not saved yet: the disk is full; make room\n"
    assert len(timed.coach.ledger.unsaved) == 1


def test_in_the_rest_it_is_said_that_the_next_set_goes_over_the_week_s_limit(
    capsys: pytest.CaptureFixture[str],
) -> None:
    line = "front squat 4x1 @ 80 kg 4-0-1-0 rest 30"
    timed = Timed(line, capsys, room=room(measure(10)))

    timed.run()

    assert timed.clock.warned_at == [46_000, 84_000]
    assert timed.clock.warned == (
        "note: With the next set the week has 12 s of lowering emphasis, 2 s over its\n"
        "    limit of 10 s (the stated base).\n"
        "note: With the next set the week has 16 s of lowering emphasis, 6 s over its\n"
        "    limit of 10 s.\n"
    )


@pytest.mark.parametrize(
    ("line", "shows", "said"),
    [
        ("squat 1x2 @ 60 kg 2-1-X-0", True, ("On the bar: 20 kg a side.",)),
        ("squat 1x2 @ 60 kg 2-1-X-0", False, ()),
        ("chin-up 1x2 @ bw 2-1-X-0", True, ()),
    ],
)
def test_what_goes_on_the_bar_is_said_where_that_is_wanted_and_known(
    capsys: pytest.CaptureFixture[str], line: str, shows: bool, said: tuple[str, ...]
) -> None:
    timed = Timed(line, capsys)
    timed.coach.settings = Settings(show_discs=shows)

    assert bar_sentence(timed.coach, parse_prescription(line)) == said
