from __future__ import annotations

import pytest

from tempo_coach.core.marks import marked_seconds


@pytest.mark.parametrize(
    ("length_ms", "allowed_ms", "is_open", "shown"),
    [
        (80_000, 0, False, "80"),
        (76_450, 0, False, "76.5"),
        (76_500, 500, False, "≈76.5"),
        (0, 0, True, "0+"),
        (1_234_000, 1_000, True, "≈1,234+"),
    ],
)
def test_seconds_say_what_they_rest_on_and_leave_out(
    length_ms: int, allowed_ms: int, is_open: bool, shown: str
) -> None:
    assert marked_seconds(length_ms, allowed_ms=allowed_ms, is_open=is_open) == shown
