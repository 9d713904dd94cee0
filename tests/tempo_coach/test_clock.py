from __future__ import annotations

import time
from datetime import datetime, timedelta

import pytest

from tempo_coach.clock import SystemClock


def test_the_monotonic_moment_is_the_machines_in_whole_milliseconds() -> None:
    before = time.monotonic_ns()
    now_ms = SystemClock().now_ms()
    after = time.monotonic_ns()
    assert before // 1_000_000 <= now_ms <= after // 1_000_000


def test_the_wall_clock_knows_its_offset_and_stops_at_milliseconds() -> None:
    wall = SystemClock().wall()
    assert wall.utcoffset() is not None
    assert wall.microsecond % 1000 == 0
    assert abs(datetime.now().astimezone() - wall) < timedelta(seconds=5)


@pytest.mark.parametrize(
    ("zone", "hours"),
    # POSIX.1, TZ: the sign is the other way round, west of Greenwich is positive.
    [("GYM-5:45", 5.75), ("GYM8", -8.0)],
)
def test_the_wall_clock_is_local(monkeypatch: pytest.MonkeyPatch, zone: str, hours: float) -> None:
    with monkeypatch.context() as patched:
        patched.setenv("TZ", zone)
        time.tzset()
        wall = SystemClock().wall()
    time.tzset()
    assert wall.utcoffset() == timedelta(hours=hours)


def test_sleeping_returns_at_once_when_the_moment_has_passed() -> None:
    clock = SystemClock()
    before_ms = clock.now_ms()
    clock.sleep_until_ms(before_ms - 60_000)
    assert clock.now_ms() - before_ms < 30_000


def test_sleeping_never_returns_early() -> None:
    clock = SystemClock()
    moment_ms = clock.now_ms() + 2
    clock.sleep_until_ms(moment_ms)
    assert clock.now_ms() >= moment_ms
