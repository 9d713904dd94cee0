"""What has to be known before a reserve test begins, and in what words it is told."""

from __future__ import annotations

from datetime import date

from tempo_coach.core.clauses import parse_clauses
from tempo_coach.core.legible import legible, quoted
from tempo_coach.core.load_span import LoadSpan, as_load
from tempo_coach.core.loading import Rack
from tempo_coach.core.plan import Lifter
from tempo_coach.core.recorded_reserve_tests import RecordedReserveTests
from tempo_coach.core.rep_equations import ORDINARY_LOWER_S
from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.core.strength import Best, LifterRecord
from tempo_coach.errors import NotationError, OutOfRange, TempoCoachError

USUAL_REST = "4:00"
"""Between attempts."""


def check_cleared(name: str, planned: Lifter | None) -> None:
    """Let nobody be tested whom the coach has not cleared: this word is the one lock.

    Raises
    ------
    TempoCoachError
        The plan says that the lifter is not cleared.
    """
    if planned is not None and planned.overload is False:
        raise TempoCoachError(
            f"the plan says that {legible(name)} is not cleared for lowering more than can be "
            "lifted, so no reserve is tested",
            hint="the coach's word decides; slow lowering needs none",
        )


def max_to_test(record: LifterRecord, exercise: str) -> Best | None:
    """Return the 1RM that a reserve is measured against; None where none is known."""
    return record.best(exercise, lower_s=ORDINARY_LOWER_S)


def going_on(
    tests: RecordedReserveTests, lifter: str, exercise: str, *, today: date
) -> ReserveTest | None:
    """Return today's last test of an exercise where it is not over; None without one."""
    of_exercise = tests.of(lifter, exercise)
    if not of_exercise:
        return None
    last = of_exercise[-1]
    return last if last.ended is None and last.begun.at.date() == today else None


def going_on_words(test: ReserveTest) -> str:
    """Say how far a test went that is not over."""
    held = "nothing held yet" if test.held_kg is None else f"{test.held_kg:g} kg held"
    return f"A test of today is not over: 1RM {test.begun.max_kg:g} kg, {held}."


def loads_words(span: LoadSpan, rack: Rack | None) -> str:
    """Say which loads a test goes through."""
    loads = ", ".join(str(as_load(kg)) for kg in span.loads(rack))
    return f"Each lower {span.lower_s:g} s; as far as it goes: {loads}."


def read_rest(text: str) -> int:
    """Read a rest between attempts, in ms.

    Raises
    ------
    OutOfRange
        The text is no rest, or one of no length.
    """
    try:
        rest_ms = parse_clauses(f"rest {text}", 0).rest_ms
    except NotationError as fault:
        raise OutOfRange(fault.message, hint=fault.hint) from fault
    if not rest_ms:
        raise OutOfRange(f"{quoted(text)} is no rest", hint="write 4:00, 240 s or 4 min")
    return rest_ms
