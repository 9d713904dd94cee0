from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

import pytest

from tempo_coach.core.facts import MaxTested, SetCorrected, SetDone
from tempo_coach.core.history import fold
from tempo_coach.core.reserve_facts import AttemptMade, ReserveBegun
from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.core.settings import Settings
from tempo_coach.errors import LogUnreadable
from tempo_coach.ui.attempt_screen import AttemptScreen
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.pins_screen import PinsScreen
from tempo_coach.ui.reserve_form_screen import ReserveFormScreen
from tempo_coach.ui.reserve_screen import ReserveScreen
from tempo_coach.ui.reserve_words import CHOOSE, NOT_OVER
from tempo_coach.ui.sound_check_screen import SoundCheckScreen
from tests.tempo_coach.core.done_sets import max_tested
from tests.tempo_coach.fakes import NOON, disk_full, no_device
from tests.tempo_coach.ui.plan_rack import PlanRack
from tests.tempo_coach.ui.rack import A_MOMENT_MS, Rack

pytestmark = pytest.mark.screen

LINE = "bench press 3x5 @ 80 kg 4-0-X-0 rest 3:00"
SETUP_MS = 10_000
ATTEMPT_MS = 8_000
"""A lower of 5 s, and the raise by the spotters."""


class Bench(Rack):
    """A rack with a 1RM of 100 kg in the log."""

    def __init__(self, **given: Any) -> None:
        super().__init__(LINE, lifter="Mirela Oude", **given)
        tested = max_tested(
            lifter="Mirela Oude",
            exercise="bench press",
            load_kg=100.0,
            load_as_written="100 kg",
            at=NOON,
        )
        self.log.append(tested)

    @asynccontextmanager
    async def testing(self, **size: int) -> AsyncIterator[Bench]:
        """Go as far as the first load."""
        async with self.running(**size):
            await self.press("f8")
            await self.take_up(*["enter"] * 6)
            yield self

    async def take_up(self, *keys: str) -> None:
        """Leave the form, and answer the check."""
        await self.press(*keys)
        await self.wait(A_MOMENT_MS)
        await self.press("y")
        await self.wait(A_MOMENT_MS)

    async def attempt(self, ms: int = SETUP_MS + ATTEMPT_MS) -> None:
        """Start the attempt ahead, and let some of it pass."""
        await self.press("pagedown")
        await self.wait(ms)
        await self.wait(A_MOMENT_MS)

    async def answer(self, key: str, seconds: str = "") -> None:
        await self.press(key)
        await self.write(seconds)
        await self.press("enter")
        await self.wait(A_MOMENT_MS)

    def follow(self) -> None:
        assert isinstance(self.screen, ReserveScreen)
        self.screen.follow_clock()

    def attempts(self) -> list[tuple[float, bool, float | None]]:
        made = [fact for fact in self.log.facts if isinstance(fact, AttemptMade)]
        return [(one.load_kg, one.held, one.lowered_s) for one in made]

    def tests(self) -> tuple[ReserveTest, ...]:
        return fold(fact for fact in self.log.facts).reserve_tests.tests


# A whole test.


async def test_it_leads_from_an_untested_lifter_to_the_result() -> None:
    bench = Bench()
    async with bench.testing():
        first = bench.text()
        await bench.attempt()
        await bench.answer("h", "4.8")
        between = bench.text()
        await bench.attempt()
        await bench.answer("h")
        await bench.attempt()
        await bench.answer("l")
        result = bench.text()
        await bench.press("enter")

        assert isinstance(bench.screen, BoardScreen)
    assert "Attempt 1: 100 kg, 100.0 % of the 1RM." in first
    assert "On the bar: 25 + 15 kg a side." in first
    assert "100 kg held, lowered in 4.8 s." in between
    assert "Rest · next: attempt 2: 105 kg, 105.0 % of the 1RM." in between
    assert bench.attempts() == [(100, True, 4.8), (105, True, None), (110, False, None)]
    assert [done.load_kg for done in bench.sets()] == [100, 105, 110]
    assert {str(done.method) for done in bench.sets()} == {"reserve-test"}
    assert "reserve: 105 ÷ 100 kg = 1.050: +5.0 % of the 1RM, +5.0 kg" in result
    assert "target: 1.10 to 1.20, 110.0 to 120.0 kg" in result
    assert "110 kg lost, its seconds as paced" in result
    assert "next weeks: Slow lowering goes on" in result
    assert "seek medical care at once" in result


