"""A reserve test, its attempts and the loads it goes through, to be varied."""

from __future__ import annotations

from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from hypothesis import strategies as st

from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.load_span import span_of
from tempo_coach.core.reserve_facts import AttemptMade, ReserveBegun

spans = st.builds(
    lambda max_kg, step, ceiling: span_of(
        max_kg,
        step=Load(Decimal(step), LoadUnit.PERCENT),
        ceiling=Load(Decimal(ceiling), LoadUnit.PERCENT),
    ),
    st.decimals(10, 300, places=2).map(float),
    st.integers(1, 10),
    st.integers(100, 160),
)
BEGUN_AT = datetime.fromisoformat("2026-11-25T18:00:00+01:00")


def reserve_begun(**changes: Any) -> ReserveBegun:
    """Return a test of 100 kg by 5 kg up to 130 kg; the changes take the place of its fields."""
    fields: dict[str, Any] = {
        "id": "e5e5",
        "at": BEGUN_AT,
        "lifter": "Jonne Tarval",
        "exercise": "bench press",
        "max_kg": 100.0,
        "step_kg": 5.0,
        "lower_s": 5.0,
        "ceiling_kg": 130.0,
    }
    return ReserveBegun(**(fields | changes))


def attempt_made(number: int, load_kg: float, *, held: bool, **changes: Any) -> AttemptMade:
    """Return an attempt of that test, of the set ``set-NUMBER``."""
    fields: dict[str, Any] = {
        "id": f"try-{number}",
        "at": BEGUN_AT + timedelta(minutes=5 * number),
        "test": "e5e5",
        "set": f"set-{number}",
        "load_kg": load_kg,
        "held": held,
        "lowered_s": None,
    }
    return AttemptMade(**(fields | changes))
