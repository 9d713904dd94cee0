"""The load and the day of a tested max, as they are given."""

from __future__ import annotations

from datetime import date, datetime

from tempo_coach.core.fact_values import HEAVIEST_KG
from tempo_coach.core.legible import quoted
from tempo_coach.core.load import Load, LoadUnit, parse_load
from tempo_coach.core.written_dates import EARLIEST_DAY
from tempo_coach.errors import OutOfRange


def load_of_test(text: str) -> tuple[Load, float]:
    """Read the load of a test, and return it with its kilograms.

    Raises
    ------
    OutOfRange
        The text is no load, a share, a load on the body alone, or above 600 kg.
    """
    load = parse_load(text)
    kg = None if load.unit is LoadUnit.PERCENT else load.kg()
    if kg is None:
        why = "is a share of a max" if load.unit is LoadUnit.PERCENT else "leaves the body out"
        raise OutOfRange(
            f"{quoted(text)} {why}, so its kilograms are not known",
            hint="give kg or lb, of body and load together where both are lifted: 82 kg",
        )
    if kg > HEAVIEST_KG:
        raise OutOfRange(f"a max of {load} is not possible", hint=f"at most {HEAVIEST_KG} kg")
    return load, kg


def moment_of_test(day: date | None, *, now: datetime) -> datetime:
    """Return the day of a test, or today, with the time and the offset of now.

    Raises
    ------
    OutOfRange
        The day is in the future, or before 1970.
    """
    day = now.date() if day is None else day
    if not EARLIEST_DAY <= day <= now.date():
        raise OutOfRange(
            f"a test on {day.isoformat()} is not possible",
            hint=f"from {EARLIEST_DAY.isoformat()} to today, {now.date().isoformat()}",
        )
    return datetime.combine(day, now.timetz())