async def test_each_attempt_is_paced_with_its_sound_and_its_rest() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.press("space")
        assert isinstance(bench.screen, AttemptScreen)
        await bench.wait(SETUP_MS + 2_000)
        pacing = bench.text()
        await bench.wait(ATTEMPT_MS)
        tracks = len(bench.player.tracks)
        silenced = [playback.was_silenced for playback in bench.player.playbacks]

    assert "bench press · 100 kg · 5-0-A-0" in pacing
    assert tracks == 2
    assert silenced == [False, False]


async def test_lost_at_once_the_reserve_is_below_the_first_load() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.answer("l")
        result = bench.text()

    assert "none at this lower: below 100.0 % of the 1RM, 100 kg" in result
    assert bench.tests()[0].reserve is None


async def test_the_ceiling_ends_it() -> None:
    bench = Bench()
    async with bench.running():
        await bench.press("f8", *["enter"] * 4, *["backspace"] * 4)
        await bench.write("105%")
        await bench.take_up("enter", "enter")
        for _ in range(2):
            await bench.attempt()
            await bench.answer("h")
        result = bench.text()

    assert "ended: the ceiling was held" in result


async def test_a_load_that_could_not_be_lifted_out_is_lost_once_that_is_confirmed() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.press("l")
        asked = bench.text()
        await bench.press("escape")
        assert bench.attempts() == []
        await bench.press("l")
        await bench.wait(A_MOMENT_MS)
        await bench.press("pagedown")
        result = bench.text()

    assert "100 kg could not be lifted out: that ends the test." in asked
    assert "100 kg lost, nothing was lifted" in result
    assert bench.sets() == []


async def test_another_load_can_be_typed_within_the_largest_step() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.press("o")
        await bench.write("101")
        await bench.press("enter")
        refused = bench.text()
        await bench.press(*["backspace"] * 3)
        await bench.write("90")
        await bench.press("enter")
        await bench.wait(A_MOMENT_MS)
        await bench.attempt()
        await bench.answer("h")
        after = bench.text()

    assert "101 kg is not possible for this attempt. Above 0 kg, at most 100 kg." in refused
    assert bench.attempts() == [(90, True, None)]
    assert "attempt 2: 100 kg" in after


# The answer.


async def test_nothing_is_logged_before_the_answer_is_confirmed() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.press("enter")
        asked = bench.text()
        await bench.press("l")
        lost = bench.text()
        assert bench.attempts() == []
        await bench.wait(A_MOMENT_MS)
        await bench.answer("h")

    assert CHOOSE in asked
    assert "100 kg lost: Enter or Page Down logs it." in lost
    assert bench.attempts() == [(100, True, None)]


async def test_a_clicker_confirms_but_answers_nothing() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.press("pagedown", "pageup")
        assert bench.attempts() == []
        await bench.wait(A_MOMENT_MS)
        await bench.press("h", "pagedown")

    assert bench.attempts() == [(100, True, None)]


@pytest.mark.parametrize("first", ["l", "h"])
async def test_an_answer_can_be_given_anew_until_the_next_start(first: str) -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.answer(first)
        await bench.press("u")
        await bench.wait(A_MOMENT_MS)
        await bench.answer("h", "4.9")
        await bench.attempt()
        await bench.answer("l")

    (test,) = bench.tests()
    assert [(one.load_kg, one.held, one.lowered_s) for one in test.attempts] == [
        (100, True, 4.9),
        (105, False, None),
    ]


async def test_an_answer_that_is_left_as_it_was_stays() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.answer("l")
        await bench.press("u", "h", "escape")
        result = bench.text()

    assert "ended: a load was lost" in result
    assert bench.attempts() == [(100, False, None)]


async def test_a_measured_lower_that_is_short_counts_as_lost_and_corrects_the_set() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.press("h")
        await bench.write("3.2")
        shown = bench.text()
        await bench.press("enter")

    (corrected,) = [fact for fact in bench.log.facts if isinstance(fact, SetCorrected)]
    assert "3.2 s is less than 4.5 s: this counts as lost." in shown
    assert bench.attempts() == [(100, False, 3.2)]
    assert corrected.changes.seconds is not None
    assert corrected.changes.seconds.lower == 3.2


