"""A set and a max as they stand in the log, to be varied."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from tempo_coach.core.facts import MaxTested, SetDone
from tempo_coach.core.phase_seconds import PhaseSeconds
from tempo_coach.core.tempo import parse_tempo
from tempo_coach.core.work import PhaseTimes

MONDAY = datetime.fromisoformat("2026-03-02T18:04:05.250+01:00")


def done_set(**changes: Any) -> SetDone:
    """Return five front squats with 80 kg at 4-1-X-1; the changes take the place of its fields."""
    fields: dict[str, Any] = {
        "id": "5c2e",
        "lifter": "Ansa Vireo",
        "started_at": MONDAY,
        "ended_at": MONDAY + timedelta(seconds=35),
        "exercise": "front squat",
        "lead": "lower",
        "tempo": parse_tempo("4-1-X-1"),
        "load_kg": 80.0,
        "load_as_written": "80 kg",
        "reps_prescribed": 5,
        "reps_done": 5,
        "seconds": seconds(lower=20, pause=5, raise_=5, top=5),
        "timing": "paced",
        "method": None,
        "effort": 8.0,
        "note": "",
    }
    return SetDone(**(fields | changes))


def max_tested(**changes: Any) -> MaxTested:
    """Return 90 kg front squatted after a lower of 2 s; the changes take the place of its fields.

    A load in kg alone is also what is written.
    """
    fields: dict[str, Any] = {
        "id": "7d20",
        "lifter": "Ansa Vireo",
        "at": datetime.fromisoformat("2026-11-20T17:30:00+01:00"),
        "exercise": "front squat",
        "what": "lifted",
        "load_kg": 90.0,
        "lower_s": 2.0,
        "note": "",
    }
    fields |= changes
    return MaxTested(**({"load_as_written": f"{fields['load_kg']:g} kg"} | fields))


def seconds(
    *, lower: float = 0, pause: float = 0, raise_: float = 0, top: float = 0
) -> PhaseSeconds:
    """Return seconds phase by phase."""
    return PhaseSeconds.of(
        PhaseTimes(*(round(length * 1000) for length in (lower, pause, raise_, top)))
    )
