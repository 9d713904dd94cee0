"""Between which loads a reserve test goes, and which comes after which."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_DOWN, Decimal
from typing import Final

from tempo_coach.core.fact_values import HEAVIEST_KG
from tempo_coach.core.load import KG_PER_LB, Load, LoadUnit
from tempo_coach.core.loading import Rack, nearest_loadable
from tempo_coach.core.reserve_facts import (
    HIGHEST_CEILING,
    LARGEST_STEP,
    LEAST_STEP,
    LONGEST_LOWER_S,
    SHORTEST_LOWER_S,
    ReserveBegun,
)
from tempo_coach.errors import OutOfRange

USUAL_STEP: Final = Load(Decimal(5), LoadUnit.PERCENT)
USUAL_CEILING: Final = Load(Decimal(130), LoadUnit.PERCENT)
"""Common practice, no source; settable."""
USUAL_LOWER_S: Final = 5.0
_GRAM = Decimal("0.001")


@dataclass(frozen=True, slots=True)
class LoadSpan:
    """Between which loads a test goes, and by what steps.

    Raises
    ------
    OutOfRange
        A step is not 1 to 10 % of the 1RM, the ceiling not 100 to 160 % of it, or the lower not
        1 to 30 s.
    """

    max_kg: Decimal
    step_kg: Decimal
    ceiling_kg: Decimal
    lower_s: float = USUAL_LOWER_S

    def __post_init__(self) -> None:
        least, most = self.of_max(LEAST_STEP), self.of_max(LARGEST_STEP)
        if not least <= self.step_kg <= most:
            raise OutOfRange(
                f"steps of {kg_text(self.step_kg)} are not possible",
                hint=f"1 to 10 % of the 1RM, so {kg_text(least)} to {kg_text(most)}",
            )
        highest = min(self.of_max(HIGHEST_CEILING), Decimal(HEAVIEST_KG))
        if not self.max_kg <= self.ceiling_kg <= highest:
            raise OutOfRange(
                f"a ceiling of {kg_text(self.ceiling_kg)} is not possible",
                hint=f"100 to 160 % of the 1RM, so {kg_text(self.max_kg)} to {kg_text(highest)}",
            )
        if not SHORTEST_LOWER_S <= self.lower_s <= LONGEST_LOWER_S:
            raise OutOfRange(
                f"a lower of {self.lower_s:g} s is not possible",
                hint=f"{SHORTEST_LOWER_S} to {LONGEST_LOWER_S} s",
            )

    @classmethod
    def of(cls, begun: ReserveBegun) -> LoadSpan:
        """Return the span of a test that was begun; where it ends lower than the 1RM, that."""
        max_kg, step_kg = decimal_of(begun.max_kg), decimal_of(begun.step_kg)
        least, most = (max_kg * decimal_of(share) for share in (LEAST_STEP, LARGEST_STEP))
        highest = min(max_kg * decimal_of(HIGHEST_CEILING), Decimal(HEAVIEST_KG))
        return cls(
            max_kg,
            min(max(step_kg, least), most),
            min(max(decimal_of(begun.ceiling_kg), max_kg), highest),
            begun.lower_s,
        )

    def of_max(self, share: float) -> Decimal:
        """Return a share of the 1RM."""
        return self.max_kg * decimal_of(share)

    def first_kg(self, rack: Rack | None) -> Decimal:
        """Return the load to begin with: the 1RM, or what can be loaded below it."""
        return _at_most(self.max_kg, rack)

    def next_kg(self, held_kg: Decimal, rack: Rack | None) -> Decimal | None:
        """Return the load behind one that was held; None where there is none.

        Parameters
        ----------
        held_kg
            The greatest load held so far.
        rack
            What loads are rounded down to; None where any can be had.
        """
        most = min(self.ceiling_kg, held_kg + self.of_max(LARGEST_STEP))
        # Counted from the 1RM, so that what is rounded away does not shorten every step.
        aim = self.max_kg + max((held_kg - self.max_kg) // self.step_kg, Decimal(0)) * self.step_kg
        while aim < most:
            # Less than half a step would be an attempt for little.
            if (load := _at_most(aim, rack)) - held_kg >= self.step_kg / 2:
                return load
            aim += self.step_kg
        load = _at_most(most, rack)
        return load if load > held_kg else None

    def loads(self, rack: Rack | None) -> tuple[Decimal, ...]:
        """Return all loads that a test without a loss goes through."""
        return tuple(self._loads(rack))

    def _loads(self, rack: Rack | None) -> Iterator[Decimal]:
        load: Decimal | None = self.first_kg(rack)
        while load is not None:
            yield load
            load = self.next_kg(load, rack)


def span_of(
    max_kg: float,
    *,
    step: Load = USUAL_STEP,
    ceiling: Load = USUAL_CEILING,
    lower_s: float = USUAL_LOWER_S,
) -> LoadSpan:
    """Return the span that a step and a ceiling, as loads or shares of the 1RM, give.

    Raises
    ------
    OutOfRange
        As for `LoadSpan`, or one of them hangs on the body.
    """
    return LoadSpan(
        decimal_of(max_kg), _kg_of(step, max_kg), _kg_of(ceiling, max_kg), float(lower_s)
    )


def as_load(kg: Decimal) -> Load:
    """Return kilograms as a line has them, or in pounds where only these are a round number."""
    lb = (kg / KG_PER_LB).quantize(_GRAM)
    if kg != kg.quantize(_GRAM) and lb * KG_PER_LB == kg:
        return Load(lb, LoadUnit.LB)
    return Load(kg.quantize(_GRAM, ROUND_DOWN), LoadUnit.KG)


def _kg_of(load: Load, max_kg: float) -> Decimal:
    if load.on_body:
        raise OutOfRange(f"{load} hangs on the body", hint="give kg, lb or a share such as 5%")
    if load.unit is LoadUnit.PERCENT:
        return decimal_of(max_kg) * load.amount / 100
    return load.amount * (KG_PER_LB if load.unit is LoadUnit.LB else 1)


def _at_most(kg: Decimal, rack: Rack | None) -> Decimal:
    """Round down to what can be loaded and written; what is lighter than the bar is no bar's."""
    if rack is not None and kg >= rack.empty_kg:
        kg = nearest_loadable(rack, kg)[0] or kg
    load = as_load(kg)
    return load.amount * (KG_PER_LB if load.unit is LoadUnit.LB else 1)


def decimal_of(number: float) -> Decimal:
    """Return a number of a fact as it stands there."""
    return Decimal(str(number))


def kg_text(kg: Decimal) -> str:
    """Return such as ``97.5 kg``."""
    return f"{float(kg):.4g} kg"