async def test_what_a_partner_taps_is_the_measured_time() -> None:
    bench = Bench(settings=Settings(taps="phases"))
    async with bench.testing():
        await bench.press("pagedown")
        await bench.wait(SETUP_MS + 200)
        await bench.press("enter")
        await bench.wait(4_200)
        await bench.press("enter")
        await bench.wait(ATTEMPT_MS)
        await bench.wait(A_MOMENT_MS)
        text = bench.text()
        await bench.answer("h")

    assert "4.2" in text
    assert bench.attempts() == [(100.0, False, 4.2)]
    (done,) = fold(bench.log.facts).sets
    assert (done.timing, done.seconds.lower) == ("tapped", 4.2)


async def test_an_attempt_that_nobody_tapped_has_no_measured_time() -> None:
    bench = Bench(settings=Settings(taps="phases"))
    async with bench.testing():
        await bench.attempt()
        await bench.answer("h")

    assert bench.attempts() == [(100.0, True, None)]


@pytest.mark.parametrize("typed", ["121", "4.8.1", "."])
async def test_seconds_that_can_not_be_are_refused_in_one_sentence(typed: str) -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.answer("h", typed)
        said = bench.text()

    assert f"'{typed}' is no length of a lower. 0 to 120 s, such as 4.8, or nothing." in said
    assert bench.attempts() == []


async def test_letters_are_answers_and_not_seconds() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.press("x", "h", "4", "l", "point", "h")
        await bench.press("enter")

    assert bench.attempts() == [(100, False, 4.0)]


# Stopping, and what is not lost.


async def test_an_attempt_that_is_stopped_is_asked_about_as_far_as_it_went() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt(SETUP_MS + 2_000)
        await bench.press("pagedown")
        asked = bench.text()
        await bench.wait(A_MOMENT_MS)
        await bench.answer("l")

    assert "held under control for 5 s, or lost? H or L." in asked
    assert bench.attempts() == [(100, False, None)]
    assert 2 <= bench.sets()[0].seconds.lower < 5


async def test_an_attempt_stopped_before_the_lower_is_none() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt(2_000)
        await bench.press("escape")
        said = bench.text()

    assert "Nothing was lifted, nothing is logged." in said
    assert "Attempt 1: 100 kg" in said
    assert bench.sets() == []


async def test_quitting_in_an_attempt_leaves_the_set_in_the_log() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt(SETUP_MS + 2_000)
        await bench.press("ctrl+q")

    (done,) = bench.sets()
    assert done.seconds.lower > 2
    assert bench.attempts() == []


async def test_a_test_that_was_left_is_offered_and_goes_on() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.answer("h")
        await bench.press("escape")
        board = bench.text()
        await bench.press("f8")
        offered = bench.text()
        await bench.take_up("f8")
        ahead = bench.text()
        await bench.attempt()
        await bench.answer("l")

    assert NOT_OVER in board
    assert "A test of today is not over: 1RM 100 kg, 100 kg held. F8 goes on with it." in offered
    assert "Attempt 2: 105 kg" in ahead
    assert len(bench.tests()) == 1
    assert bench.attempts() == [(100, True, None), (105, False, None)]


async def test_another_test_can_be_begun_in_its_place() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.press("escape", "f8")
        await bench.take_up(*["enter"] * 6)

    assert len([fact for fact in bench.log.facts if isinstance(fact, ReserveBegun)]) == 2


async def test_an_attempt_left_before_its_question_is_asked_about() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.press("escape", "f8")
        await bench.take_up("f8")
        asked = bench.text()
        await bench.answer("h")

    assert "The attempt with 100 kg has no answer yet." in asked
    assert bench.attempts() == [(100, True, None)]


async def test_a_full_disk_is_told_and_loses_nothing() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        bench.log.fault = disk_full()
        await bench.answer("h")
        told = bench.text()
        bench.log.fault = None
        await bench.attempt()
        await bench.answer("l")

    assert "Kept in memory, not yet on the disk." in told
    assert bench.attempts() == [(100, True, None), (105, False, None)]


