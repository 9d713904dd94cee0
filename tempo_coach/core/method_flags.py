"""Where a line leaves the range of its method: said with the reason, and never refused."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.method_catalogue import METHODS
from tempo_coach.core.method_sources import PRACTICE, SCHOENFELD
from tempo_coach.core.methods import Aspect, Figure, Method, within
from tempo_coach.core.overload import (
    asks_for_clearance,
    is_overload,
    lowered_load,
)
from tempo_coach.core.overload_methods import OF_RAISED
from tempo_coach.core.prescription import Prescription, rest_text
from tempo_coach.core.strength import UNKNOWN, Strength
from tempo_coach.core.tempo import Allowances, Phase, Speed, seconds_text
from tempo_coach.core.timeline import rep_times

STEP_KG = 2.5
"""What loads are rounded to where no plan says."""
_SLOWEST_REP_S = 10
_THE_PLAN = "the plan"


@dataclass(frozen=True, slots=True)
class Flag:
    """One thing about a line that lies outside."""

    what: str
    """What of the line, such as ``load 140%``."""
    reason: str
    source: str
    """Empty where it is what the method's name means."""

    def __str__(self) -> str:
        source = f" ({self.source})" if self.source else ""
        return f"{self.what}: {self.reason}{source}"


def flags(
    prescription: Prescription,
    strength: Strength = UNKNOWN,
    *,
    allowances: Allowances | None = None,
    step_kg: float = STEP_KG,
) -> tuple[Flag, ...]:
    """Return what is outside the range of a line's method, and of what can be lifted.

    Parameters
    ----------
    prescription
        The line as it was written, before shares are rounded.
    strength
        What is known of the lifter.
    allowances
        What counts for X, V and A; None is what counts where nothing is set.
    step_kg
        What loads in kg were rounded to, so that rounding alone is never flagged.
    """
    method = METHODS.get(prescription.method) if prescription.method else None
    found = [*_clearance(prescription, strength), *_loads(prescription, strength)]
    if method is not None:
        line = _Line(prescription, strength, method, step_kg)
        found += [*line.shape(), *line.shares(), *line.counts(), *line.times()]
        found += _rep_length(prescription, method, allowances or Allowances())
    return tuple(found)


def _clearance(prescription: Prescription, strength: Strength) -> Iterator[Flag]:
    if strength.is_cleared:
        return
    if not (is_overload(prescription, strength) or asks_for_clearance(prescription.method)):
        return
    if strength.is_cleared is None:
        yield Flag(
            "overload",
            "only for those whom their coach has cleared, and nothing says so here: "
            "overload = true in the plan does",
            PRACTICE,
        )
    else:
        yield Flag("overload", "the coach has not cleared this lifter for it", _THE_PLAN)


def _loads(prescription: Prescription, strength: Strength) -> Iterator[Flag]:
    """Yield what is more than can be lifted, or more than was ever lowered."""
    load, shape = prescription.load, prescription.shape
    share = strength.share(load)
    if share is not None and share > 100 and shape.only is None:
        yield Flag(
            _load_words("load", load, share),
            "more than the 1RM can't be raised; write 'lowering only', or a load to raise and "
            "'lower @ …'",
            PRACTICE,
        )
    kg, lowered = strength.kg(lowered_load(prescription)), strength.lowered
    if lowered is not None and kg is not None and kg > lowered.kg:
        yield Flag(
            f"{kg:g} kg lowered", "more than the most that was lowered under control", str(lowered)
        )


