"""What the log holds of a reserve test: that it was begun, and each attempt."""

from __future__ import annotations

from typing import Annotated, Final, Literal, Self, TypeAlias

from pydantic import Field, model_validator

from tempo_coach.core.fact_values import (
    HEAVIEST_KG,
    VERSION,
    FactValue,
    Kilograms,
    Name,
    SetId,
    Version,
)
from tempo_coach.core.written_values import Time

LEAST_STEP: Final = 0.01
"""Of the 1RM; smaller ones would make a test of countless attempts."""
LARGEST_STEP: Final = 0.10
"""Of the 1RM: nobody is led further at once (common practice, no source)."""
HIGHEST_CEILING: Final = 1.60
"""Of the 1RM: as far as a share can go on a line."""
SHORTEST_LOWER_S: Final = 1
LONGEST_LOWER_S: Final = 30
_ROUNDING: Final = 1e-9
"""What a share loses on its way through binary floating point."""

LoadOfTest: TypeAlias = Annotated[float, Field(gt=0, le=HEAVIEST_KG)]
"""What can become a max."""


class ReserveBegun(FactValue):
    """A reserve test was begun."""

    v: Version = VERSION
    kind: Literal["reserve_begun"] = "reserve_begun"
    id: SetId
    """The test's own."""
    at: Time
    lifter: Name
    exercise: Name
    max_kg: Annotated[float, Field(gt=0, le=HEAVIEST_KG)]
    """The 1RM that the reserve is measured against."""
    step_kg: Kilograms
    """How much heavier each attempt is, before it is rounded to what can be loaded."""
    lower_s: Annotated[float, Field(ge=SHORTEST_LOWER_S, le=LONGEST_LOWER_S)]
    ceiling_kg: LoadOfTest
    """The last load that the test goes up to."""

    @model_validator(mode="after")
    def _stays_within(self) -> Self:
        share = self.step_kg / self.max_kg
        if not LEAST_STEP * (1 - _ROUNDING) <= share <= LARGEST_STEP * (1 + _ROUNDING):
            raise ValueError(f"a step of {self.step_kg:g} kg is not 1 to 10 % of the 1RM")
        if self.ceiling_kg > HIGHEST_CEILING * self.max_kg * (1 + _ROUNDING):
            raise ValueError(f"a ceiling of {self.ceiling_kg:g} kg is above 160 % of the 1RM")
        return self


class AttemptMade(FactValue):
    """An attempt of a reserve test was made."""

    v: Version = VERSION
    kind: Literal["attempt_made"] = "attempt_made"
    id: SetId
    """The attempt's own."""
    at: Time
    test: SetId
    """The test's id."""
    set: SetId | None
    """The id of the set that was logged; None where nothing was lifted."""
    load_kg: LoadOfTest
    held: bool
    """It was lowered under control for as long as asked."""
    lowered_s: Annotated[float, Field(ge=0, le=120)] | None
    """Measured by the partner; None where nobody did."""

    @model_validator(mode="after")
    def _is_held_only_where_it_was_lifted(self) -> Self:
        if self.held and self.set is None:
            raise ValueError("held without a set")
        return self