async def test_without_a_device_it_goes_on_by_the_screen() -> None:
    bench = Bench(sound_fault=no_device())
    async with bench.testing():
        await bench.press("space")
        told = bench.text()
        await bench.wait(SETUP_MS + ATTEMPT_MS)
        await bench.wait(A_MOMENT_MS)
        await bench.answer("h")

    assert "No sound." in told
    assert bench.attempts() == [(100, True, None)]


async def test_the_sound_is_asked_for_before_the_first_attempt_of_a_day() -> None:
    bench = Bench(sound_checked_on=None)
    async with bench.testing():
        assert isinstance(bench.screen, SoundCheckScreen)


async def test_a_key_that_is_held_down_starts_no_attempt_and_logs_no_answer() -> None:
    bench = Bench()
    async with bench.running():
        await bench.press("f8", *["enter"] * 6)
        await bench.press("y")
        assert isinstance(bench.screen, PinsScreen)
        await bench.wait(A_MOMENT_MS)
        await bench.press("y", "space", "space")
        assert isinstance(bench.screen, ReserveScreen)
        await bench.wait(A_MOMENT_MS)
        await bench.attempt()
        await bench.press("h", "enter")
        bench.clock.advance(50)
        await bench.press("enter", "space")
        assert isinstance(bench.screen, ReserveScreen)


async def test_the_rest_counts_down_and_its_end_shows_the_load() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.attempt()
        await bench.answer("h")
        bench.follow()
        resting = bench.display.sign
        bench.clock.advance(240_000)
        bench.follow()
        await bench.settle()
        over = bench.display.sign

    assert (resting.word, resting.aside) == ("HELD", ("NEXT", "105"))
    assert resting.figure.startswith("3:5")
    assert (over.word, over.figure, over.aside) == ("READY", "105", ("KG",))


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (160, 50)])
async def test_all_keys_are_named_at_every_stage(columns: int, rows: int) -> None:
    bench = Bench()
    async with bench.testing(columns=columns, rows=rows):
        ahead = bench.text()
        await bench.attempt()
        asked = bench.text()
        await bench.answer("l")
        over = bench.text()

    assert all(key in ahead for key in ("Start", "O Other load", "L Not lifted out", "Esc Leave"))
    assert all(key in asked for key in ("H Held", "L Lost", "Enter/PgDn Confirm"))
    assert all(key in over for key in ("U Answer again", "Enter Board"))


# Before it begins.


async def test_without_a_yes_nothing_begins() -> None:
    bench = Bench()
    async with bench.running():
        await bench.press("f8", *["enter"] * 6)
        await bench.wait(A_MOMENT_MS)
        await bench.press("enter", "space", "pagedown")
        check = bench.text()
        assert isinstance(bench.screen, PinsScreen)
        await bench.press("n")
        assert isinstance(bench.screen, BoardScreen)

    assert "two spotters who know their job" in check
    assert "Nothing says that a coach has cleared this lifter for it" in check
    assert len(bench.log.facts) == 1


async def test_in_a_small_window_the_check_is_answered_once_its_end_was_shown() -> None:
    bench = Bench()
    async with bench.running(columns=40, rows=12):
        await bench.press("f8", *["enter"] * 6)
        await bench.take_up("y")
        assert isinstance(bench.screen, PinsScreen)
        begin = bench.text()
        for _ in range(4):
            await bench.press("pagedown")
        end = bench.text()
        await bench.take_up()
        assert isinstance(bench.screen, ReserveScreen)

    assert ("Read on" in begin, "All of that is so" in begin) == (True, False)
    assert ("Read on" in end, "All of that is so" in end) == (False, True)
    assert "Is all of that so?" in end
    assert "PgUp Back" in begin
    assert "PgUp Back" in end


async def test_the_key_that_turns_a_page_back_is_named_only_where_there_is_one() -> None:
    bench = Bench()
    async with bench.running(rows=30):
        await bench.press("f8", *["enter"] * 6)
        check = bench.text()
        await bench.take_up()
        ahead = bench.text()
        await bench.press("l", "enter")
        await bench.wait(A_MOMENT_MS)
        await bench.press("enter")
        roomy = bench.text()
        await bench.pilot.resize_terminal(60, 16)
        await bench.settle()
        small = bench.text()

    assert "All of that is so" in check
    assert not any("PgUp Back" in text for text in (check, ahead, roomy))
    assert "PgDn Read on" not in roomy
    assert "PgDn Read on" in small
    assert "PgUp Back" in small