@dataclass(frozen=True, slots=True)
class _Line:
    """A line beside its method."""

    prescription: Prescription
    strength: Strength
    method: Method
    step_kg: float

    def shape(self) -> Iterator[Flag]:
        needs = self.method.needs
        if needs is not None and not needs.is_in(self.prescription):
            yield Flag(f"method {self.method.name}", f"the line lacks '{needs}'", "")

    def shares(self) -> Iterator[Flag]:
        load, lowered = self.prescription.load, self.prescription.shape.lower_load
        share = self.strength.share(load)
        if share is not None:
            yield from self._outside(
                Aspect.LOAD, share, _load_words("load", load, share), give=self._give(load)
            )
        if lowered is None:
            return
        more = self.strength.share(lowered.load)
        figures = self.method.of(Aspect.LOWERED)
        of_raised = [one for one in figures if one.unit == OF_RAISED]
        if more is None or (share and any(100 * more / share <= (o.high or 0) for o in of_raised)):
            return
        yield from self._outside(
            Aspect.LOWERED,
            more,
            _load_words("lower", lowered.load, more),
            give=self._give(lowered.load),
            figures=[one for one in figures if one not in of_raised],
        )

    def counts(self) -> Iterator[Flag]:
        sets, reps = self.prescription.sets, self.prescription.reps
        yield from self._outside(Aspect.SETS, sets, f"{sets} sets")
        if reps is not None:
            yield from self._outside(Aspect.REPS, reps, f"{reps} reps a set")
            yield from self._outside(
                Aspect.SESSION_REPS, sets * reps, f"{sets * reps} reps a session"
            )

    def times(self) -> Iterator[Flag]:
        tempo, rest_ms = self.prescription.tempo, self.prescription.rest_ms
        if isinstance(tempo.lower, Speed):
            if figures := self.method.of(Aspect.LOWER):
                yield _flag(self.method, Aspect.LOWER, f"lower {tempo.lower}", figures)
        elif self.prescription.shape.only is not Phase.RAISE:
            words = f"lower {seconds_text(tempo.lower)} s"
            yield from self._outside(Aspect.LOWER, tempo.lower / 1000, words)
        stops = self.prescription.shape.stops
        held_ms = tempo.pause if stops is None else stops.each_ms
        if not isinstance(held_ms, Speed) and held_ms:
            words = f"hold {seconds_text(held_ms)} s"
            yield from self._outside(Aspect.HOLD, held_ms / 1000, words)
        if rest_ms is not None and self.prescription.sets > 1:
            yield from self._outside(Aspect.REST, rest_ms / 60_000, f"rest {rest_text(rest_ms)}")

    def _outside(
        self,
        aspect: Aspect,
        value: float,
        what: str,
        *,
        give: float = 0,
        figures: Iterable[Figure] | None = None,
    ) -> Iterator[Flag]:
        allowed = tuple(self.method.of(aspect) if figures is None else figures)
        if not within(allowed, value, give=give):
            yield _flag(self.method, aspect, what, allowed)

    def _give(self, load: Load | None) -> float:
        """Return how far rounding to a step may have moved a share."""
        lifted = self.strength.lifted
        if load is None or load.unit is LoadUnit.PERCENT or lifted is None:
            return 0
        return self.step_kg / 2 / lifted.kg * 100


def _rep_length(
    prescription: Prescription, method: Method, allowances: Allowances
) -> Iterator[Flag]:
    length_ms = rep_times(prescription.tempo, allowances, prescription.shape).tension_ms
    if method.of(Aspect.REP) and length_ms > _SLOWEST_REP_S * 1000:
        yield Flag(
            f"a rep of {seconds_text(length_ms)} s",
            "growth was less above 10 s a rep, and alike from 0.5 to 8 s",
            SCHOENFELD,
        )


def _flag(method: Method, aspect: Aspect, what: str, figures: Iterable[Figure]) -> Flag:
    numbers = [figure for figure in figures if figure.is_number]
    ranges = " or ".join(dict.fromkeys(str(figure) for figure in numbers))
    sources = "; ".join(dict.fromkeys(figure.source for figure in numbers))
    return Flag(what, f"{method.name} has {aspect} {ranges}", sources)


def _load_words(what: str, load: Load | None, share: float) -> str:
    written = f"{what} {load}"
    if load is None or load.unit is LoadUnit.PERCENT:
        return written
    return f"{written}, {share:.3g}% of the 1RM"
