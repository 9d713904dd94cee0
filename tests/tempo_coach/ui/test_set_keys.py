from __future__ import annotations

from tempo_coach.ui.set_keys import Presses


def test_the_first_press_is_meant() -> None:
    assert Presses().is_meant(0)


def test_the_repeats_of_a_key_held_down_are_not_meant() -> None:
    presses = Presses()
    started_ms = 5_000
    presses.is_meant(started_ms)
    presses.begin(started_ms)

    repeats = [presses.is_meant(started_ms + 500 + 33 * number) for number in range(90)]

    assert not any(repeats)


def test_a_press_right_after_a_set_ended_by_itself_does_not_start_the_next() -> None:
    presses = Presses()
    presses.begin(45_000)

    assert not presses.is_meant(45_100)
    assert presses.is_meant(46_000)


def test_a_press_a_second_after_the_start_is_meant() -> None:
    presses = Presses()
    presses.is_meant(0)
    presses.begin(0)

    assert presses.is_meant(1_000)