async def test_whom_the_coach_has_not_cleared_is_not_tested() -> None:
    rack = PlanRack(is_first=False)
    rack.plan.text = rack.plan.text.replace(
        'name = "Mirela Oude"', 'name = "Mirela Oude"\noverload = false'
    )
    async with rack.running():
        await rack.press("f6", "f6", "f8")
        said = rack.text()
        assert isinstance(rack.screen, BoardScreen)

    assert "Mirela Oude is not cleared for lowering more than can be lifted" in said
    assert "The coach's word decides; slow lowering needs none." in said


async def test_the_max_comes_from_the_plan_and_says_so() -> None:
    rack = PlanRack(is_first=False)
    async with rack.running():
        await rack.press("f8")
        said = rack.text()

    assert "90 kg the plan's max, tested 2026-02-12" in said
    assert "as far as it goes: 90 kg, 92.5 kg" in said


async def test_the_max_is_found_anew_for_another_exercise_but_what_was_typed_stays() -> None:
    bench = Bench()
    async with bench.running():
        await bench.press("f8", "end", "x")
        other = bench.text()
        await bench.press("enter")
        await bench.write("120")
        await bench.press("up", "backspace")
        typed = bench.text()

    assert "not known; type it" in other
    assert "120 as typed" in typed


@pytest.mark.parametrize(
    ("row", "text", "said"),
    [
        (0, "", "The name of the exercise is empty. Give at least one letter."),
        (1, "72%", "'72%' is a share of a max, so its kilograms are not known."),
        (1, "", "'' is no load"),
        (2, "11%", "Steps of 11 kg are not possible. 1 to 10 % of the 1RM, so 1 kg to 10 kg."),
        (2, "five", "'five' is no load"),
        (3, "31", "'31' is no length of a lower. 1 to 30 s."),
        (4, "170 kg", "A ceiling of 170 kg is not possible."),
        (5, "never", "'never' is no rest"),
    ],
)
async def test_a_bad_value_is_refused_at_once_and_begins_nothing(
    row: int, text: str, said: str
) -> None:
    bench = Bench()
    async with bench.running():
        await bench.press("f8", *["down"] * row, "end", *["backspace"] * 12)
        await bench.write(text)
        at_once = bench.text()
        await bench.press(*["enter"] * 8)

        assert isinstance(bench.screen, ReserveFormScreen)
    assert said in at_once


async def test_without_a_line_the_exercise_of_the_test_that_is_open_is_offered() -> None:
    bench = Bench()
    async with bench.testing():
        await bench.press("escape")
    again = Rack("", lifter="Mirela Oude")
    again.log.facts = bench.log.facts
    async with again.running():
        await again.press("f8")
        said = again.text()

    assert "Exercise bench press" in said
    assert "F8 goes on with it." in said


async def test_a_log_that_can_not_be_read_is_told_and_the_test_can_still_begin() -> None:
    bench = Bench()
    async with bench.running():
        bench.log.read_fault = LogUnreadable("the log can't be opened", path=Path("log.jsonl"))
        await bench.press("f8")
        said = bench.text()

    assert "The log can't be opened" in said


async def test_escape_goes_back_to_the_board() -> None:
    bench = Bench()
    async with bench.running():
        await bench.press("f8", "escape")
        assert isinstance(bench.screen, BoardScreen)


async def test_a_finished_test_counts_as_a_lowered_max() -> None:
    bench = Bench(settings=Settings())
    async with bench.testing():
        await bench.attempt()
        await bench.answer("h")
        await bench.attempt()
        await bench.answer("l")

    history = fold(fact for fact in bench.log.facts)
    lowered = [one for one in history.maxes.tested if one.what == "lowered"]
    assert [one.load_kg for one in lowered] == [100]
    assert isinstance(lowered[0], MaxTested)
    assert all(isinstance(done, SetDone) for done in history.sets)
