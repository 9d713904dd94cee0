"""A reserve test: loads that rise until one is no longer lowered under control."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from tempo_coach.core.adherence import USUAL_BAND
from tempo_coach.core.exercises import usual_lead
from tempo_coach.core.facts import MaxTested, SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.load_span import LoadSpan, as_load, decimal_of, kg_text
from tempo_coach.core.loading import Rack
from tempo_coach.core.mass import Mass
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.reserve import Reserve
from tempo_coach.core.reserve_facts import LARGEST_STEP, AttemptMade, ReserveBegun
from tempo_coach.core.tempo import Phase, Speed, Tempo
from tempo_coach.core.typed_load import read_typed_load
from tempo_coach.errors import OutOfRange


class Ended(StrEnum):
    """Why a test is over."""

    LOST = "lost"
    CEILING = "ceiling"


@dataclass(frozen=True, slots=True)
class ReserveTest:
    """A test as far as it went."""

    begun: ReserveBegun
    attempts: tuple[AttemptMade, ...] = ()
    """Those that count, in the order they were made."""

    @property
    def held_kg(self) -> float | None:
        """The greatest load that was held."""
        return max((one.load_kg for one in self.attempts if one.held), default=None)

    @property
    def lost_kg(self) -> float | None:
        """The least load that was lost."""
        return min((one.load_kg for one in self.attempts if not one.held), default=None)

    @property
    def ended(self) -> Ended | None:
        """Why it is over; None where it is not."""
        if self.lost_kg is not None:
            return Ended.LOST
        at_ceiling = self.held_kg is not None and self.held_kg >= self.begun.ceiling_kg
        return Ended.CEILING if at_ceiling else None

    @property
    def reserve(self) -> Reserve | None:
        """The greatest load held over the 1RM; None where none was held."""
        return None if self.held_kg is None else Reserve(self.held_kg, self.begun.max_kg)

    def next_kg(self, rack: Rack | None) -> Decimal | None:
        """Return the load to attempt next; None where the test is over."""
        if self.ended is not None:
            return None
        span = LoadSpan.of(self.begun)
        if self.held_kg is None:
            return span.first_kg(rack)
        return span.next_kg(decimal_of(self.held_kg), rack)

    def checked(self, load_kg: Decimal) -> Decimal:
        """Take a load that the coach chose for the next attempt.

        Raises
        ------
        OutOfRange
            It is no step up, one above 10 % of the 1RM, or above the ceiling.
        """
        span = LoadSpan.of(self.begun)
        held = decimal_of(self.held_kg or 0)
        most = span.max_kg
        if self.held_kg is not None:
            most = min(span.ceiling_kg, held + span.of_max(LARGEST_STEP))
        if not held < load_kg <= most:
            raise OutOfRange(
                f"{kg_text(load_kg)} is not possible for this attempt",
                hint=f"above {kg_text(held)}, at most {kg_text(most)}",
            )
        return load_kg

    def read_load(self, text: str, *, unit: LoadUnit) -> Decimal:
        """Read a load that is typed for the next attempt; a bare number is counted in a unit.

        Raises
        ------
        OutOfRange
            The text is no load in kg or lb, or as for `checked`.
        """
        load = read_typed_load(text, before=None, unit=unit)
        if load.on_body or load.unit is LoadUnit.PERCENT:
            raise OutOfRange(f"{load} is no load of an attempt", hint="give kg or lb")
        return self.checked(Mass(load.amount, load.unit).kg)

    def answered(self, made: AttemptMade) -> ReserveTest:
        """Take in an answer, in place of an earlier one about the same set."""
        kept = (one for one in self.attempts if made.set is None or one.set != made.set)
        return ReserveTest(self.begun, (*kept, made))

    def lowered_max(self) -> MaxTested | None:
        """Return the lowered max that a test which is over gives; None where it gives none."""
        if self.ended is None or self.held_kg is None:
            return None
        begun = self.begun
        return MaxTested(
            id=begun.id,
            lifter=begun.lifter,
            at=max(one.at for one in self.attempts),
            exercise=begun.exercise,
            what="lowered",
            load_kg=self.held_kg,
            load_as_written=str(as_load(decimal_of(self.held_kg))),
            lower_s=begun.lower_s,
            note="reserve test",
        )


def ahead_words(test: ReserveTest, load_kg: Decimal) -> str:
    """Return such as ``attempt 2: 105 kg, 105.0 % of the 1RM``."""
    share = float(load_kg) / test.begun.max_kg * 100
    return f"attempt {len(test.attempts) + 1}: {as_load(load_kg)}, {share:.1f} % of the 1RM"


def short_words(lowered_s: float, lower_s: float) -> str:
    """Say that a measured lower was too short to count as held."""
    return f"{lowered_s:g} s is less than {least_held_s(lower_s):g} s: this counts as lost"


def attempt_line(exercise: str, load_kg: Decimal, *, lower_s: float) -> Prescription:
    """Return the line of one attempt, such as ``squat 1x1 @ 120 kg 5-0-A-0 lowering only``."""
    return Prescription(
        exercise=exercise,
        sets=1,
        reps=1,
        load=as_load(load_kg),
        tempo=Tempo(round(lower_s * 1000), 0, Speed.ASSISTED, 0),
        rest_ms=None,
        lead=usual_lead(exercise),
        method=MethodName.RESERVE_TEST,
        shape=RepShape(only=Phase.LOWER),
    )


def unanswered(test: ReserveTest, sets: Iterable[SetDone]) -> SetDone | None:
    """Return the test's last set of which nobody has said whether it was held; None without one."""
    begun = test.begun
    of_test = [
        one
        for one in sets
        if one.method == MethodName.RESERVE_TEST
        and one.started_at >= begun.at
        and (name_key(one.lifter), name_key(one.exercise))
        == (name_key(begun.lifter), name_key(begun.exercise))
    ]
    answered = {one.set for one in test.attempts}
    return of_test[-1] if of_test and of_test[-1].id not in answered else None


def least_held_s(lower_s: float) -> float:
    """Return how long a measured lower must have taken to count as held."""
    return lower_s - USUAL_BAND.of(round(lower_s * 1000)) / 1000


def counts_as_held(*, said: bool, lowered_s: float | None, lower_s: float) -> bool:
    """Tell whether an attempt was held, by the partner's word, and the measured time if any."""
    return said and (lowered_s is None or lowered_s >= least_held_s(lower_s))
