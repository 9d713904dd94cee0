"""Lines of a method for one lifter, each number explained."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from tempo_coach.core.legible import quoted
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.methods import Method, Start
from tempo_coach.core.plan_loads import ResolvedLoad, share_of, with_lowered
from tempo_coach.core.prescription import Prescription, clean_name, exercise_on, parse_prescription
from tempo_coach.core.strength import Best
from tempo_coach.core.tempo import Allowances, lower_seconds
from tempo_coach.errors import OutOfRange

HOW_TO_GET_A_MAX = (
    "test the most that goes up once with the line's lower, paced, with spotters or pins, and give "
    "it to 'prescribe' by --max, or record it by 'tempo-coach max add'"
)
BestFor = Callable[[float], Best | None]
"""Returns the 1RM that holds for a lower of so many seconds; None where none is known."""


@dataclass(frozen=True, slots=True)
class MethodLine:
    """A line to begin from."""

    when: str
    prescription: Prescription
    """With loads that can be put on the bar; without one where no max is known."""
    why: tuple[str, ...]
    """Where each of its numbers comes from."""


def method_lines(
    method: Method,
    exercise: str,
    *,
    best_for: BestFor,
    step: Load,
    allowances: Allowances,
    is_cleared: bool | None = None,
    lower_ms: int | None = None,
) -> tuple[MethodLine, ...]:
    """Return a method's lines for one lifter.

    Parameters
    ----------
    method
        The method.
    exercise
        What is trained.
    best_for
        The lifter's maxes of it: a share is one of the max that holds for the line's lower.
    step
        What loads are rounded to.
    allowances
        What counts for a lower without a length.
    is_cleared
        The coach's word on lowering more than can be lifted; None where there is none.
    lower_ms
        The length of the lower, where it is to be another than the method's.

    Raises
    ------
    OutOfRange
        The coach has not cleared the lifter for the method, it needs a max and none is known, or
        the lower is not possible.
    NotationError
        The exercise is none.
    """
    if method.is_overload and is_cleared is False:
        raise OutOfRange(
            f"the coach has not cleared this lifter for {method.name}",
            hint="overload = false stands in the plan, and only the coach changes that",
        )
    lines = []
    for start in method.starts:
        line = _written(method, start, exercise)
        source = start.lower
        if lower_ms is not None:
            line, source = replace(line, tempo=replace(line.tempo, lower=lower_ms)), "as asked for"
        lower_s = lower_seconds(line.tempo, allowances)
        why = (f"{lower_s:g} s down: {source}", *start.why)
        lines.append(_loaded(method, MethodLine(start.when, line, why), best_for(lower_s), step))
    return tuple(lines)


def _written(method: Method, start: Start, exercise: str) -> Prescription:
    if exercise_on(exercise) != clean_name(exercise):
        raise OutOfRange(
            f"{quoted(exercise)} is more than an exercise", hint="leave sets, load and tempo out"
        )
    return parse_prescription(f"{exercise} {start.line} method {method.name}")


def _loaded(method: Method, written: MethodLine, best: Best | None, step: Load) -> MethodLine:
    line = written.prescription
    if line.load is None:
        return written
    if best is not None:
        resolved = _resolved(line, best, step)
        return MethodLine(
            written.when, resolved.prescription, (*resolved.words.split("; "), *written.why)
        )
    if method.is_overload:
        raise OutOfRange(
            f"{method.name} needs a max of {quoted(line.exercise)}, and none is known",
            hint=HOW_TO_GET_A_MAX,
        )
    why = (
        "no load is written, since no max is known: take one with which every rep is as written, "
        "and two more reps would go",
        *(words for words in written.why if not words.startswith(str(line.load))),
        f"for a load in kg, {HOW_TO_GET_A_MAX}",
    )
    return MethodLine(written.when, replace(line, load=None), why)


def _resolved(line: Prescription, best: Best, step: Load) -> ResolvedLoad:
    plain = replace(line, shape=replace(line.shape, lower_load=None))
    raised = _share(plain, best, step)
    lowered = line.shape.lower_load
    if lowered is None:
        return raised
    down = _share(replace(plain, load=lowered.load), best, step)
    return with_lowered(line, raised=raised, down=down, step=step)


def _share(line: Prescription, best: Best, step: Load) -> ResolvedLoad:
    if line.load is None or line.load.unit is not LoadUnit.PERCENT:
        return ResolvedLoad(line, None, "")
    loadable, words = share_of(best.load, line.load, step)
    said = f"{words} ({best.words})" if best.words else words
    return ResolvedLoad(replace(line, load=loadable), loadable.kg(), said)
