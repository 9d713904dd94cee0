"""A partner's taps, from the key to the log."""

from __future__ import annotations

import pytest

from tempo_coach.core.facts import Changes, SetCorrected
from tempo_coach.core.history import fold
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.settings import Settings
from tempo_coach.ui.board_screen import BoardScreen
from tempo_coach.ui.stage import Stage
from tests.tempo_coach.ui.rack import A_MOMENT_MS, SETUP_MS, Rack

pytestmark = pytest.mark.screen

LINE = "front squat 2x2 @ 80 kg 4-1-2-1 rest 3:00"
REP_MS = 8_000
LATE_MS = 200
QUIET_MS = 3_000
KEPT = (4_000, 1_000, 2_000, 1_000)
SHORT = (3_200, 1_800, 2_000, 1_000)


def tapped_rack(points: str = "phases") -> Rack:
    return Rack(LINE, settings=Settings(taps=points))  # type: ignore[arg-type]  # given by name


async def tap_set(rack: Rack, *lengths_ms: int, key: str = "enter") -> None:
    """Do a set with a tap after each of these lengths, the first as rep 1 begins."""
    await rack.wait(A_MOMENT_MS)
    await rack.press("space")
    await rack.wait(SETUP_MS + LATE_MS)
    await rack.press(key)
    for length_ms in lengths_ms:
        await rack.wait(length_ms)
        await rack.press(key)


def measurements(rack: Rack) -> list[SetMeasured]:
    return [fact for fact in rack.log.facts if isinstance(fact, SetMeasured)]


async def test_nobody_is_asked_to_tap_unless_it_is_set() -> None:
    async with Rack(LINE).at_the_rack() as rack:
        before = rack.text()
        await tap_set(rack, *KEPT, *KEPT)
        await rack.wait(QUIET_MS)

    assert "partner" not in before
    assert measurements(rack) == []


async def test_the_rack_says_when_to_tap() -> None:
    async with tapped_rack("turns").at_the_rack() as rack:
        text = rack.text()

    assert "The partner taps Enter or Page Up as the first phase begins, and as" in text


@pytest.mark.parametrize("key", ["enter", "pageup"])
async def test_a_tapped_set_is_logged_as_paced_at_once_and_then_as_measured(key: str) -> None:
    async with tapped_rack().at_the_rack() as rack:
        await tap_set(rack, *KEPT, *SHORT, key=key)
        when_over = list(rack.log.facts)
        await rack.wait(QUIET_MS)
        text = rack.text()

    assert when_over == rack.sets()
    assert rack.sets()[0].timing == "paced"
    (done,) = fold(rack.log.facts).sets
    assert done.timing == "tapped"
    assert (done.seconds.lower, done.seconds.pause) == (7.2, 2.8)
    assert "Measured: 2 of 2 reps, lowering 7.2 s, tension 16 s." in text
    assert "Rep 2 was 0.8 s short on the way down." in text
    assert "good to about 0.15 s a phase" in text


async def test_the_number_of_taps_is_shown_and_the_last_is_taken_back() -> None:
    async with tapped_rack().at_the_rack() as rack:
        await tap_set(rack, 4_000)
        shown = rack.text()
        await rack.press("backspace")
        taken_back = rack.text()

    assert "2 taps. Backspace takes the last one back." in shown
    assert "1 tap. Backspace takes the last one back." in taken_back


async def test_a_late_lifter_is_tapped_behind_the_end_of_the_track() -> None:
    late = tuple(length_ms * 11 // 10 for length_ms in KEPT)
    async with tapped_rack().at_the_rack() as rack:
        await tap_set(rack, *late, *late)
        await rack.wait(QUIET_MS)

    (fact,) = measurements(rack)
    assert [rep.lower for rep in fact.reps] == [4.4, 4.4]
    assert fact.reps[1].top == 1.1


async def test_while_taps_may_come_the_fields_wait_and_then_ask() -> None:
    async with tapped_rack().at_the_rack() as rack:
        await tap_set(rack, *KEPT, *KEPT)
        stage, focused = rack.set_screen.stage, rack.screen.focused
        await rack.wait(QUIET_MS)
        await rack.write("1")
        await rack.press("space")

    assert stage is Stage.SAVED
    assert focused is None
    changes = [fact.changes for fact in rack.log.facts if isinstance(fact, SetCorrected)]
    assert [Changes(**one.given()).reps_done for one in changes] == [1]


async def test_the_next_set_and_its_taps_do_not_wait_for_those_before() -> None:
    async with tapped_rack().at_the_rack() as rack:
        await tap_set(rack, *KEPT, *SHORT)
        await tap_set(rack, *SHORT, *SHORT)
        await rack.wait(QUIET_MS)

    first, second = measurements(rack)
    assert [rep.lower for rep in first.reps] == [4.0, 3.2]
    assert [rep.lower for rep in second.reps] == [3.2, 3.2]
    assert len({first.id, second.id}) == 2


@pytest.mark.parametrize("key", ["escape", "ctrl+q"])
async def test_taps_are_read_however_the_screen_is_left(key: str) -> None:
    async with tapped_rack().at_the_rack() as rack:
        await tap_set(rack, *KEPT, *SHORT)
        await rack.press(key)

    (fact,) = measurements(rack)
    assert [rep.lower for rep in fact.reps] == [4.0, 3.2]


async def test_leaving_with_taps_goes_back_to_the_board() -> None:
    async with tapped_rack().at_the_rack() as rack:
        await tap_set(rack, *KEPT, *SHORT)
        await rack.press("escape")

        assert isinstance(rack.screen, BoardScreen)


async def test_a_set_stopped_early_keeps_its_taps() -> None:
    async with tapped_rack().at_the_rack() as rack:
        await tap_set(rack, *SHORT, 2_000)
        await rack.press("space")
        await rack.wait(QUIET_MS)

    (done,) = fold(rack.log.facts).sets
    assert done.reps_done == 1
    assert done.seconds.lower == pytest.approx(3.2 + 2.2, abs=0.01)


async def test_a_set_that_nobody_tapped_counts_as_paced() -> None:
    async with tapped_rack().at_the_rack() as rack:
        await rack.do_set()
        await rack.wait(QUIET_MS)
        focused = rack.screen.focused

    assert measurements(rack) == []
    assert focused is not None


async def test_too_few_taps_measure_nothing_and_say_so() -> None:
    async with tapped_rack().at_the_rack() as rack:
        await tap_set(rack)
        await rack.wait(2 * REP_MS + QUIET_MS)
        await rack.wait(QUIET_MS)
        text = rack.text()

    assert measurements(rack) == []
    assert "The taps measure no lower: the set counts as paced." in text
